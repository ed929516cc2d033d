// Rows of a table with the exact places of their cells.

import { type Span, slice } from "../text/span";
import type { SplitRow } from "./rows";

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

/** A line that was cut at its pipes as a row of a table of so many columns. */
export function rowOfTable(text: string, split: SplitRow, columnCount: number): Row {
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
