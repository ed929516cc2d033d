// Dead rows, columns and crossings: what all the dead crossings have in common is looked at first.

import { defined } from "../../base/defined";
import type { Saying } from "../../text/saying";
import { explainByLines, type LineFault } from "./by-lines";
import type { Results } from "./results";
import {
  allCells,
  type Crossing,
  cellName,
  cellOf,
  crossingKey,
  joinWords,
  keysOf,
  lineName,
  type MatrixLine,
  type MatrixShape,
} from "./shape";

const PRACTICE = "common practice, no source";

export interface DeadLine extends LineFault {
  readonly says: Saying;
}

export interface DeadCell extends Crossing {
  readonly says: Saying;
}

/** A line the results leave undecided, and the untested crossing that would decide it. */
export interface Undecided {
  readonly line: MatrixLine;
  /** Absent where no crossing is left whose other line is known to answer. */
  readonly test?: Crossing;
  readonly says: Saying;
}

export interface DeadReport {
  readonly lines: readonly DeadLine[];
  readonly cells: readonly DeadCell[];
  readonly undecided: readonly Undecided[];
  /** Said where two or more were tested and none answers: look at what all lines share before any line. */
  readonly nothingAnswers?: Saying;
  readonly source: string;
}

/** Fewest faults that explain the dead crossings, lines before single crossings. See `explainByLines`. */
export function deadReport(shape: MatrixShape, results: Results): DeadReport {
  const { dead, tested } = results;
  const { lines, cells, notExcluded } = explainByLines(shape, dead, tested);
  const open = [...lines.filter(({ needed }) => !needed), ...notExcluded];
  const silent = tested.size >= 2 && dead.size === tested.size;
  return defined({
    lines: lines.map((line) => ({ ...line, says: lineSaying(shape, line) })),
    cells: cells.map((key) => ({ ...cellOf(key), says: cellSaying(shape, cellOf(key), results) })),
    undecided: open.map((line) => undecided(shape, line, results)),
    nothingAnswers: silent
      ? {
          fact: `None of the ${tested.size} crossings tested answers.`,
          step: "Check what they all share: the header, the strobe's supply, which way round the test lead's diode is, and the test program.",
        }
      : undefined,
    source: PRACTICE,
  });
}

/** Said of a line where single faults would explain as much. */
export const NOT_ALONE = "Another explanation needs no more faults.";

function lineSaying(shape: MatrixShape, line: LineFault): Saying {
  return {
    fact: `All ${line.cells.size} crossings tested on ${lineName(shape, line)} are dead.`,
    cause: line.needed ? undefined : NOT_ALONE,
    step: "Check what they share: the line's driver or input, its resistor, the header pin and the track.",
  };
}

function cellSaying(shape: MatrixShape, cell: Crossing, { answered }: Results): Saying {
  const alive = [...answered].map(cellOf);
  const row = alive.some((other) => other.row === cell.row);
  const column = alive.some((other) => other.column === cell.column);
  const name = cellName(shape, cell);
  if (row && column) {
    return {
      fact: `The crossing at ${name} is dead; its row and its column answer elsewhere.`,
      step: "On the bare board check the track and the test lead; in the machine the switch or lamp, its diode and wire.",
    };
  }
  const unseen = joinWords([...(row ? [] : ["row"]), ...(column ? [] : ["column"])]);
  return {
    fact: `The crossing at ${name} is dead, and its ${unseen} answered nowhere else.`,
    step: "Test another crossing there before you blame this one.",
  };
}

function undecided(shape: MatrixShape, line: MatrixLine, { tested, answered }: Results): Undecided {
  const { kind, number } = line;
  const across = kind === "row" ? "column" : "row";
  const reserved = keysOf(shape.reserved);
  // A line that answered anywhere is never itself suspected of being dead.
  const alive = new Set([...answered].map((key) => cellOf(key)[across]));
  const test = allCells(shape)
    .filter(
      (cell) => cell[kind] === number && !tested.has(crossingKey(cell)) && !reserved.has(crossingKey(cell)),
    )
    .find((cell) => alive.has(cell[across]));
  const doubt = `The results do not tell whether ${lineName(shape, line)} is dead too`;
  return defined({
    line: { kind, number },
    test,
    says: test
      ? { fact: `${doubt}.`, step: `Test ${cellName(shape, test)}: its ${across} answers.` }
      : {
          fact: `${doubt}.`,
          cause: `None of its untested crossings has a ${across} known to answer.`,
          step: "Probe the line itself.",
        },
  });
}
