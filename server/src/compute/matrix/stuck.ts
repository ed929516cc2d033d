// Crossings that answer at power-up with nothing closed.
import { explainByLines, type LineFault } from "./by-lines";
import type { Results } from "./results";
import { type Cell, cellName, cellOf, lineName, type MatrixShape } from "./shape";

export interface StuckReport {
  readonly lines: readonly (LineFault & { readonly sentence: string })[];
  readonly cells: readonly (Cell & { readonly sentence: string })[];
  readonly source: string;
}

/** Whole lines that are held come before single crossings, as for dead ones. */
export function stuckReport(shape: MatrixShape, { stuck, tested }: Results): StuckReport {
  const { lines, cells } = explainByLines(shape, stuck, tested);
  return {
    lines: lines.map((line) => ({
      ...line,
      sentence: `All ${line.cells.size} crossings tested on ${lineName(shape, line)} answer with nothing closed: the line is held by its own chip, by residue at the header, or it is shorted to a supply.${line.needed ? "" : " Another explanation needs no more faults."}`,
    })),
    cells: cells.map(cellOf).map((cell) => ({
      ...cell,
      sentence: `The crossing at ${cellName(shape, cell)} answers with nothing closed: its row and its column are joined. On the bare board look for solder or residue between the two; in the machine, for a closed switch.`,
    })),
    source: "common practice, no source",
  };
}
