// A matrix as the computations here see it: a size, the crossings nobody may exercise, and names for the sentences.
// Rows, columns and crossings count from 1, as in board files.

import { memo, memoHeld } from "../../base/memo";
import type { Matrix } from "../../knowledge/types";
import { type Err, refused } from "../result";

/** More rows or columns than any board scans; it bounds the work. */
export const MOST_LINES = 32;

/** A crossing by its row and column, both from 1. */
export interface Crossing {
  readonly row: number;
  readonly column: number;
}

/** A row or a column by its number, from 1. */
export interface MatrixLine {
  readonly kind: "row" | "column";
  readonly number: number;
}

/** A switch or lamp matrix as computations need it; which of the two it is makes no difference to them. */
export interface MatrixShape {
  /** Numbers of lines, 1 to 32 each. */
  readonly rows: number;
  readonly columns: number;
  /** Crossings that must not be exercised. */
  readonly reserved: readonly Crossing[];
  /** Net names of the lines and names of the crossings, where the board file gives them. */
  readonly rowNames?: readonly string[];
  readonly columnNames?: readonly string[];
  readonly cellNames?: readonly (readonly (string | null)[])[];
}

/** The shape of a board file's matrix; the very same object for like matrices, of whatever board. */
export const shapeOf = memo(
  (matrix: Matrix): MatrixShape =>
    ofText(
      JSON.stringify({
        rows: matrix.rows.length,
        columns: matrix.columns.length,
        reserved: matrix.reserved.map(([row, column]) => ({ row, column })),
        rowNames: matrix.rows,
        columnNames: matrix.columns,
        cellNames: matrix.cells,
      }),
    ),
);
const ofText = memoHeld((text): MatrixShape => JSON.parse(text));

/** One number a crossing, for sets and maps. */
export const crossingKey = ({ row, column }: Crossing): number => row * (MOST_LINES + 1) + column;

export const cellOf = (key: number): Crossing => ({
  row: Math.floor(key / (MOST_LINES + 1)),
  column: key % (MOST_LINES + 1),
});

/** A set of crossings that can be asked with `keyOf`. */
export const keysOf = (cells: Iterable<Crossing>): ReadonlySet<number> =>
  new Set([...cells].map(crossingKey));

/** By row, then by column. */
export const crossingsInOrder = (cells: Iterable<Crossing>): readonly Crossing[] =>
  [...cells].sort((a, b) => crossingKey(a) - crossingKey(b));

const isLine = (number: number, most: number): boolean =>
  Number.isInteger(number) && number >= 1 && number <= most;

/** True for a crossing that a matrix of this size has. */
export const isInside = ({ rows, columns }: MatrixShape, { row, column }: Crossing): boolean =>
  isLine(row, rows) && isLine(column, columns);

/** A refusal where the size, a reserved crossing or one of the cells given cannot be. */
export function badShape(shape: MatrixShape, cells: readonly Crossing[] = []): Err | undefined {
  const { rows, columns, reserved } = shape;
  const outside = (what: string, list: readonly Crossing[]): string | undefined => {
    const cell = list.find((at) => !isInside(shape, at));
    return (
      cell &&
      `The ${what} row ${cell.row}, column ${cell.column} is not in a matrix of ${rows} rows and ${columns} columns. Rows and columns count from 1.`
    );
  };
  return refused(
    isLine(rows, MOST_LINES) && isLine(columns, MOST_LINES)
      ? undefined
      : `A matrix has 1 to ${MOST_LINES} rows and columns, but ${rows} rows and ${columns} columns are given.`,
    outside("reserved crossing", reserved),
    outside("crossing", cells),
  );
}

/** A refusal where one of the lines given is not in the matrix. */
export function badLine(shape: MatrixShape, lines: readonly MatrixLine[]): Err | undefined {
  const most = (kind: MatrixLine["kind"]): number => (kind === "row" ? shape.rows : shape.columns);
  const wrong = lines.find(({ kind, number }) => !isLine(number, most(kind)));
  return refused(
    wrong &&
      `There is no ${wrong.kind} ${wrong.number}: the matrix has ${most(wrong.kind)} ${wrong.kind}s, counted from 1.`,
  );
}

/** Every crossing, row by row. */
export const allCells = ({ rows, columns }: MatrixShape): readonly Crossing[] =>
  Array.from({ length: rows * columns }, (_, i) => ({
    row: Math.floor(i / columns) + 1,
    column: (i % columns) + 1,
  }));

/** "row 3 (SW_ROW_3)". */
export function lineName(shape: MatrixShape, { kind, number }: MatrixLine): string {
  const name = (kind === "row" ? shape.rowNames : shape.columnNames)?.[number - 1];
  return name ? `${kind} ${number} (${name})` : `${kind} ${number}`;
}

/** What stands at a crossing by the board file; undefined where it names nothing. */
export const nameOfCell = (shape: MatrixShape, { row, column }: Crossing): string | undefined =>
  shape.cellNames?.[row - 1]?.[column - 1] ?? undefined;

/** "row 1, column 2 (Start)". */
export function cellName(shape: MatrixShape, cell: Crossing): string {
  const name = nameOfCell(shape, cell);
  return `row ${cell.row}, column ${cell.column}${name ? ` (${name})` : ""}`;
}

/** "a; b and c": crossings hold commas of their own. */
export function joinWords(items: readonly string[], separator = ", "): string {
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(separator)} and ${items.at(-1)}`;
}
