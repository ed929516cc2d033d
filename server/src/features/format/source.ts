// How a table stands in its text.
import { type SplitRow, splitRow } from "../../syntax/rows";
import type { Table } from "../../syntax/tables";
import type { Span } from "../../text/span";

/** The line around a row; undefined where anything but blanks stands beside the row on it. */
export function wholeLine(text: string, row: Span): Span | undefined {
  let { start, end } = row;
  while (text[start - 1] === " " || text[start - 1] === "\t") start--;
  while (text[end] === " " || text[end] === "\t") end++;
  return isEnd(text[start - 1]) && isEnd(text[end]) ? { start, end } : undefined;
}

const isEnd = (unit: string | undefined): boolean => unit === undefined || unit === "\n" || unit === "\r";

/** The way the delimiter row is typed, `| --- |` or `|-----|`, stays. */
export function isSpaced(text: string, { delimiter }: Table): boolean {
  const split: SplitRow = splitRow(text, delimiter.span);
  const [first] = split.pieces;
  return split.leadingPipe && first !== undefined && first.outer.start < first.span.start;
}
