// Which rows and columns the recorded tests have exercised, and the fewest further crossings that exercise the rest.
import type { Result } from "../result";
import { maximumMatching } from "./matching";
import { type Recorded, sortResults } from "./results";
import {
  type Crossing,
  cellName,
  cellOf,
  crossingKey,
  crossingsInOrder,
  joinWords,
  keysOf,
  lineName,
  type MatrixLine,
  type MatrixShape,
} from "./shape";

export interface Unprovable {
  readonly line: MatrixLine;
  /** All its crossings are reserved, or those that are not were tested and none of them works. */
  readonly because: "reserved" | "none-works";
  readonly sentence: string;
}

/** Which lines have answered so far, and what is left to test. */
export interface Proving {
  readonly ok: true;
  readonly proven: readonly MatrixLine[];
  readonly unproven: readonly MatrixLine[];
  /** As few untested crossings as exercise every unproven line that can be, by row; never a reserved one. */
  readonly next: readonly Crossing[];
  readonly unprovable: readonly Unprovable[];
  readonly sentence: string;
  readonly source: string;
}

const SOURCE =
  "smallest edge cover from a largest matching (Gallai's identity, from memory); along the diagonal: common practice, no source";

/**
 * A line is proven by one crossing on it that works. Unproven lines are covered by untested crossings: one
 * between two unproven lines serves both, so as many such pairs as possible are taken (a maximum matching) and each
 * line left over takes one crossing of its own, be its other line proven or not. Of equally short plans
 * the diagonal is preferred, not enforced. Refuses a matrix or a crossing that cannot be.
 */
export function provingPlan(shape: MatrixShape, recorded: readonly Recorded[]): Result<Proving> {
  const sorted = sortResults(shape, recorded);
  if (!sorted.ok) return sorted;
  const { works, tested } = sorted.results;
  const reserved = keysOf(shape.reserved);
  const worked = [...works].map(cellOf);
  const provenRows = new Set(worked.map(({ row }) => row));
  const provenColumns = new Set(worked.map(({ column }) => column));
  const isProven = ({ kind, number }: MatrixLine): boolean =>
    (kind === "row" ? provenRows : provenColumns).has(number);
  const lines = matrixLines(shape);
  const mayTest = (cell: Crossing): boolean =>
    !reserved.has(crossingKey(cell)) && !tested.has(crossingKey(cell));

  const rows = upTo(shape.rows).filter((row) => !provenRows.has(row));
  const columns = upTo(shape.columns);
  const pairs = maximumMatching(
    rows.map((row) =>
      byDiagonal(shape, { kind: "row", number: row })
        .filter(({ column }) => !provenColumns.has(column))
        .filter(mayTest)
        .map(({ column }) => column),
    ),
    // Begun on the diagonal; where it is blocked, the shortest paths shift it.
    rows.flatMap((row, index) =>
      columns.filter((column) => column === row && mayTest({ row, column })).map((c) => [index, c] as const),
    ),
  );
  const next = new Map<number, Crossing>();
  const add = (cell: Crossing): void => void next.set(crossingKey(cell), cell);
  pairs.forEach((column, index) => {
    if (column !== undefined) add({ row: rows[index]!, column });
  });
  const unprovable: Unprovable[] = [];
  const unproven = lines.filter((line) => !isProven(line));
  for (const line of unproven) {
    if ([...next.values()].some((cell) => lies(cell, line))) continue;
    const cell = byDiagonal(shape, line).find(mayTest);
    if (cell) add(cell);
    else unprovable.push(cannot(shape, line, reserved));
  }
  const cells = crossingsInOrder(next.values());
  return {
    ok: true,
    proven: lines.filter(isProven),
    unproven,
    next: cells,
    unprovable,
    sentence: summary(shape, unproven, cells, unprovable),
    source: SOURCE,
  };
}

const upTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 1);

const lies = ({ row, column }: Crossing, { kind, number }: MatrixLine): boolean =>
  (kind === "row" ? row : column) === number;

export const matrixLines = ({ rows, columns }: MatrixShape): readonly MatrixLine[] => [
  ...upTo(rows).map((number) => ({ kind: "row", number }) as const),
  ...upTo(columns).map((number) => ({ kind: "column", number }) as const),
];

/** Crossings of a line, those nearest to the diagonal first; past a corner the diagonal begins again. */
function byDiagonal({ rows, columns }: MatrixShape, { kind, number }: MatrixLine): readonly Crossing[] {
  const count = kind === "row" ? columns : rows;
  const home = (number - 1) % count;
  const off = (i: number): number => (i - home + count) % count;
  const order = upTo(count).sort((a, b) => off(a - 1) - off(b - 1));
  return order.map((other) =>
    kind === "row" ? { row: number, column: other } : { row: other, column: number },
  );
}

function cannot(shape: MatrixShape, line: MatrixLine, reserved: ReadonlySet<number>): Unprovable {
  const all = byDiagonal(shape, line).every((cell) => reserved.has(crossingKey(cell)));
  const name = lineName(shape, line);
  return all
    ? {
        line,
        because: "reserved",
        sentence: `${upper(name)} cannot be proven here: all its crossings are reserved. Tell the owner.`,
      }
    : {
        line,
        because: "none-works",
        sentence: `${upper(name)} has no untested crossing left, and none of those tested works. Find the fault, then test it again.`,
      };
}

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function summary(
  shape: MatrixShape,
  unproven: readonly MatrixLine[],
  next: readonly Crossing[],
  unprovable: readonly Unprovable[],
): string {
  if (unproven.length === 0) return "Every row and every column has answered at a crossing that works.";
  const names = joinWords(unproven.map((line) => lineName(shape, line)));
  const still = `Not yet exercised: ${names}.`;
  const test =
    next.length > 0
      ? ` ${next.length === 1 ? "One crossing covers" : `${next.length} crossings cover`} ${unprovable.length > 0 ? "what can be covered" : "them"}: ${next.map((cell) => cellName(shape, cell)).join("; ")}.`
      : "";
  return [still + test, ...unprovable.map(({ sentence }) => sentence)].join(" ");
}
