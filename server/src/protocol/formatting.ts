import type { Range, TextEdit as WireEdit } from "vscode-languageserver";
import { answering } from "./answer";
import { spanOf, toLspRange } from "./convert";
import { formattingOf } from "./features";
import type { Session } from "./session";

/**
 * Puts a log's tables in line, all of them or those that one of some ranges touches, each once. The client's wishes for indentation and ends of
 * lines are not looked at: nothing but the tables is touched. What is no log gets null, so that it stays as it is.
 */
export function handleFormatting(session: Session): void {
  const { connection, documents, service } = session;
  const safely = answering(session);
  const format = (uri: string, ranges?: readonly Range[]): WireEdit[] | null => {
    const document = documents.get(uri);
    if (!document) return null;
    const { lines } = document;
    const parts = ranges
      ? ranges.map((range) => formattingOf(service, document.uri, spanOf(lines, range)))
      : [formattingOf(service, document.uri)];
    if (parts.includes(undefined)) return null;
    const edits = new Map(parts.flatMap((part) => (part ?? []).map((edit) => [edit.span.start, edit])));
    return [...edits.values()].map(({ span, newText }) => ({ range: toLspRange(lines, span), newText }));
  };
  connection.onDocumentFormatting(safely("Formatting", null, ({ textDocument }) => format(textDocument.uri)));
  connection.onDocumentRangeFormatting(
    safely("Formatting a range", null, ({ textDocument, range }) => format(textDocument.uri, [range])),
  );
  // "Format what I changed": several tables at once.
  connection.onDocumentRangesFormatting(
    safely("Formatting ranges", null, ({ textDocument, ranges }) => format(textDocument.uri, ranges)),
  );
}
