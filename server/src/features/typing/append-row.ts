import type { TextEdit } from "../../text/edits";
import { span } from "../../text/span";
import type { LogView } from "../view";
import { rowText } from "./row-text";
import { lineEndAt, lineSpanAt, sheetAt, type Texts } from "./sheet";

/**
 * A row below the last of a table, and where in it the column left open is typed into.
 * @param header offset of the table's header row
 */
export function appendRow(
  view: LogView,
  header: number,
  texts: Texts,
  open: number,
): { readonly edits: readonly TextEdit[]; readonly cursor: number } | undefined {
  const { text } = view.doc;
  const sheet = sheetAt(view, lineSpanAt(text, header));
  if (!sheet) return undefined;
  const row = rowText(sheet, texts, sheet.rows, open);
  const at = sheet.rows.at(-1)?.line.end ?? sheet.delimiter.end;
  const eol = lineEndAt(text, at);
  return {
    edits: [{ span: span(at, at), newText: eol + row.text }],
    cursor: at + eol.length + (row.ends[open] ?? row.text.length),
  };
}
