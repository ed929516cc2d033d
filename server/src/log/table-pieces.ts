// A long table read some rows at a time, so that a keystroke costs the rows about it. What is kept of a piece is kept with
// the text of its rows, for as long as the table is read in the same way.
import { defined } from "../base/defined";
import { withLater } from "../base/later";
import { memo } from "../base/memo";
import { once } from "../base/once";
import { placedInTurn } from "../base/placed";
import type { RowChunk } from "../syntax/row-chunks";
import { type Row, rowAt, type Table } from "../syntax/tables";
import { type Span, shift } from "../text/span";
import { FROM_HEAD, isFromHead, mapSubject, subjectFromHead } from "./from-head";
import type { Holds } from "./kinds/kind";
import type { CellText, LocatedPiece, LogBlock, LogRow, LogTable, Reading, Subject } from "./model";
import { type Inherited, readRows, type TableHead } from "./read-rows";

/** A table without what is read of its rows. */
export type BareTable = Omit<LogTable, "readings" | "rows">;

/** What is done in one row of work, another may take back. */
const BY_ROW: ReadonlySet<Holds> = new Set<Holds>(["readings", "inspection", "parts"]);

/**
 * Undefined for a table that is read as a whole: a short one, and a grid, whose marks mean what its other rows say.
 * @param given what stands outside of it says that its rows are about
 */
export function tableInPieces(table: BareTable, own: TableHead, given: Inherited): LogTable | undefined {
  const { chunks, columnCount } = table.source;
  if (!chunks || !BY_ROW.has(own.kind.holds)) return undefined;
  if (own.meaning) return undefined;
  const head = keptHead(chunks, own);
  const pieces: LocatedPiece[] = [];
  let above: Inherited = subjectFromHead(given);
  let firstRow = 0;
  for (const { start, chunk } of chunks) {
    const { block, table: piece, below } = pieceOf(chunk, head, columnCount, inheritedMoved(above, -start));
    pieces.push({ start, firstRow, block, table: piece });
    above = inheritedMoved(below, start);
    firstRow += chunk.count;
  }
  const rows = placedInTurn(
    pieces.map((piece) => piece.table.rows.length),
    (part, at): LogRow => {
      const { start, firstRow, table: piece } = pieces[part]!;
      const { index, span, cells } = piece.rows[at]!;
      return { index: firstRow + index, span: shift(span, start), cells: placedSubject(cells, start) };
    },
  );
  const readings = placedInTurn(
    pieces.map((piece) => piece.table.readings.length),
    (part, at): Reading => {
      const { start, firstRow, table: piece } = pieces[part]!;
      const reading = piece.readings[at]!;
      const row = firstRow + reading.row;
      const column = piece.source.rows[reading.row]?.cells.indexOf(reading.cell) ?? -1;
      const cell = rowAt(table.source, row)?.cells[column] ?? reading.cell;
      const subject = own.cellSpec ? placedSubject(reading.subject, start) : rows.at(row).cells;
      return { ...reading, table: whole, row, subject, cell };
    },
  );
  const whole: LogTable = withLater(
    { ...table, pieces, readingAt: readings.at },
    { readings: readings.all, rows: rows.all },
  );
  return whole;
}

interface Piece {
  readonly block: LogBlock;
  readonly table: LogTable;
  /** What its rows leave to those below it. */
  readonly below: Inherited;
}

/** The ways in which a chunk's tables were read last, each with its pieces by what they took over from above. */
const readAs = memo((_chunk: RowChunk): { head: TableHead; pieces: Map<string, Piece> }[] => []);
/** So many are kept: a table that was copied is read under two headings. */
const KEPT = 3;

/** The very head that one of the rows was read by before, where it is the same. */
function keptHead(chunks: NonNullable<Table["chunks"]>, own: TableHead): TableHead {
  const key = headKey(own);
  for (const { chunk } of chunks)
    for (const { head } of readAs(chunk)) if (head === own || isSame(head, own, key)) return head;
  return own;
}

const isSame = (a: TableHead, b: TableHead, key: string): boolean =>
  a.library === b.library &&
  a.procedure === b.procedure &&
  a.section.procedure === b.section.procedure &&
  a.ripple === b.ripple &&
  a.columns.length === b.columns.length &&
  a.columns.every(({ spec }, at) => spec === b.columns[at]?.spec) &&
  headKey(a) === key;

/** All that its words and places are. */
const headKey = memo(({ section, columns, unit, measuresAt, unitsAt }: TableHead): string => {
  const { procedure: _, ...words } = section;
  return JSON.stringify([
    words,
    columns.map(({ header, unit: own }) => [header, own]),
    unit,
    measuresAt,
    unitsAt,
  ]);
});

function pieceOf(chunk: RowChunk, head: TableHead, columnCount: number, above: Inherited): Piece {
  const ways = readAs(chunk);
  let way = ways.find((one) => one.head === head);
  if (!way) {
    way = { head, pieces: new Map() };
    ways.unshift(way);
    ways.splice(KEPT);
  }
  const key = JSON.stringify([columnCount, above.ref, above.part]);
  let piece = way.pieces.get(key);
  if (!piece) {
    if (way.pieces.size >= KEPT) way.pieces.clear();
    piece = readPiece(chunk, head, columnCount, above);
    way.pieces.set(key, piece);
  }
  return piece;
}

function readPiece(chunk: RowChunk, head: TableHead, columnCount: number, above: Inherited): Piece {
  const { section, procedure, kind, shape, columns, turned } = head;
  const rows = chunk.rows(columnCount);
  const span = { start: rows[0]?.span.start ?? 0, end: rows.at(-1)?.span.end ?? 0 };
  const header: Row = { span, cells: columns.map((column) => column.header), missing: 0 };
  const source: Table = { span, header, delimiter: { span, cells: [] }, rows, columnCount };
  const below = { ...above };
  const bare = { source, span, section, procedure, kind, shape, columns, ...turned, isPiece: true as const };
  const read = once(() => readRows(head, rows, below, table));
  const table: LogTable = withLater(bare, { readings: () => read().readings, rows: () => read().rows });
  read();
  return { block: blockOf(chunk.text, table), table, below };
}

/** A block of which nothing is known but its tables. */
export function nothingBeside(text: string): Omit<LogBlock, "tables" | "pieces"> {
  const tree = { type: "root" as const, children: [] };
  const none: readonly never[] = [];
  const source = {
    text,
    tree,
    outline: tree,
    tooLarge: false,
    headings: none,
    tables: none,
    almostTables: none,
    comments: none,
  };
  return {
    source,
    sections: none,
    proseTables: none,
    almostTables: none,
    suppressions: none,
    comments: none,
  };
}

/** The rows of a piece as a block that holds nothing else. */
function blockOf(text: string, table: LogTable): LogBlock {
  const block: LogBlock = withLater(
    { ...nothingBeside(text), tables: [table] },
    { pieces: () => [{ start: 0, block }] },
  );
  return block;
}

const inheritedMoved = ({ ref, part }: Inherited, by: number): Inherited =>
  defined({ ref: ref && moved(ref, by), part: part && moved(part, by) });

const moved = (cell: CellText, by: number): CellText =>
  isFromHead(cell.span) ? cell : { text: cell.text, span: shift(cell.span, by) };

/** A span of a piece where the piece stands in its block, or where the table's head has it. */
export const placedSpan = (span: Span, start: number): Span =>
  isFromHead(span) ? shift(span, -FROM_HEAD) : shift(span, start);

/** The very reading of `readings` with that number, where not all of a long table are wanted. */
export const readingAt = (table: LogTable, index: number): Reading | undefined =>
  table.readingAt ? table.readingAt(index) : table.readings[index];

/** A long table some rows at a time, any other whole: for what asks nothing of their places in the block. */
export const tableParts = (table: LogTable): readonly LogTable[] =>
  table.pieces?.map((piece) => piece.table) ?? [table];

const placedSubject = (subject: Subject, start: number): Subject =>
  mapSubject(subject, ({ text, span }) => ({ text, span: placedSpan(span, start) }));
