// One line of a GFM table, cut at its pipes. The parser's own cell positions take in pipes and padding and slip
// by one at `\r\n`, so the cells are cut from the source here, by the parser's rules.

import type { Span } from "../text/span";

export interface RowPiece {
  /** Between the pipes; where the row has no pipe at that end, to the end of the line. */
  readonly outer: Span;
  /**
   * The content without spaces and tabs at its ends. Zero-width in an empty cell, one character behind the
   * pipe where there is room, so that typing there leaves the padding.
   */
  readonly span: Span;
}

/** A row of a table by its cells; the pipes at its two ends may be left out. */
export interface SplitRow {
  /** The line without spaces and tabs at its ends. */
  readonly span: Span;
  readonly pieces: readonly RowPiece[];
  readonly leadingPipe: boolean;
  readonly trailingPipe: boolean;
  /** Number of unescaped pipes. */
  readonly pipes: number;
}

/** Cuts one line (its line end not included). A backslash keeps the pipe or backslash behind it from counting. */
export function splitRow(text: string, line: Span): SplitRow {
  const span = trimmed(text, line);
  const bars: number[] = [];
  for (let i = span.start; i < span.end; i++) {
    const unit = text[i];
    if (unit === "\\" && (text[i + 1] === "\\" || text[i + 1] === "|")) i++;
    else if (unit === "|") bars.push(i);
  }
  const leadingPipe = bars[0] === span.start;
  // A row that is one pipe has one empty cell: the pipe leads it.
  const trailingPipe = bars.length > (leadingPipe ? 1 : 0) && bars.at(-1) === span.end - 1;
  const inside = bars.slice(leadingPipe ? 1 : 0, trailingPipe ? -1 : undefined);

  const pieces: RowPiece[] = [];
  let start = leadingPipe ? span.start + 1 : line.start;
  const last = trailingPipe ? span.end - 1 : line.end;
  for (const end of [...inside, last]) {
    pieces.push(piece(text, { start, end }));
    start = end + 1;
  }
  return { span, pieces, leadingPipe, trailingPipe, pipes: bars.length };
}

function piece(text: string, outer: Span): RowPiece {
  const span = trimmed(text, outer);
  if (span.start < span.end) return { outer, span };
  const at = outer.start < outer.end ? outer.start + 1 : outer.start;
  return { outer, span: { start: at, end: at } };
}

/** Without spaces and tabs at the ends; no other white space counts as padding in Markdown. */
export function trimmed(text: string, { start, end }: Span): Span {
  let from = start;
  let to = end;
  while (from < to && isBlank(text[from])) from++;
  while (to > from && isBlank(text[to - 1])) to--;
  return { start: from, end: to };
}

const isBlank = (unit: string | undefined): boolean => unit === " " || unit === "\t";

/** The lines of a stretch of text, their line ends not included. */
export function linesOf(text: string, within: Span): Span[] {
  const lines: Span[] = [];
  let start = within.start;
  for (let i = within.start; i < within.end; i++) {
    const unit = text[i];
    if (unit !== "\r" && unit !== "\n") continue;
    lines.push({ start, end: i });
    if (unit === "\r" && text[i + 1] === "\n") i++;
    start = i + 1;
  }
  if (start < within.end) lines.push({ start, end: within.end });
  return lines;
}
