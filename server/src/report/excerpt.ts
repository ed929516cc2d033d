import { type DisplayCell, displayCells } from "../text/display-width";
import type { LineIndex } from "../text/line-index";
import type { Range } from "./model";

export interface Excerpt {
  /** The line as shown, cut to what fits, an ellipsis where something was cut. */
  readonly line: string;
  /** Spaces and then markers under what is meant; at least one marker. */
  readonly marker: string;
}

/** The first line of a range with a marker under the part of it that is meant, in at most `width` cells. */
export function excerptOf(text: string, lines: LineIndex, range: Range, width: number): Excerpt {
  const line = range.start.line - 1;
  const from = lines.lineStart(line);
  const source = text.slice(from, lines.lineEnd(line));
  const start = range.start.offset - from;
  const end = range.end.line === range.start.line ? range.end.offset - from : source.length;
  // What nearly every line is: a cell a character, and all of it fits.
  if (source.length <= width && /^[\x20-\x7e]*$/.test(source)) {
    const under = Math.min(Math.max(end, start + 1), source.length) - start;
    return { line: source.trimEnd(), marker: " ".repeat(start) + "^".repeat(Math.max(under, 1)) };
  }
  const cells = displayCells(source);
  const { shown, cutLeft, cutRight } = toFit(cells, start, width);
  let before = cutLeft ? 1 : 0;
  let under = 0;
  for (const [at, cell] of shown.entries()) {
    const next = shown[at + 1]?.start ?? cell.start + 1;
    if (next <= start) before += cell.width;
    else if (cell.start < Math.max(end, start + 1)) under += cell.width;
  }
  const body = shown.map((cell) => cell.text).join("");
  return {
    line: `${cutLeft ? "…" : ""}${body}${cutRight ? "…" : ""}`.trimEnd(),
    marker: " ".repeat(before) + "^".repeat(Math.max(under, 1)),
  };
}

/** As many cells as fit, with the place that is meant in the first third where the line is too long. */
function toFit(cells: readonly DisplayCell[], start: number, width: number) {
  const total = sum(cells);
  if (total <= width) return { shown: cells, cutLeft: false, cutRight: false };
  const room = Math.max(width - 2, 8);
  let first = cells.findIndex((cell) => cell.start >= start);
  if (first < 0) first = cells.length;
  let lead = 0;
  while (first > 0 && (lead < room / 3 || sum(cells.slice(first)) < room - cells[first - 1]!.width)) {
    first--;
    lead += cells[first]!.width;
  }
  let last = first;
  let used = 0;
  while (last < cells.length && used + cells[last]!.width <= room) used += cells[last++]!.width;
  return { shown: cells.slice(first, last), cutLeft: first > 0, cutRight: last < cells.length };
}

const sum = (cells: readonly DisplayCell[]): number => cells.reduce((total, cell) => total + cell.width, 0);
