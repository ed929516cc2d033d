// A readings table as it is filled in: its rows as cells with their places in the document.
import { blockAt } from "../../log/document";
import type { LogTable } from "../../log/model";
import { type SplitRow, splitRow } from "../../syntax/rows";
import { decodeCell } from "../../syntax/tables";
import { type Span, slice, span, touches } from "../../text/span";
import type { LogView } from "../view";

/** The cells of a row as read, `\|` decoded. */
export type Texts = readonly string[];

export interface SheetCell {
  readonly text: string;
  /** The content; in an empty cell where something would be typed. Of the document, as all here. */
  readonly span: Span;
  readonly outer: Span;
}

export interface SheetRow {
  /** The whole line without its end. */
  readonly line: Span;
  readonly cells: readonly SheetCell[];
  /** True where a pipe ends the row. */
  readonly closed: boolean;
  /** False for a line of words right below a table, which Markdown takes for a row of it. */
  readonly piped: boolean;
}

export interface Sheet {
  readonly view: LogView;
  readonly table: LogTable;
  readonly header: SheetRow;
  readonly delimiter: Span;
  readonly rows: readonly SheetRow[];
}

export interface SheetPosition {
  readonly sheet: Sheet;
  /** Row from 0; -1 on the delimiter row. */
  readonly row: number;
  readonly column: number;
  /** True behind the last pipe of the row, or behind the last word of a row that has no pipe there. */
  readonly atEnd: boolean;
}

/** Where in a readings table the cursor is; undefined outside of one and in its header. */
export function sheetPositionAt(view: LogView, offset: number): SheetPosition | undefined {
  const line = lineSpanAt(view.doc.text, offset);
  const sheet = sheetAt(view, line);
  if (!sheet) return undefined;
  if (line.start === sheet.delimiter.start) {
    return { sheet, row: -1, column: 0, atEnd: slice(view.doc.text, span(offset, line.end)).trim() === "" };
  }
  const row = sheet.rows.findIndex((each) => each.line.start === line.start);
  const at = sheet.rows[row];
  if (!at?.piped) return undefined;
  const inside = at.cells.findIndex((cell) => touches(cell.outer, offset));
  const behind = slice(view.doc.text, span(offset, line.end)).trim() === "";
  const last = at.cells.length - 1;
  const column = inside >= 0 ? inside : behind ? last : 0;
  return { sheet, row, column, atEnd: behind && (inside < 0 || inside === last) };
}

/** The readings table that a line is part of. */
export function sheetAt(view: LogView, line: Span): Sheet | undefined {
  const placed = blockAt(view.doc, line.start);
  if (!placed) return undefined;
  const { start } = placed;
  const table = placed.block.tables.find(
    ({ span: own }) => own.start + start <= line.end && own.end + start >= line.start,
  );
  if (!table) return undefined;
  const { text } = view.doc;
  const read = (own: Span) => sheetRow(text, lineSpanAt(text, own.start + start));
  const { header, delimiter, rows } = table.source;
  return {
    view,
    table,
    header: read(header.span),
    delimiter: lineSpanAt(text, delimiter.span.start + start),
    rows: rows.map((row) => read(row.span)),
  };
}

export function sheetRow(text: string, line: Span): SheetRow {
  const split: SplitRow = splitRow(text, line);
  return {
    line,
    cells: split.pieces.map(({ outer, span: own }) => ({
      outer,
      span: own,
      text: decodeCell(slice(text, own)),
    })),
    closed: split.trailingPipe,
    piped: split.pipes > 0,
  };
}

export const cellTexts = ({ cells }: SheetRow): Texts => cells.map(({ text }) => text);

/** The line that holds the offset, without its end. */
export function lineSpanAt(text: string, offset: number): Span {
  let start = Math.min(offset, text.length);
  // Between the two characters of a line end the line before is meant.
  if (text[start - 1] === "\r" && text[start] === "\n") start--;
  let end = start;
  while (start > 0 && !isLineEnd(text[start - 1])) start--;
  while (end < text.length && !isLineEnd(text[end])) end++;
  // The mark at the very beginning of a file is no part of its first line.
  return span(text[start] === "\uFEFF" && start === 0 ? 1 : start, end);
}

const isLineEnd = (unit: string | undefined): boolean => unit === "\n" || unit === "\r";

/** The line end used behind a line; that of the document where the line is its last. */
export function lineEndAt(text: string, end: number): string {
  const own = /^(?:\r\n|\n|\r)/.exec(text.slice(end, end + 2))?.[0];
  return own ?? /\r\n|\n|\r/.exec(text)?.[0] ?? "\n";
}

/** The line above; undefined above the first. */
export function lineAbove(text: string, line: Span): Span | undefined {
  if (line.start === 0) return undefined;
  const end = line.start - (text.slice(line.start - 2, line.start) === "\r\n" ? 2 : 1);
  return end < 0 || text[line.start - 1] === "\uFEFF" ? undefined : lineSpanAt(text, end);
}

/** The lines with pipes right below a line: rows of the same table that a line put between them has cut off. */
export function rowsBelow(text: string, line: Span): SheetRow[] {
  const rows: SheetRow[] = [];
  for (let at = line.end; at < text.length; ) {
    const next = lineSpanAt(text, at + lineEndAt(text, at).length);
    const row = sheetRow(text, next);
    if (!row.piped) break;
    rows.push(row);
    at = next.end;
  }
  return rows;
}
