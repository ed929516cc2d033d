// A new row of a table, laid out as the rows around it are.
import { encodeCell } from "../../syntax/tables";
import { slice } from "../../text/span";
import type { Sheet, SheetRow, Texts } from "./sheet";

/** Characters of a reading as a meter shows it, "0.582", where no row tells how many are typed here. */
const TYPED = 5;

export interface RowText {
  readonly text: string;
  /** Where in it each column's cell is typed into: behind its content. */
  readonly ends: readonly number[];
}

/**
 * The row's text without a line end. Cells are as wide as the header's, or as the row above has them where that is
 * less. One cell may be left for typing: it is narrower by what is likely to be typed, so that the columns come into line.
 * @param above the row above, if there is one
 * @param typed the column left for typing, where there is one
 */
export function rowText(sheet: Sheet, texts: Texts, above: readonly SheetRow[], typed?: number): RowText {
  const { header, view } = sheet;
  const last = above.at(-1);
  const line = slice(view.doc.text, header.line);
  const leading = line.trimStart().startsWith("|") || (texts[0] ?? "") === "";
  let text = /^[ \t]*/.exec(line)?.[0] ?? "";
  if (leading) text += "|";
  const ends: number[] = [];
  header.cells.forEach((model, column) => {
    const outer = slice(view.doc.text, model.outer);
    const first = column === 0 && !leading;
    const before = first || !/^[ \t]/.test(outer) ? "" : " ";
    // A backslash right before the pipe would make it a part of the cell.
    const spaced = /[ \t]$/.test(outer) || model.text === "" || texts[column]?.endsWith("\\") === true;
    const after = spaced ? " " : "";
    const own = last?.cells[column]?.outer;
    const width = Math.min(outer.length, own ? own.end - own.start : outer.length);
    const content = encodeCell(texts[column] ?? "");
    const expected = column === typed && content === "" ? likely(above, column, width) : content.length;
    const isLast = column === header.cells.length - 1 && !header.closed;
    text += before + content;
    ends.push(text.length);
    if (!isLast) text += " ".repeat(Math.max(0, width - before.length - expected - after.length)) + after;
    if (!isLast || header.closed) text += "|";
  });
  return { text, ends };
}

/** How many characters will be typed: as many as in the last row that has any. */
function likely(above: readonly SheetRow[], column: number, width: number): number {
  const same = above.findLast((row) => (row.cells[column]?.text ?? "") !== "");
  return same?.cells[column]?.text.length ?? Math.min(TYPED, Math.max(0, width - 2));
}
