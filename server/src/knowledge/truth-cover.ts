// Which rows of a truth table can hold at one moment. A cell is a parity of letters, so a row with demands on its
// pins is a set of linear equations over 0 and 1: it can hold where they have a solution, and that is exact.
import type { TruthCell, TruthRow } from "./truth-row";

/** The parity of `letters` (a bit each, 31 at most) is `value`. */
export type Equation = readonly [letters: number, value: 0 | 1];

/** True where some levels of the letters satisfy all equations. */
export function solvable(equations: readonly Equation[]): boolean {
  const pivots: [bit: number, letters: number, value: 0 | 1][] = [];
  for (let [letters, value] of equations) {
    for (const [bit, others, known] of pivots) {
      if ((letters & bit) === 0) continue;
      letters ^= others;
      value = flipped(value, known);
    }
    if (letters === 0) {
      if (value === 1) return false;
    } else pivots.push([letters & -letters, letters, value]);
  }
  return true;
}

const flipped = (value: 0 | 1, by: 0 | 1): 0 | 1 => (value === by ? 0 : 1);

/** What a cell asks of its letters to show `level`; undefined where it asks nothing. */
export const cellShows = (cell: TruthCell, level: 0 | 1): Equation | undefined =>
  cell.kind === "value" ? [cell.letters, flipped(level, cell.flip)] : undefined;

/** Levels demanded of a table's inputs, in its order; undefined where any will do. */
export type Demands = readonly (0 | 1 | undefined)[];

/** What the row's inputs ask of its letters to be at these levels. */
export const inputEquations = (row: TruthRow, inputs: Demands): Equation[] =>
  row.inputs.flatMap((cell, at) => {
    const level = inputs[at];
    const equation = level === undefined ? undefined : cellShows(cell, level);
    return equation ? [equation] : [];
  });

/** Steps the search for a missing row may take; tables that people write need a few hundred. */
const MAX_STEPS = 4_000;

/**
 * Inputs, within the demands, that no row is about; undefined where the rows leave nothing out. "unknown" where the
 * table is too tangled to tell.
 */
export function uncovered(
  rows: readonly TruthRow[],
  inputs: Demands,
): (0 | 1 | undefined)[] | "unknown" | undefined {
  let steps = 0;
  const search = (
    left: readonly TruthRow[],
    levels: (0 | 1 | undefined)[],
  ): (0 | 1 | undefined)[] | "unknown" | undefined => {
    if (++steps > MAX_STEPS) return "unknown";
    const open = left.filter((row) => solvable(inputEquations(row, levels)));
    if (open.length === 0) return levels;
    // The pin that the row nearest to covering everything still asks for.
    const asked = open.map((row) => stillAsks(row, levels));
    const fewest = Math.min(...asked.map(({ length }) => length));
    const next = asked.find(({ length }) => length === fewest)?.[0];
    if (fewest === 0 || next === undefined) return undefined;
    for (const level of [0, 1] as const) {
      const found = search(
        open,
        levels.map((old, at) => (at === next ? level : old)),
      );
      if (found !== undefined) return found;
    }
    return undefined;
  };
  return search(rows, [...inputs]);
}

/** Positions not yet set whose level decides whether a row that is still possible holds. */
function stillAsks(row: TruthRow, levels: Demands): number[] {
  const uses = new Map<number, number>();
  for (const cell of row.inputs) {
    if (cell.kind === "value") uses.set(cell.letters, (uses.get(cell.letters) ?? 0) + 1);
  }
  return row.inputs.flatMap((cell, at) =>
    levels[at] === undefined && cell.kind === "value" && (cell.letters === 0 || uses.get(cell.letters)! > 1)
      ? [at]
      : [],
  );
}

/**
 * The first output (its place in the table) that two rows with inputs in common give differently; undefined where
 * they agree wherever both hold, and where they have more than 31 letters between them.
 */
export function rowsDiffer(first: TruthRow, second: TruthRow): number | undefined {
  // Most rows of a long table ask for plainly different levels; only the others are worth the equations.
  if (first.inputs.some((cell, at) => isOpposite(cell, second.inputs[at]))) return undefined;
  const names = new Map<string, number>();
  const own = (which: string, letters: number): number => {
    let bits = 0;
    for (let bit = 0; bit < 26; bit++) {
      if ((letters & (1 << bit)) === 0) continue;
      const key = `${which}${bit}`;
      if (!names.has(key)) names.set(key, names.size);
      bits |= 1 << (names.get(key) ?? 0);
    }
    return bits;
  };
  const differ = (a: TruthCell, b: TruthCell): Equation | undefined =>
    a.kind === "value" && b.kind === "value"
      ? [own("a", a.letters) ^ own("b", b.letters), flipped(a.flip, b.flip)]
      : undefined;
  const common = first.inputs.flatMap((cell, at) => {
    const other = second.inputs[at];
    const equation = other && differ(cell, other);
    return equation ? [equation] : [];
  });
  if (!solvable(common)) return undefined;
  const at = first.outputs.findIndex((cell, index) => {
    const other = second.outputs[index];
    if (!other || cell.kind === "any" || other.kind === "any") return false;
    if (cell.kind === "off" || other.kind === "off") return cell.kind !== other.kind;
    const [letters, value] = differ(cell, other)!;
    return solvable([...common, [letters, flipped(value, 1)]]);
  });
  return at < 0 || names.size > 31 ? undefined : at;
}

const isOpposite = (a: TruthCell, b: TruthCell | undefined): boolean =>
  a.kind === "value" && b?.kind === "value" && a.letters === 0 && b.letters === 0 && a.flip !== b.flip;
