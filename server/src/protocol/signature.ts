import type { MarkupContent, SignatureHelp, TextDocumentPositionParams } from "vscode-languageserver";
import { defined } from "../base/defined";
import type { Signature } from "../features/signature";
import type { Markdown } from "../text/markdown";
import { answering } from "./answer";
import type { ClientAbilities } from "./client-abilities";
import { contentOf } from "./content";
import { signatureIn } from "./features";
import type { Session } from "./session";

/**
 * No character brings it up: at every cell it would lie over the list of suggestions and the rows above. Who wants it
 * asks (Ctrl+Shift+Space), and then it stays and follows from cell to cell until it is sent away.
 */
export const SIGNATURE = { triggerCharacters: [], retriggerCharacters: ["|", " ", ",", "-", "."] };

export function handleSignature(session: Session): void {
  const { connection, documents, service, can } = session;
  const safely = answering(session);
  connection.onSignatureHelp(
    safely("What is expected here", null, ({ textDocument, position }: TextDocumentPositionParams) => {
      const document = documents.get(textDocument.uri);
      const found = document && signatureIn(service, document.uri, document.lines.offsetAt(position));
      return found ? wire(found, can) : null;
    }),
  );
}

function wire({ label, documentation, parameters, active }: Signature, can: ClientAbilities): SignatureHelp {
  const told = (value: Markdown): MarkupContent => contentOf(value, can.signatureMarkdown);
  return {
    signatures: [
      {
        label,
        documentation: told(documentation),
        parameters: parameters.map((it) =>
          defined({
            label: can.parameterStretches
              ? [it.span.start, it.span.end]
              : label.slice(it.span.start, it.span.end),
            documentation: it.documentation === "" ? undefined : told(it.documentation),
          }),
        ),
      },
    ],
    activeSignature: 0,
    // Clients that cannot be told that there is none mostly take a number past the last for it; left out, it is the first.
    activeParameter: active ?? (can.noActiveParameter ? null : parameters.length),
  };
}
