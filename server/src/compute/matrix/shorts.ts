// Two lines that are joined answer together: closing a crossing on one shows the crossing beside it on the other.
import type { Saying } from "../../text/saying";
import type { Results } from "./results";
import {
  type Crossing,
  cellOf,
  crossingKey,
  crossingsInOrder,
  lineName,
  type MatrixLine,
  type MatrixShape,
} from "./shape";

export interface ShortedPair {
  readonly kind: MatrixLine["kind"];
  readonly lines: readonly [number, number];
  /** Closed crossings that showed their twin on the other line. */
  readonly shownBy: readonly Crossing[];
  /** Crossings on either line recorded as showing nothing but themselves, though the twin was not stuck. */
  readonly against: readonly Crossing[];
  /**
   * "out-of-limits" with two closures or more and nothing against; else "suspect": one closure is as well a missing
   * diode, and a crossing that answers alone speaks against a dead short.
   */
  readonly verdict: "out-of-limits" | "suspect";
  readonly says: Saying;
}

/** Pairs of rows and of columns that answered together, the surest first. */
export function shortedPairs(shape: MatrixShape, results: Results): readonly ShortedPair[] {
  const pairs = [...along(shape, results, "row"), ...along(shape, results, "column")];
  const rank = (pair: ShortedPair): number => (pair.verdict === "out-of-limits" ? 0 : 1);
  return pairs.sort((a, b) => rank(a) - rank(b));
}

/** The crossing's twin on another line of the same kind. */
const moved = (cell: Crossing, kind: MatrixLine["kind"], number: number): Crossing =>
  kind === "row" ? { row: number, column: cell.column } : { row: cell.row, column: number };

function along(shape: MatrixShape, results: Results, kind: MatrixLine["kind"]): readonly ShortedPair[] {
  const across = kind === "row" ? "column" : "row";
  const shownBy = new Map<
    string,
    { readonly lines: readonly [number, number]; readonly cells: Crossing[] }
  >();
  for (const [key, others] of results.others) {
    const cell = cellOf(key);
    for (const other of [...others].map(cellOf)) {
      if (other[across] !== cell[across]) continue;
      const lines = [Math.min(cell[kind], other[kind]), Math.max(cell[kind], other[kind])] as const;
      const pair = shownBy.get(lines.join()) ?? { lines, cells: [] };
      shownBy.set(lines.join(), pair);
      pair.cells.push(cell);
    }
  }
  return [...shownBy.values()].map(({ lines, cells }) => {
    const [a, b] = lines;
    const alone = (key: number): boolean => {
      const cell = cellOf(key);
      if (cell[kind] !== a && cell[kind] !== b) return false;
      const twin = crossingKey(moved(cell, kind, cell[kind] === a ? b : a));
      return !results.stuck.has(twin) && !results.others.get(key)?.has(twin);
    };
    const against = crossingsInOrder(
      [...new Set([...results.works, ...results.others.keys()])].filter(alone).map(cellOf),
    );
    const sure = cells.length >= 2 && against.length === 0;
    const names = capital(
      `${lineName(shape, { kind, number: a })} and ${lineName(shape, { kind, number: b })}`,
    );
    const times = cells.length === 1 ? "once" : `at ${cells.length} crossings`;
    const says: Saying = sure
      ? {
          fact: `${names} answer together ${times}, and nowhere alone.`,
          cause: "They are shorted.",
          step: "Look for solder, residue at the header, a damaged harness or a chip that joins them.",
        }
      : against.length > 0
        ? {
            fact: `${names} answered together ${times}, but alone at ${against.length}.`,
            cause: "A partial short, or a missing diode while another crossing was closed.",
            step: "Measure between the two lines with the power off.",
          }
        : {
            fact: `${names} answered together ${times}.`,
            cause: "Shorted lines do so at every crossing.",
            step: "Test a second crossing on them.",
          };
    return {
      kind,
      lines,
      shownBy: crossingsInOrder(cells),
      against,
      verdict: sure ? "out-of-limits" : "suspect",
      says,
    };
  });
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
