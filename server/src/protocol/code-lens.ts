import {
  type CancellationToken,
  type CodeLens,
  type CodeLensParams,
  CodeLensRefreshRequest,
} from "vscode-languageserver";
import type { Lens } from "../features/code-lens";
import { answering, nextTurn, report, stopIfCancelled } from "./answer";
import { WRITE_SUSPECTS } from "./command-names";
import { rangeOf } from "./convert";
import { lensesIn, lensTitleIn } from "./features";
import type { Session } from "./session";

/** What a lens needs to be found again when it is to be filled in. */
interface LensData {
  /** As the client wrote it. */
  readonly uri: string;
  readonly lens: Lens;
}

/** A lens without a command is not shown by some editors and shown as a fault by others. */
const NO_COMMAND = "";

/**
 * Places are given at once and cost no diagnosis; a lens is filled in when the editor is about to show it.
 */
export function handleCodeLens(session: Session): void {
  const { connection, service, documents, can } = session;
  const safely = answering(connection);

  connection.onCodeLens(
    safely("Code lenses", null, ({ textDocument }: CodeLensParams): CodeLens[] | null => {
      const document = documents.get(textDocument.uri);
      if (!document) return null;
      return lensesIn(service, document.uri).map((lens) => ({
        range: rangeOf(document.lines, { start: lens.span.start, end: lens.span.start }),
        data: { uri: textDocument.uri, lens } satisfies LensData,
      }));
    }),
  );

  connection.onCodeLensResolve(async (lens: CodeLens, token: CancellationToken): Promise<CodeLens> => {
    const unknown = { ...lens, command: { title: "Suspects", command: NO_COMMAND } };
    return safely("A code lens", unknown, async () => {
      // What came in meanwhile, an edit or a cancellation, is heard before the work is begun.
      await nextTurn();
      stopIfCancelled(token);
      const data = lens.data as LensData | undefined;
      const document = data && documents.get(data.uri);
      const told =
        document && lensTitleIn(service, document.uri, data.lens, () => token.isCancellationRequested);
      if (!told) return unknown;
      const writes = told.writes && can.applyEdit;
      return {
        ...lens,
        command: writes
          ? { title: told.title, command: WRITE_SUSPECTS, arguments: [data.uri] }
          : { title: told.title, command: NO_COMMAND },
      };
    })(lens, token);
  });
}

/** Tells the client that lenses may say something else now, where it can be told. */
export function refreshLenses({ connection, can }: Session): void {
  if (!can.refreshLenses) return;
  connection
    .sendRequest(CodeLensRefreshRequest.type)
    .catch((error: unknown) => report(connection, "Asking for new code lenses", error));
}
