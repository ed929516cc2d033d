// What stands under the cursor, worked out once and shared by hover, completion, definition and the rest.
import { defined } from "../base/defined";
import type { ColumnRole, ColumnSpec } from "../knowledge/types";
import type { Cell, Row } from "../syntax/tables";
import { pathAt, type YamlPlace } from "../syntax/yaml";
import { startOfBlanks } from "../text/blanks";
import { type Span, shift, slice, span, touches } from "../text/span";
import { blockAt, type LogDocument } from "./document";
import type { LocatedBlock, LogTable, Reading, Section } from "./model";
import { wideSpec } from "./read-table";

/** What stands at one offset of a log. Every span of a position is of the document. */
export type Position =
  | { readonly kind: "front"; readonly place: YamlPlace }
  | {
      readonly kind: "heading";
      readonly section: Section;
      readonly span: Span;
      readonly contentSpan: Span;
      /** The designator that the heading names. */
      readonly ref?: { readonly text: string; readonly span: Span };
    }
  | HeaderPosition
  | CellPosition
  | {
      readonly kind: "prose";
      readonly section: Section;
      /** The line's text from its first character to the cursor, and where that begins. */
      readonly before: string;
      readonly lineStart: number;
      /** The word under the cursor, such as a designator. */
      readonly word?: { readonly text: string; readonly span: Span };
    };

/** The cursor is in a table's header; columns count from 0. */
export interface HeaderPosition {
  readonly kind: "header-cell";
  readonly placed: LocatedBlock;
  readonly table: LogTable;
  readonly column: number;
  /** What the header holds by itself: a designator over a wide table's column, nothing over others. */
  readonly role?: ColumnRole;
  readonly cell: Cell;
  readonly span: Span;
  /** What something typed here replaces: the cell's text, drawn out to a cursor in the padding beside it. */
  readonly edit: Span;
}

/**
 * The cursor is in a cell below the header; rows and columns count from 0. A cell that is not written yet is one too.
 */
export interface CellPosition {
  readonly kind: "cell";
  readonly placed: LocatedBlock;
  readonly table: LogTable;
  readonly column: number;
  readonly row: number;
  readonly role?: ColumnRole;
  readonly spec?: ColumnSpec;
  readonly cell: Cell;
  readonly span: Span;
  /** What something typed here replaces: the cell's text, drawn out to a cursor in the padding beside it. */
  readonly edit: Span;
  readonly reading?: Reading;
}

/** What stands at an offset of the document. There is always something: prose where nothing more is known. */
export function positionAt(doc: LogDocument, offset: number): Position {
  const front = doc.parsed.frontMatter;
  if (front && offset < front.span.end && offset >= front.content.start && offset <= front.content.end) {
    return { kind: "front", place: pathAt(doc.frontMatter.tree, offset) };
  }
  const placed = blockAt(doc, offset);
  if (!placed) return prose(doc, offset, { qualifiers: {} });
  const at = offset - placed.start;
  const typed = startOfBlanks(doc.text, offset, placed.start) - placed.start;
  // Of the tables in one table the one that reads the cell knows most of it.
  const tables = placed.block.tables.filter(
    (t) => !t.isTurned && (touches(t.span, at) || touches(t.span, typed)),
  );
  const found = tables.map((table) => inTable(placed, table, at) ?? atRowEnd(placed, table, typed, at));
  const best = found.find((one) => one?.kind === "cell" && one.spec) ?? found.find((one) => one);
  if (best) return best;
  const section = placed.block.sections.findLast((s) => !s.heading || s.heading.span.start <= at) ?? {
    qualifiers: {},
  };
  const heading = section.heading;
  if (heading && touches(heading.span, at)) {
    return defined({
      kind: "heading",
      section,
      span: shift(heading.span, placed.start),
      contentSpan: shift(heading.contentSpan, placed.start),
      ref: section.ref ? { ...section.ref, span: shift(section.ref.span, placed.start) } : undefined,
    });
  }
  return prose(doc, offset, section);
}

function inTable(
  placed: LocatedBlock,
  table: LogTable,
  at: number,
): HeaderPosition | CellPosition | undefined {
  const { header, rows } = table.source;
  const column = cellIndex(header, at);
  if (column >= 0) return headerCell(placed, table, column, at);
  for (const [row, source] of rows.entries()) {
    const index = cellIndex(source, at);
    const cell = source.cells[index];
    if (cell) return bodyCell(placed, table, row, index, cell, at);
  }
  return undefined;
}

/**
 * A row that is being typed has no end yet: behind its last pipe and a blank begins a cell the syntax does not know
 * of, and blanks behind its last word still belong to the cell that word is in. Right behind the pipe the row may
 * as well be over, and a list popping up there would take the Enter that ends it.
 * @param typed the place behind the last character before the cursor that is no blank
 */
function atRowEnd(
  placed: LocatedBlock,
  table: LogTable,
  typed: number,
  at: number,
): CellPosition | undefined {
  const row = table.source.rows.findIndex((source) => source.span.end === typed);
  const cells = table.source.rows[row]?.cells ?? [];
  const last = cells.at(-1);
  if (!last) return undefined;
  if (last.outer.end >= typed) return bodyCell(placed, table, row, cells.length - 1, last, at);
  if (at === typed || cells.length >= table.source.columnCount) return undefined;
  const begun: Cell = { span: span(at, at), outer: span(typed, at), text: "", extra: false };
  return bodyCell(placed, table, row, cells.length, begun, at);
}

const cellIndex = (row: Row, at: number): number =>
  touches(row.span, at) ? row.cells.findIndex((cell) => touches(cell.outer, at)) : -1;

/** An empty cell is typed into where the cursor is, wherever in it that may be. */
const editSpan = ({ text, span: own }: Cell, at: number): Span =>
  text === "" ? span(at, at) : span(Math.min(own.start, at), Math.max(own.end, at));

function headerCell(
  placed: LocatedBlock,
  table: LogTable,
  column: number,
  at: number,
): HeaderPosition | undefined {
  const cell = table.source.header.cells[column];
  if (!cell) return undefined;
  const named = table.shape === "wide" && column > 0 && !table.columns[column]?.spec;
  const role = named ? table.procedure.wide?.columns : undefined;
  return defined({
    kind: "header-cell",
    placed,
    table,
    column,
    role,
    cell,
    span: shift(cell.span, placed.start),
    edit: shift(editSpan(cell, at), placed.start),
  });
}

function bodyCell(
  placed: LocatedBlock,
  table: LogTable,
  row: number,
  column: number,
  cell: Cell,
  at: number,
): CellPosition {
  const own = table.columns[column]?.spec;
  const wide = table.shape === "wide";
  const spec = own ?? (wide && column > 0 ? wideSpec(table.procedure) : undefined);
  const role = spec?.role ?? (wide && column === 0 ? table.procedure.wide?.rows : undefined);
  const reading = table.readings.find((r) => r.cell === cell);
  return defined({
    kind: "cell",
    placed,
    table,
    column,
    row,
    role,
    spec,
    cell,
    span: shift(cell.span, placed.start),
    edit: shift(editSpan(cell, at), placed.start),
    reading,
  });
}

function prose(doc: LogDocument, offset: number, section: Section): Position {
  const isEnd = (at: number): boolean => doc.text[at] === "\n" || doc.text[at] === "\r";
  let lineStart = offset;
  while (lineStart > 0 && !isEnd(lineStart - 1)) lineStart--;
  let lineEnd = offset;
  while (lineEnd < doc.text.length && !isEnd(lineEnd)) lineEnd++;
  const line = doc.text.slice(lineStart, lineEnd);
  const word = wordAt(line, offset - lineStart);
  return defined({
    kind: "prose",
    section,
    before: doc.text.slice(lineStart, offset),
    lineStart,
    word: word ? { text: word.text, span: shift(word.span, lineStart) } : undefined,
  });
}

/** The word at an offset of a line, such as "U14.3" or "VCC/2"; undefined between words. */
export function wordAt(line: string, offset: number): { text: string; span: Span } | undefined {
  for (const { 0: text, index } of line.matchAll(/[\w+/.-]*\w/g)) {
    const own = span(index, index + text.length);
    if (touches(own, offset)) return { text, span: own };
  }
  return undefined;
}

/** The word at an offset in a cell of the document. */
export function wordInCell(doc: LogDocument, at: Span, offset: number) {
  const word = touches(at, offset) ? wordAt(slice(doc.text, at), offset - at.start) : undefined;
  return word && { text: word.text, span: shift(word.span, at.start) };
}
