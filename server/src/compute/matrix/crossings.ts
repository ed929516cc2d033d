// When a part on a row and a part on a column have both failed, something joined the two lines and carried more than
// logic: most likely a switch in the machine that touches a lamp or coil supply. It lies where the failed
// lines cross. Unless it is cleared, the repaired board fails again at once.

import { defined } from "../../base/defined";
import type { Saying } from "../../text/saying";
import type { Result } from "../result";
import {
  badLine,
  badShape,
  type Crossing,
  cellName,
  crossingKey,
  keysOf,
  type MatrixShape,
  nameOfCell,
} from "./shape";

export interface SuspectCrossing extends Crossing {
  /** The switch's name in the board file; absent where none is named there. */
  readonly name?: string;
  /** Never exercised in a test, but looked at all the same. */
  readonly reserved: boolean;
}

export interface FailedLines {
  /** Numbers of rows and of columns whose driver, input or resistor has failed, from 1, in any order. */
  readonly rows: readonly number[];
  readonly columns: readonly number[];
}

export interface Crossings {
  readonly ok: true;
  /** Row by row; empty where only rows or only columns have failed. */
  readonly cells: readonly SuspectCrossing[];
  /** The step is what to clear. */
  readonly says: Saying;
  readonly caution: string;
  readonly source: string;
}

const CAUTION = "Mains off, supplies discharged; local codes and licensed practice apply.";

/** The crossings of the failed lines: look at the switches there before the board is plugged in. */
export function crossingsToClear(shape: MatrixShape, failed: FailedLines): Result<Crossings> {
  const rows = ascending(failed.rows);
  const columns = ascending(failed.columns);
  const bad =
    badShape(shape) ??
    badLine(shape, [
      ...rows.map((number) => ({ kind: "row", number }) as const),
      ...columns.map((number) => ({ kind: "column", number }) as const),
    ]);
  if (bad) return bad;
  const reserved = keysOf(shape.reserved);
  const cells = rows.flatMap((row) =>
    columns.map((column): SuspectCrossing => {
      const name = nameOfCell(shape, { row, column });
      return defined({
        row,
        column,
        name: name || undefined,
        reserved: reserved.has(crossingKey({ row, column })),
      });
    }),
  );
  return {
    ok: true,
    cells,
    says: sayingOf(shape, rows, columns, cells),
    caution: CAUTION,
    source: "common practice, no source",
  };
}

const ascending = (numbers: readonly number[]): readonly number[] =>
  [...new Set(numbers)].sort((a, b) => a - b);

function sayingOf(
  shape: MatrixShape,
  rows: readonly number[],
  columns: readonly number[],
  cells: readonly SuspectCrossing[],
): Saying {
  if (rows.length === 0 && columns.length === 0)
    return { fact: "No row and no column is recorded as failed." };
  if (cells.length === 0) {
    const [kind, numbers] = rows.length > 0 ? (["row", rows] as const) : (["column", columns] as const);
    const other = kind === "row" ? "column" : "row";
    return {
      fact: `Parts have failed on ${kind} ${numbers.join(", ")} and on no ${other}.`,
      cause: `Any switch on ${numbers.length === 1 ? `that ${kind}` : `those ${kind}s`} may touch a supply.`,
    };
  }
  const names = cells.map((cell) => cellName(shape, cell)).join("; ");
  const where = cells.length === 1 ? "it" : "each";
  return {
    fact: `Parts have failed on row ${rows.join(", ")} and on column ${columns.join(", ")}.`,
    cause: `They cross at ${names}.`,
    step: `Clear ${where} of any lamp or coil supply before plugging in.`,
  };
}
