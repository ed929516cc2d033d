// Writing into the cells of a table without moving its other columns, as far as there is room.
import { encodeCell } from "../../syntax/tables";
import type { TextEdit } from "../../text/edits";
import { slice, span } from "../../text/span";
import type { Sheet } from "./sheet";

/**
 * The edit that makes this the content of a cell, with `\|` for its pipes; undefined where it is that already. The blanks
 * behind it give way, so that the pipe stays where it is if there is room. A row that is short of the cell gets it.
 */
export function fillCell(sheet: Sheet, row: number, column: number, value: string): TextEdit | undefined {
  const own = sheet.rows[row];
  if (!own) return undefined;
  const { text } = sheet.view.doc;
  const content = encodeCell(value);
  const cell = own.cells[column];
  if (!cell) {
    const { edit, inside } = drawOut(sheet, row, column);
    return { ...edit, newText: edit.newText.slice(0, inside) + content + edit.newText.slice(inside) };
  }
  if (slice(text, cell.span) === content) return undefined;
  const lead = cell.span.start - cell.outer.start;
  const isOpen = column === own.cells.length - 1 && !own.closed;
  const room = cell.outer.end - cell.outer.start - lead - content.length;
  const before = lead === 0 && cell.text === "" && !isOpen ? " " : "";
  return {
    span: span(cell.span.start, cell.outer.end),
    newText: before + content + (isOpen ? "" : " ".repeat(Math.max(1, room - before.length))),
  };
}

/** The edits that fill several cells of a row; a row that is short of some of them gets them all at once. */
export function fillCells(sheet: Sheet, row: number, values: ReadonlyMap<number, string>): TextEdit[] {
  const own = sheet.rows[row];
  if (!own) return [];
  const edits: TextEdit[] = [];
  const beyond: string[] = [];
  for (const [column, value] of [...values].sort(([a], [b]) => a - b)) {
    if (column >= own.cells.length) beyond[column - own.cells.length] = encodeCell(value);
    else edits.push(...[fillCell(sheet, row, column, value) ?? []].flat());
  }
  if (beyond.length === 0) return edits;
  const { edit } = drawOut(sheet, row, own.cells.length);
  const cells = Array.from(beyond, (value) => ` ${value ?? ""} |`).join("");
  // The last cell of an open row reaches to the end of its line: where it is written, nothing behind it is left to replace.
  const start = Math.max(edit.span.start, ...edits.map((each) => each.span.end));
  return [...edits, { span: span(start, edit.span.end), newText: (own.closed ? "" : " |") + cells }];
}

/**
 * A text as the value of a cell: on one line, and no backslash right before a pipe, where it would undo the escape of the
 * pipe.
 */
export const cellValue = (text: string): string =>
  text
    .replace(/\s+/g, " ")
    .trim()
    .replace(/\\(?=\|)/g, "\\ ");

/** Where the cursor belongs in a cell: behind its content, or where that would be typed. */
export function cursorInCell(
  sheet: Sheet,
  row: number,
  column: number,
): { readonly edit?: TextEdit; readonly cursor: number } {
  const own = sheet.rows[row];
  const cell = own?.cells[column];
  if (cell) return { cursor: cell.text === "" ? cell.span.start : cell.span.end };
  if (!own) return { cursor: sheet.delimiter.end };
  const { edit, inside } = drawOut(sheet, row, column);
  return { edit, cursor: edit.span.start + inside };
}

/** Adds the cells up to a column to a row that ends before it. */
function drawOut(sheet: Sheet, row: number, column: number) {
  const own = sheet.rows[row]!;
  const { text } = sheet.view.doc;
  const end = own.line.start + slice(text, own.line).trimEnd().length;
  const missing = column - own.cells.length + 1;
  const before = `${own.closed ? "" : " |"}${"  |".repeat(missing - 1)} `;
  return { edit: { span: span(end, own.line.end), newText: `${before} |` }, inside: before.length };
}
