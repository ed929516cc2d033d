// The rows of a long table some at a time, so that a change in one of them leaves the others the very same objects. Where a
// table is cut is told by the text of its rows alone, so that a row that comes or goes moves no cut far from it.

import { withLater } from "../base/later";
import { memoHeld } from "../base/memo";
import { once } from "../base/once";
import { isPlainRow } from "./plain-rows";
import { linesOf, splitRow } from "./rows";
import { type Row, rowOfTable } from "./table-rows";

/** Rows that stand together in a long table. The very same object for as long as their text stays, wherever it stands. */
export interface RowChunk {
  readonly text: string;
  /** How many rows there are. */
  readonly count: number;
  /** True where the parser would cut every line at its pipes and otherwise leave it as it is. */
  readonly isPlain: boolean;
  /** Its rows in a table of so many columns; spans count from the start of its text. */
  rows(columnCount: number): readonly Row[];
}

/** A chunk at its place. */
export interface LocatedChunk {
  readonly start: number;
  readonly chunk: RowChunk;
}

/** Rows from which on a table is cut; what is shorter costs little as it is. */
const LONG = 96;
/** Rows of a chunk: the fewest, the most, and one in how many a cut comes behind. */
const LEAST = 12;
const MOST = 48;
const ONE_IN = 16;
/** Characters of a row that tell whether a cut comes behind it. */
const LOOKED_AT = 32;

/**
 * The lines of a table below its delimiter row, cut into chunks without a gap; undefined where they are few.
 * @param from where the first of them begins
 * @param to the end of the last, without its line end
 */
export function chunksIn(text: string, from: number, to: number): readonly LocatedChunk[] | undefined {
  if (!isLong(text, from, to)) return undefined;
  const chunks: LocatedChunk[] = [];
  let start = from;
  let count = 0;
  for (let line = from; line < to; ) {
    const newline = text.indexOf("\n", line);
    const next = newline < 0 || newline >= to ? to : newline + 1;
    count++;
    const isCut = count >= MOST || (count >= LEAST && isMark(text, line, next));
    if (isCut || next === to) {
      chunks.push({ start, chunk: chunkOf(text.slice(start, next)) });
      start = next;
      count = 0;
    }
    line = next;
  }
  return chunks;
}

function isLong(text: string, from: number, to: number): boolean {
  let count = 0;
  for (let at = from; at >= from && at < to && count < LONG; count++) at = text.indexOf("\n", at) + 1 || to;
  return count >= LONG;
}

function isMark(text: string, from: number, to: number): boolean {
  const end = Math.min(to, from + LOOKED_AT);
  let sum = 0;
  for (let i = from; i < end; i++) sum = (Math.imul(sum, 31) + text.charCodeAt(i)) | 0;
  return ((sum >>> 4) ^ (sum >>> 16)) % ONE_IN === 0;
}

const chunkOf = memoHeld((text): RowChunk => {
  const lines = linesOf(text, { start: 0, end: text.length });
  const isPlain = once(
    () => !/\r(?!\n)/.test(text) && lines.every(({ start, end }) => isPlainRow(text.slice(start, end))),
  );
  let last: { readonly columnCount: number; readonly rows: readonly Row[] } | undefined;
  const rows: RowChunk["rows"] = (columnCount) => {
    if (last?.columnCount !== columnCount)
      last = {
        columnCount,
        rows: lines.map((line) => rowOfTable(text, splitRow(text, line), columnCount)),
      };
    return last.rows;
  };
  return withLater({ text, count: lines.length, rows }, { isPlain });
});
