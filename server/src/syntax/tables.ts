import type { Root } from "mdast";
import { type Span, slice } from "../text/span";
import { nodeSpan } from "./node-span";
import { linesOf, type SplitRow, splitRow } from "./rows";

/** How a column is aligned by its delimiter row; null where no colon says so. */
export type Align = "left" | "right" | "center" | null;

export interface Cell {
  /** Exactly the content, without padding; zero-width where a reading would be typed into an empty cell. */
  readonly span: Span;
  /** Between the pipes, or to the line's end where the row has no pipe there. */
  readonly outer: Span;
  /** The source of `span` with `\|` read as `|` and nothing else decoded; empty for an empty cell. */
  readonly text: string;
  /** True for a cell beyond the header's last: Markdown readers leave it out. */
  readonly extra: boolean;
}

export interface Row {
  /** The line without white space at its ends. */
  readonly span: Span;
  /** At least one. */
  readonly cells: readonly Cell[];
  /** How many cells fewer than the header it has; 0 where it has as many or more. */
  readonly missing: number;
}

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
}

/** The tables at root level with the exact places of their cells. */
export function tablesIn(text: string, tree: Root): readonly Table[] {
  const tables: Table[] = [];
  for (const node of tree.children) {
    if (node.type !== "table") continue;
    const span = nodeSpan(text, node);
    if (span === undefined) continue;
    const table = tableOf(text, linesOf(text, span));
    if (table) tables.push(table);
  }
  return tables;
}

/** Lines that are known to be those of a table: header, delimiter row, rows. Undefined where there are fewer than two. */
export function tableOf(text: string, lines: readonly Span[]): Table | undefined {
  const [header, delimiter, ...rows] = lines.map((line) => splitRow(text, line));
  if (header === undefined || delimiter === undefined) return undefined;
  const columnCount = header.pieces.length;
  return {
    span: { start: header.span.start, end: (rows.at(-1) ?? delimiter).span.end },
    header: row(text, header, columnCount),
    delimiter: {
      span: delimiter.span,
      cells: delimiter.pieces.map(({ span: cell }) => ({ span: cell, align: alignOf(slice(text, cell)) })),
    },
    rows: rows.map((each) => row(text, each, columnCount)),
    columnCount,
  };
}

function row(text: string, split: SplitRow, columnCount: number): Row {
  return {
    span: split.span,
    cells: split.pieces.map(({ span, outer }, i) => ({
      span,
      outer,
      text: decodeCell(slice(text, span)),
      extra: i >= columnCount,
    })),
    missing: Math.max(0, columnCount - split.pieces.length),
  };
}

/** `\|` is a pipe in a cell; `\\` stays two characters, but its second cannot escape a pipe. */
export const decodeCell = (source: string): string =>
  source.replace(/\\([\\|])/g, (pair, unit: string) => (unit === "|" ? "|" : pair));

/** A cell's text as it must be typed: the inverse of `decodeCell` for text without backslashes before pipes. */
export const encodeCell = (value: string): string => value.replace(/\|/g, "\\|");

export function alignOf(delimiter: string): Align {
  const left = delimiter.startsWith(":");
  const right = delimiter.endsWith(":");
  if (left && right) return "center";
  if (left) return "left";
  return right ? "right" : null;
}
