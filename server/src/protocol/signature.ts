import { MarkupKind, type SignatureHelp, type TextDocumentPositionParams } from "vscode-languageserver";
import type { Signature } from "../features/signature";
import { answering } from "./answer";
import { signatureIn } from "./features";
import type { Session } from "./session";

/**
 * No character brings it up: at every cell it would lie over the list of suggestions and the rows above. Who wants it
 * asks (Ctrl+Shift+Space), and then it stays and follows from cell to cell until it is sent away.
 */
export const SIGNATURE = { triggerCharacters: [], retriggerCharacters: ["|", " ", ",", "-", "."] };

export function handleSignature(session: Session): void {
  const { connection, documents, service, can } = session;
  const safely = answering(connection);
  connection.onSignatureHelp(
    safely("What is expected here", null, ({ textDocument, position }: TextDocumentPositionParams) => {
      const document = documents.get(textDocument.uri);
      const found = document && signatureIn(service, document.uri, document.lines.offsetAt(position));
      return found ? wire(found, can.signatureMarkdown) : null;
    }),
  );
}

function wire({ label, documentation, parameters, active }: Signature, markdown: boolean): SignatureHelp {
  const kind = markdown ? MarkupKind.Markdown : MarkupKind.PlainText;
  return {
    signatures: [
      {
        label,
        documentation: { kind, value: documentation },
        parameters: parameters.map((it) => ({
          label: [it.span.start, it.span.end],
          ...(it.documentation === "" ? {} : { documentation: { kind, value: it.documentation } }),
        })),
      },
    ],
    activeSignature: 0,
    // A number past the last means none; leaving it out means the first.
    activeParameter: active ?? parameters.length,
  };
}
