import type { Range, TextEdit as WireEdit } from "vscode-languageserver";
import { answering } from "./answer";
import { rangeOf, spanOf } from "./convert";
import { formattingOf } from "./features";
import type { Session } from "./session";

/**
 * Puts a log's tables in line, all of them or those a range touches. The client's wishes for indentation and ends of
 * lines are not looked at: nothing but the tables is touched. What is no log gets null, so that it stays as it is.
 */
export function handleFormatting({ connection, documents, service }: Session): void {
  const safely = answering(connection);
  const format = (uri: string, range?: Range): WireEdit[] | null => {
    const document = documents.get(uri);
    if (!document) return null;
    const { lines } = document;
    const edits = formattingOf(service, document.uri, range && spanOf(lines, range));
    return edits?.map(({ span, newText }) => ({ range: rangeOf(lines, span), newText })) ?? null;
  };
  connection.onDocumentFormatting(safely("Formatting", null, ({ textDocument }) => format(textDocument.uri)));
  connection.onDocumentRangeFormatting(
    safely("Formatting a range", null, ({ textDocument, range }) => format(textDocument.uri, range)),
  );
}
