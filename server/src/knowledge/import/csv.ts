import type { Importing } from "./imported";

export interface CsvRow {
  readonly cells: readonly string[];
  /** Where it begins, from 1. */
  readonly line: number;
  /** The end of the text came inside quotation marks. */
  readonly cut: boolean;
}

export const SEPARATORS = [",", ";", "\t"] as const;
export type Separator = (typeof SEPARATORS)[number];

const STRIDE = 200_000;

/**
 * The rows of a table of separated cells, one by one; `take` false stops. As RFC 4180 has it, and as people have it: any
 * line end, quotation marks only where they begin a cell, blanks around cells taken off.
 */
export function* eachRow(
  text: string,
  separator: Separator,
  take: (row: CsvRow) => boolean,
): Importing<void> {
  let next = STRIDE;
  let line = 1;
  for (let at = 0; at < text.length; ) {
    if (at >= next) {
      next = at + STRIDE;
      yield { done: at, total: text.length };
    }
    const began = line;
    const cells: string[] = [];
    let cut = false;
    for (;;) {
      const cell =
        text[skipBlanks(text, at, separator)] === '"'
          ? quotedCell(text, at, separator)
          : bareCell(text, at, separator);
      cells.push(cell.text.trim());
      line += cell.feeds;
      cut ||= cell.cut;
      at = cell.end;
      if (text[at] !== separator) break;
      at++;
    }
    if (text[at] === "\r" && text[at + 1] === "\n") at++;
    at++;
    if (!take({ cells, line: began, cut })) return;
    line++;
  }
}

interface Cell {
  readonly text: string;
  /** On the separator or the line end behind it. */
  readonly end: number;
  readonly feeds: number;
  readonly cut: boolean;
}

function skipBlanks(text: string, from: number, separator: Separator): number {
  let at = from;
  while (text[at] === " " || (text[at] === "\t" && separator !== "\t")) at++;
  return at;
}

function bareCell(text: string, at: number, separator: Separator): Cell {
  let end = at;
  while (end < text.length && text[end] !== separator && text[end] !== "\n" && text[end] !== "\r") end++;
  return { text: text.slice(at, end), end, feeds: 0, cut: false };
}

function quotedCell(text: string, from: number, separator: Separator): Cell {
  const open = skipBlanks(text, from, separator);
  let close = text.indexOf('"', open + 1);
  while (close >= 0 && text[close + 1] === '"') close = text.indexOf('"', close + 2);
  const end = close < 0 ? text.length : close;
  const inside = text.slice(open + 1, end);
  // What stands between the closing mark and the separator belongs to the cell, as in `"C1" (left)`.
  const rest = close < 0 ? { text: "", end, feeds: 0 } : bareCell(text, close + 1, separator);
  return {
    text: inside.replaceAll('""', '"') + rest.text,
    end: rest.end,
    feeds: inside.match(/\r\n?|\n/g)?.length ?? 0,
    cut: close < 0,
  };
}
