import type { Root } from "mdast";
import { withLater } from "../base/later";
import { memo } from "../base/memo";
import { placedInTurn } from "../base/placed";
import { type Span, shift, slice } from "../text/span";
import { nodeSpan } from "./node-span";
import { chunksIn, type LocatedChunk } from "./row-chunks";
import { linesOf, splitRow } from "./rows";
import { type Row, rowOfTable } from "./table-rows";

export { type Cell, decodeCell, type Row } from "./table-rows";

/** How a column is aligned by its delimiter row; null where no colon says so. */
export type Align = "left" | "right" | "center" | null;

export interface DelimiterCell {
  readonly span: Span;
  readonly align: Align;
}

/** A GFM table at root level. */
export interface Table {
  /** From the header's first character to the last row's last. */
  readonly span: Span;
  readonly header: Row;
  readonly delimiter: { readonly span: Span; readonly cells: readonly DelimiterCell[] };
  readonly rows: readonly Row[];
  /** Number of cells in the header, which is that of the delimiter row too. */
  readonly columnCount: number;
  /** Of a long table the same rows some at a time, in order and without a gap. */
  readonly chunks?: readonly LocatedChunk[];
  /** The very row of `rows` with that number, where not all of a long table are wanted. */
  readonly rowAt?: (index: number) => Row;
}

/** The words of a row, wherever it stands. */
export interface RowWords {
  readonly cells: readonly { readonly text: string }[];
}

/** The tables at root level with the exact places of their cells. */
export function tablesIn(text: string, tree: Root): readonly Table[] {
  const tables: Table[] = [];
  for (const node of tree.children) {
    if (node.type !== "table") continue;
    const span = nodeSpan(text, node);
    const table = span && (longTable(text, span) ?? tableOf(text, linesOf(text, span)));
    if (table) tables.push(table);
  }
  return tables;
}

/** Lines that are known to be those of a table: header, delimiter row, rows. Undefined where there are fewer than two. */
export function tableOf(text: string, lines: readonly Span[]): Table | undefined {
  const head = headOf(text, lines);
  if (!head) return undefined;
  const rows = lines.slice(2).map((line) => rowOfTable(text, splitRow(text, line), head.columnCount));
  return {
    ...head,
    span: { start: head.header.span.start, end: (rows.at(-1) ?? head.delimiter).span.end },
    rows,
  };
}

function headOf(text: string, [first, second]: readonly Span[]): Omit<Table, "span" | "rows"> | undefined {
  if (first === undefined || second === undefined) return undefined;
  const header = splitRow(text, first);
  const delimiter = splitRow(text, second);
  const columnCount = header.pieces.length;
  return {
    header: rowOfTable(text, header, columnCount),
    delimiter: {
      span: delimiter.span,
      cells: delimiter.pieces.map(({ span: cell }) => ({ span: cell, align: alignOf(slice(text, cell)) })),
    },
    columnCount,
  };
}

/** A table of so many rows that it is worth keeping them some at a time; undefined for any other. */
function longTable(text: string, { start, end }: Span): Table | undefined {
  const from = bodyStart(text, start);
  const chunks = from < end ? chunksIn(text, from, end) : undefined;
  const lines = chunks ? linesOf(text, { start, end: from }) : [];
  const head = lines.length === 2 ? headOf(text, lines) : undefined;
  if (!chunks || !head) return undefined;
  const { columnCount } = head;
  const counts = chunks.map(({ chunk }) => chunk.count);
  const placed = placedInTurn(counts, (part, at) => {
    const { start: by, chunk } = chunks[part]!;
    return movedRow(chunk.rows(columnCount)[at]!, by);
  });
  const last = chunks.at(-1);
  const lastRow = last?.chunk.rows(columnCount).at(-1);
  return withLater(
    {
      ...head,
      span: {
        start: head.header.span.start,
        end: lastRow && last ? last.start + lastRow.span.end : head.delimiter.span.end,
      },
      rowAt: placed.at,
      chunks,
    },
    { rows: placed.all },
  );
}

/** Behind the second line. */
function bodyStart(text: string, start: number): number {
  const first = text.indexOf("\n", start);
  const second = first < 0 ? -1 : text.indexOf("\n", first + 1);
  return second < 0 ? text.length : second + 1;
}

const movedRow = ({ span, cells, missing }: Row, by: number): Row => ({
  span: shift(span, by),
  cells: cells.map((cell) => ({
    span: shift(cell.span, by),
    outer: shift(cell.outer, by),
    text: cell.text,
    extra: cell.extra,
  })),
  missing,
});

/** The very row of `rows` with that number, where not all of a long table are wanted. */
export const rowAt = (table: Table, index: number): Row | undefined =>
  table.rowAt ? table.rowAt(index) : table.rows[index];

/** The rows of a table by their words alone, a long one's some at a time: the very same for as long as those stay. */
export const wordsInParts = memo((table: Table): readonly (readonly RowWords[])[] => {
  const { chunks, columnCount } = table;
  return chunks ? chunks.map(({ chunk }) => chunk.rows(columnCount)) : [table.rows];
});

/** The rows of a table by their words alone: those of a long one are not looked for in the block. */
export const wordsOfRows = memo((table: Table): readonly RowWords[] => {
  const parts = wordsInParts(table);
  return parts.length === 1 ? parts[0]! : parts.flat();
});

/** A cell's text as it must be typed: the inverse of `decodeCell` for text without backslashes before pipes. */
export const encodeCell = (value: string): string => value.replace(/\|/g, "\\|");

export function alignOf(delimiter: string): Align {
  const left = delimiter.startsWith(":");
  const right = delimiter.endsWith(":");
  if (left && right) return "center";
  if (left) return "left";
  return right ? "right" : null;
}
