import type { CellResult, Recorded } from "../../../server/src/compute/matrix/results";
import type { Crossing, MatrixLine, MatrixShape } from "../../../server/src/compute/matrix/shape";
import type { Result } from "../../../server/src/compute/result";

const LETTERS: Readonly<Record<string, CellResult["state"] | "reserved" | undefined>> = {
  o: "works",
  x: "dead",
  s: "stuck",
  i: "intermittent",
  R: "reserved",
  ".": undefined,
};

/** A matrix drawn a row a line: o works, x dead, s stuck, i intermittent, R reserved, . not tested. */
export function drawn(picture: string): { shape: MatrixShape; recorded: Recorded[] } {
  const rows = picture.trim().split(/\s+/);
  const recorded: Recorded[] = [];
  const reserved: Crossing[] = [];
  rows.forEach((line, r) => {
    [...line].forEach((letter, c) => {
      const cell = { row: r + 1, column: c + 1 };
      if (!(letter in LETTERS)) throw new Error(`no such letter: ${letter}`);
      const state = LETTERS[letter];
      if (state === "reserved") reserved.push(cell);
      else if (state !== undefined && state !== "closes-others")
        recorded.push({ ...cell, result: { state } });
    });
  });
  return { shape: { rows: rows.length, columns: rows[0]?.length ?? 0, reserved }, recorded };
}

export const at = (...cells: readonly (readonly [row: number, column: number])[]): Crossing[] =>
  cells.map(([row, column]) => ({ row, column }));

/** Closing one crossing showed itself and the others. */
export const showed = (
  [row, column]: readonly [number, number],
  ...others: readonly (readonly [number, number])[]
): Recorded => ({ row, column, result: { state: "closes-others", others: at(...others), own: true } });

/** "row 3, column 1". */
export const names = (lines: readonly MatrixLine[]): string =>
  lines.map(({ kind, number }) => `${kind} ${number}`).join(", ");

/** "1,2 3,4". */
export const cells = (list: readonly Crossing[]): string =>
  list.map(({ row, column }) => `${row},${column}`).join(" ");

export function accepted<T extends { readonly ok: true }>(outcome: Result<T>): T {
  if (!outcome.ok) throw new Error(`refused: ${outcome.reason}`);
  return outcome;
}

export function reasonOf(outcome: Result<{ readonly ok: true }>): string {
  if (outcome.ok) throw new Error(`not refused: ${JSON.stringify(outcome)}`);
  return outcome.reason;
}
