// What technicians write at a crossing, turned into results: "ok", "dead", "stuck", "closes 3,2 too".

import type { CellResult } from "../../compute/matrix/results";
import { type Crossing, crossingKey, isInside, type MatrixShape } from "../../compute/matrix/shape";
import type { CellValue } from "../../quantity/cell-value";

/** "3,2", "3/2", "r3c2", "row 3 column 2", "row 3, col 2". */
const PAIR =
  /(?<![\w.])r?(?:ow)?\s*(\d{1,2})\s*(?:,|\/|x)?\s*(?:c(?:ol(?:umn)?)?)?\s*(?<=[\s,/xcnl])(\d{1,2})(?![\w.])/gi;

/** Words that say another crossing was shown; without one of them a pair of numbers is no result. */
const SHOWS =
  /\b(?:closes|closed|shows|showed|reads|lights|lit|gives|seen|sees|phantom|ghost|also|too|as well|plus|with)\b|\+/i;

/** Words that say the crossing showed itself as well. */
const AS_WELL = /\b(?:also|too|as well|plus|and|both|with|phantom|ghost)\b|\+/i;

const STUCK =
  /^(?:stuck(?!\s*(?:off|open))|always (?:on|closed)|stays (?:on|closed)|held|(?:closed|on) (?:at power|with nothing))/i;

/** Answers, but not as it should: neither dead nor working. */
const POORLY =
  /^(?:dim|weak|wrong|mismatch|no match|flickers?|flickering|dirty|corroded|damaged|cracked|lifted)\b/i;

/** "row 4 as well", "column 3 too", "lights row 2": another line that answers with this one. */
const LINE_TOO =
  /\b(row|col(?:umn)?)\s*(\d{1,2})\s*(?:too|as well|also|answers|closes|lights|shows|comes)\b|\b(?:also|lights|shows|closes|plus)\s+(?:on\s+|in\s+)?(row|col(?:umn)?)\s*(\d{1,2})(?!\s*[,/]?\s*col)/gi;

/** The crossings of this one's row or column on the lines that the words name; inside the shape. */
const linesToo = (typed: string, shape: MatrixShape, own: Crossing): readonly Crossing[] =>
  [...typed.matchAll(LINE_TOO)]
    .map(([, kind, number, kindBehind, numberBehind]) => {
      const isRow = /^row/i.test(kind ?? kindBehind ?? "");
      const at = Number(number ?? numberBehind);
      return isRow ? { row: at, column: own.column } : { row: own.row, column: at };
    })
    .filter((cell) => isInside(shape, cell));

/**
 * The result of closing one crossing; undefined where the cell says nothing of it. "closed" alone is what was seen when
 * the crossing was bridged; one that closes by itself is "stuck" or "closed at power-up".
 * @param note what the row's note adds, which may name a line that answered as well
 */
export function readResult(
  value: CellValue,
  shape: MatrixShape,
  own: Crossing,
  note = "",
): CellResult | undefined {
  const isOther = (cell: Crossing): boolean => crossingKey(cell) !== crossingKey(own);
  const lines = linesToo(`${value.typed}; ${note}`, shape, own).filter(isOther);
  if (lines.length > 0) return { state: "closes-others", others: lines, own: true };
  const others = othersIn(value.typed, shape).filter(isOther);
  if (others.length > 0) {
    const said = value.kind === "result" && value.ok === true && !/^closes\b/i.test(value.typed);
    return { state: "closes-others", others, own: said || AS_WELL.test(value.typed) };
  }
  if (STUCK.test(value.typed)) return { state: "stuck" };
  switch (value.kind) {
    case "result":
      if (value.ok === true) return { state: "works" };
      return { state: value.ok === false && !POORLY.test(value.word) ? "dead" : "intermittent" };
    case "open":
      return { state: "dead" };
    case "short":
      return { state: "stuck" };
    default:
      return undefined;
  }
}

/** The crossings named in words that tell what else was shown; inside the shape, in the order typed. */
export function othersIn(typed: string, shape: MatrixShape): readonly Crossing[] {
  if (!SHOWS.test(typed)) return [];
  const pairs = pairsIn(typed).filter((cell) => isInside(shape, cell));
  if (pairs.length > 0) return pairs;
  const names = typed
    .replace(/^(?:ok|works?)\s*[,;:]?\s*/i, "")
    .replace(
      /\b(?:closes|shows|showed|reads|lights|gives|also|too|as well|phantom|ghost|at|plus|with)\b/gi,
      " ",
    )
    .split(/[,;+&]|\band\b/i);
  return names.flatMap((name) => cellNamed(name, shape) ?? []);
}

/** All that was seen, as a bare list of names or of crossings; empty where anything else is said. */
export function seenIn(typed: string, shape: MatrixShape): readonly Crossing[] {
  const pieces = typed.split(/\s*[;+&]\s*|\s+and\s+|,\s+/).filter((piece) => piece !== "");
  const cells = pieces.map((piece) => cellNamed(piece, shape) ?? barePair(piece));
  const isList = cells.length > 1 && cells.every((cell) => cell !== undefined && isInside(shape, cell));
  return isList ? (cells as readonly Crossing[]) : [];
}

const barePair = (typed: string): Crossing | undefined => {
  const [, row, column] = /^\s*(\d{1,2})\s*[,/]\s*(\d{1,2})\s*$/.exec(typed) ?? [];
  return row === undefined ? undefined : { row: Number(row), column: Number(column) };
};

/** Every pair of numbers written as a crossing, inside the matrix or not. */
export const pairsIn = (typed: string): readonly Crossing[] =>
  [...typed.matchAll(PAIR)].map(([, row, column]) => ({ row: Number(row), column: Number(column) }));

/** The crossing of that name; undefined where none or more than one is called so. */
export function cellNamed(typed: string, { cellNames }: MatrixShape): Crossing | undefined {
  const wanted = fold(typed);
  if (wanted === "") return undefined;
  const found = (cellNames ?? []).flatMap((names, r) =>
    names.flatMap((name, c) => (name && fold(name) === wanted ? [{ row: r + 1, column: c + 1 }] : [])),
  );
  return found.length === 1 ? found[0] : undefined;
}

const fold = (text: string): string => text.trim().replace(/\s+/g, " ").toLowerCase();

/** A line by its number ("3", "row 3", "R3") or its net, from 1; undefined where there is no such line. */
export function lineNamed(typed: string, kind: "row" | "column", shape: MatrixShape): number | undefined {
  const names = (kind === "row" ? shape.rowNames : shape.columnNames) ?? [];
  const byName = names.findIndex((net) => fold(net) === fold(typed));
  if (byName >= 0) return byName + 1;
  const words = kind === "row" ? /^(?:r|row)?\s*(\d{1,3})$/i : /^(?:c|col|column|strobe)?\s*(\d{1,3})$/i;
  const number = Number(words.exec(typed.trim())?.[1]);
  return number >= 1 && number <= (kind === "row" ? shape.rows : shape.columns) ? number : undefined;
}
