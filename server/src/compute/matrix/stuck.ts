// Crossings that answer at power-up with nothing closed.

import type { Saying } from "../../text/saying";
import { explainByLines, type LineFault } from "./by-lines";
import { NOT_ALONE } from "./dead";
import type { Results } from "./results";
import { type Crossing, cellName, cellOf, lineName, type MatrixShape } from "./shape";

export interface StuckReport {
  readonly lines: readonly (LineFault & { readonly says: Saying })[];
  readonly cells: readonly (Crossing & { readonly says: Saying })[];
  readonly source: string;
}

/** Whole lines that are held come before single crossings, as for dead ones. */
export function stuckReport(shape: MatrixShape, { stuck, tested }: Results): StuckReport {
  const { lines, cells } = explainByLines(shape, stuck, tested);
  return {
    lines: lines.map((line) => ({
      ...line,
      says: {
        fact: `All ${line.cells.size} crossings tested on ${lineName(shape, line)} answer with nothing closed.`,
        cause: `Its own chip or residue at the header holds the line, or it is shorted to a supply.${line.needed ? "" : ` ${NOT_ALONE}`}`,
        step: "Check the line with the power off.",
      },
    })),
    cells: cells.map(cellOf).map((cell) => ({
      ...cell,
      says: {
        fact: `The crossing at ${cellName(shape, cell)} answers with nothing closed.`,
        cause: "Its row and its column are joined.",
        step: "On the bare board look for solder or residue between the two; in the machine, for a closed switch.",
      },
    })),
    source: "common practice, no source",
  };
}
