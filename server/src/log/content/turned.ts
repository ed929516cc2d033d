// A table turned on its side as one with a row for each of its cells. What was made of rows that stand together in a long one is
// kept with them, so that a key turns the rows about it.
import { withLater } from "../../base/later";
import { memo } from "../../base/memo";
import { placedInTurn } from "../../base/placed";
import type { LocatedChunk, RowChunk } from "../../syntax/row-chunks";
import type { Cell, Row, Table } from "../../syntax/tables";
import { type Span, shift } from "../../text/span";
import { FROM_HEAD } from "../from-head";
import { placedSpan } from "../table-pieces";

/**
 * @param columns those that say what a row is of, which stand in front
 * @param across those whose headers say what their cells are of: a pin, a rail
 */
export const turnedTable = (table: Table, columns: readonly number[], across: readonly number[]): Table =>
  turning(table, columns, across)(table);

/** The same, as a table of its own for each row. */
export function turnedRowByRow(
  table: Table,
  columns: readonly number[],
  across: readonly number[],
): readonly Table[] {
  const turn = turning(table, columns, across);
  if (!table.chunks) return table.rows.map((row) => turn({ rows: [row] }));
  return table.chunks.flatMap((at) =>
    Array.from({ length: at.chunk.count }, (_, row) => turn({ chunks: [at] }, row)),
  );
}

/** Turns some of the table's rows: those given, or of some that stand together one by its number in there. */
function turning(table: Table, columns: readonly number[], across: readonly number[]) {
  const over = table.header.cells;
  const overFromHead = over.map((cell) => placedCell(cell, (span) => shift(span, FROM_HEAD)));
  const blank: Cell = { ...over[0]!, text: "" };
  const header = {
    ...table.header,
    cells: [
      ...columns.map((i) => over[i] ?? blank),
      { ...blank, text: "Pin" },
      { ...(over[across[0] ?? 0] ?? blank), text: "Reading" },
    ],
  };
  const { span, delimiter, columnCount } = table;
  const bare = { span, delimiter, header, columnCount: header.cells.length };
  const key = JSON.stringify([overFromHead, columns, across]);
  return ({ rows = [], chunks }: Partial<Pick<Table, "rows" | "chunks">>, only?: number): Table => {
    if (!chunks) return { ...bare, rows: rows.flatMap((row) => turnedRow(row, over, columns, across)) };
    const pieces = chunks.map(({ start, chunk }): LocatedChunk => {
      const kept = keptOf(chunk, key);
      let made = kept.get(only);
      if (!made) {
        const own = chunk.rows(columnCount);
        const wanted = only === undefined ? own : own.slice(only, only + 1);
        const rows = wanted.flatMap((row) => turnedRow(row, overFromHead, columns, across));
        made = { text: chunk.text, count: rows.length, isPlain: false, rows: () => rows };
        kept.set(only, made);
      }
      return { start, chunk: made };
    });
    const placed = placedInTurn(
      pieces.map(({ chunk }) => chunk.count),
      (part, at): Row => {
        const { start, chunk } = pieces[part]!;
        const row = chunk.rows(0)[at]!;
        const cells = row.cells.map((cell) => placedCell(cell, (own) => placedSpan(own, start)));
        return { ...row, span: shift(row.span, start), cells };
      },
    );
    return withLater({ ...bare, chunks: pieces, rowAt: placed.at }, { rows: placed.all });
  };
}

/** @param over the headers, as rows have their places */
const turnedRow = (
  row: Row,
  over: readonly Cell[],
  columns: readonly number[],
  across: readonly number[],
): readonly Row[] =>
  across.flatMap((i): Row[] => {
    const cell = row.cells[i];
    const head = over[i];
    if (!cell || !head || cell.text === "") return [];
    const beside = columns.map((at) => row.cells[at] ?? { ...over[0]!, text: "" });
    return [{ ...row, missing: 0, cells: [...beside, head, cell] }];
  });

/** What rows that stand together were turned into, by the way, and by the number of the row or none for all of them. */
const waysOf = memo((_chunk: RowChunk) => new Map<string, Map<number | undefined, RowChunk>>());
/** So many ways are kept: a table that was copied stands under two headings. */
const KEPT = 3;

function keptOf(chunk: RowChunk, way: string): Map<number | undefined, RowChunk> {
  const ways = waysOf(chunk);
  let kept = ways.get(way);
  if (!kept) {
    if (ways.size >= KEPT) ways.clear();
    kept = new Map();
    ways.set(way, kept);
  }
  return kept;
}

const placedCell = (cell: Cell, place: (span: Span) => Span): Cell => ({
  ...cell,
  span: place(cell.span),
  outer: place(cell.outer),
});
