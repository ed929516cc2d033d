import {
  CodeLensRefreshRequest,
  type Connection,
  InlayHintRefreshRequest,
  SemanticTokensRefreshRequest,
} from "vscode-languageserver";
import { report } from "./answer";
import type { Session } from "./session";

type Refresh =
  | typeof CodeLensRefreshRequest.type
  | typeof InlayHintRefreshRequest.type
  | typeof SemanticTokensRefreshRequest.type;

/** Under way, and whether there was reason for one more meanwhile; by connection and request. */
const asking = new WeakMap<Connection, Map<string, { again: boolean }>>();

/** Tells the client that all that stands beside the text may say something else now, as far as it can be told. */
export function refreshShown(session: Session): void {
  refreshLenses(session);
  refreshHints(session);
  if (session.can.refreshTokens) void ask(session.connection, SemanticTokensRefreshRequest.type);
}

export function refreshLenses({ connection, can }: Session): void {
  if (can.refreshLenses) void ask(connection, CodeLensRefreshRequest.type);
}

export function refreshHints({ connection, can }: Session): void {
  if (can.refreshHints) void ask(connection, InlayHintRefreshRequest.type);
}

/** One request at a time: a board file that is typed in gives reason for one with every key. */
async function ask(connection: Connection, request: Refresh): Promise<void> {
  const own = asking.get(connection) ?? new Map<string, { again: boolean }>();
  asking.set(connection, own);
  const running = own.get(request.method);
  if (running) {
    running.again = true;
    return;
  }
  const state = { again: false };
  own.set(request.method, state);
  do {
    state.again = false;
    await connection
      .sendRequest(request)
      .catch((error: unknown) => report(connection, "Asking the client to look again", error));
  } while (state.again);
  own.delete(request.method);
}
