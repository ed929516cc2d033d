import {
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentHighlightParams,
} from "vscode-languageserver";
import type { Highlight } from "../features/document-highlight";
import { answering } from "./answer";
import { toLspRange } from "./convert";
import { highlightsIn } from "./features";
import type { Session } from "./session";

/** What is done to a thing writes it, so to speak; what speaks of it reads it. */
const KINDS: Readonly<Record<Highlight["kind"], DocumentHighlightKind>> = {
  done: DocumentHighlightKind.Write,
  named: DocumentHighlightKind.Read,
};

export function handleDocumentHighlight(session: Session): void {
  const { connection, documents, service } = session;
  connection.onDocumentHighlight(
    answering(session)("Highlights", null, ({ textDocument, position }: DocumentHighlightParams) => {
      const document = documents.get(textDocument.uri);
      if (!document) return null;
      const found = highlightsIn(service, document.uri, document.lines.offsetAt(position));
      return (
        found?.map(
          ({ span, kind }): DocumentHighlight => ({
            range: toLspRange(document.lines, span),
            kind: KINDS[kind],
          }),
        ) ?? null
      );
    }),
  );
}
