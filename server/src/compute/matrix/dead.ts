// Dead rows, columns and crossings: what all the dead crossings have in common is looked at first.

import { defined } from "../../base/defined";
import { explainByLines, type LineFault } from "./by-lines";
import type { Results } from "./results";
import {
  allCells,
  type Cell,
  cellName,
  cellOf,
  keyOf,
  keysOf,
  type Line,
  lineName,
  listed,
  type MatrixShape,
} from "./shape";

const PRACTICE = "common practice, no source";

export interface DeadLine extends LineFault {
  readonly sentence: string;
}

export interface DeadCell extends Cell {
  readonly sentence: string;
}

/** A line the results leave undecided, and the untested crossing that would decide it. */
export interface Undecided {
  readonly line: Line;
  /** Absent where no crossing is left whose other line is known to answer. */
  readonly test?: Cell;
  readonly sentence: string;
}

export interface DeadReport {
  readonly lines: readonly DeadLine[];
  readonly cells: readonly DeadCell[];
  readonly undecided: readonly Undecided[];
  /** Said where two or more were tested and none answers: look at what all lines share before any line. */
  readonly nothingAnswers?: string;
  readonly source: string;
}

/** Fewest faults that explain the dead crossings, lines before single crossings. See `explainByLines`. */
export function deadReport(shape: MatrixShape, results: Results): DeadReport {
  const { dead, tested } = results;
  const { lines, cells, notExcluded } = explainByLines(shape, dead, tested);
  const open = [...lines.filter(({ needed }) => !needed), ...notExcluded];
  const silent = tested.size >= 2 && dead.size === tested.size;
  return defined({
    lines: lines.map((line) => ({ ...line, sentence: lineSentence(shape, line) })),
    cells: cells.map((key) => ({ ...cellOf(key), sentence: cellSentence(shape, cellOf(key), results) })),
    undecided: open.map((line) => undecided(shape, line, results)),
    nothingAnswers: silent
      ? `None of the ${tested.size} crossings tested answers. Look first at what they all share: the header, the strobe's supply, the way round of the test lead's diode, and whether the test program runs.`
      : undefined,
    source: PRACTICE,
  });
}

function lineSentence(shape: MatrixShape, line: LineFault): string {
  const shared =
    "look at what they share: the line's driver or input, its resistor, the header pin and the track";
  const other = line.needed ? "" : " Another explanation needs no more faults.";
  return `All ${line.cells.size} crossings tested on ${lineName(shape, line)} are dead: ${shared}.${other}`;
}

function cellSentence(shape: MatrixShape, cell: Cell, { answered }: Results): string {
  const alive = [...answered].map(cellOf);
  const row = alive.some((other) => other.row === cell.row);
  const column = alive.some((other) => other.column === cell.column);
  const name = cellName(shape, cell);
  if (row && column) {
    return `The crossing at ${name} is dead while its row and its column answer elsewhere: on the bare board the track or the test lead, in the machine the switch or lamp, its diode or its wire.`;
  }
  const unseen = listed([...(row ? [] : ["row"]), ...(column ? [] : ["column"])]);
  return `The crossing at ${name} is dead, and its ${unseen} did not answer anywhere else: test another crossing there before blaming this one.`;
}

function undecided(shape: MatrixShape, line: Line, { tested, answered }: Results): Undecided {
  const { kind, number } = line;
  const across = kind === "row" ? "column" : "row";
  const reserved = keysOf(shape.reserved);
  // A line that answered anywhere is never itself suspected of being dead.
  const alive = new Set([...answered].map((key) => cellOf(key)[across]));
  const test = allCells(shape)
    .filter((cell) => cell[kind] === number && !tested.has(keyOf(cell)) && !reserved.has(keyOf(cell)))
    .find((cell) => alive.has(cell[across]));
  const doubt = `Whether ${lineName(shape, line)} is dead too, the results do not tell`;
  return defined({
    line: { kind, number },
    test,
    sentence: test
      ? `${doubt}: test ${cellName(shape, test)}, whose ${across} answers.`
      : `${doubt}: none of its untested crossings has a ${across} that is known to answer. Probe the line itself.`,
  });
}
