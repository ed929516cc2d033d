import {
  CodeLensRefreshRequest,
  type Connection,
  DiagnosticRefreshRequest,
  InlayHintRefreshRequest,
  SemanticTokensRefreshRequest,
} from "vscode-languageserver";
import { report } from "./answer";
import type { ClientAbilities } from "./client-abilities";

type Refresh =
  | typeof CodeLensRefreshRequest.type
  | typeof DiagnosticRefreshRequest.type
  | typeof InlayHintRefreshRequest.type
  | typeof SemanticTokensRefreshRequest.type;

/** Tells the client that what it shows may say something else now, as far as it can be told. */
export interface Refreshes {
  findings(): void;
  lenses(): void;
  hints(): void;
  colours(): void;
}

export function refreshes(connection: Connection, can: ClientAbilities): Refreshes {
  const findings = oneAtATime(connection, DiagnosticRefreshRequest.type);
  const lenses = oneAtATime(connection, CodeLensRefreshRequest.type);
  const hints = oneAtATime(connection, InlayHintRefreshRequest.type);
  const colours = oneAtATime(connection, SemanticTokensRefreshRequest.type);
  return {
    findings() {
      if (can.refreshDiagnostics) findings();
    },
    lenses() {
      if (can.refreshLenses) lenses();
    },
    hints() {
      if (can.refreshHints) hints();
    },
    colours() {
      if (can.refreshTokens) colours();
    },
  };
}

/** A board file that is typed in gives reason for one with every key: there is one under way, and one more after it. */
function oneAtATime(connection: Connection, request: Refresh): () => void {
  let asking = false;
  let again = false;
  const ask = async (): Promise<void> => {
    asking = true;
    do {
      again = false;
      await connection
        .sendRequest(request)
        .catch((error: unknown) => report(connection, "Asking the client to look again", error));
    } while (again);
    asking = false;
  };
  return () => {
    if (asking) again = true;
    else void ask();
  };
}
