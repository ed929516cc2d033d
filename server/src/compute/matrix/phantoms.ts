// Three closed corners of a rectangle join the lines of the fourth, unless the diodes stop the way round. The way
// from the fourth corner's column to its row runs forwards through the two corners beside it and backwards through
// the one opposite: it is that corner's diode that is missing or shorted. This follows from the circuit, whichever way
// round the diodes stand, as long as all stand alike.
import type { Saying } from "../../text/saying";
import type { HeldTogether } from "./results";
import { type Crossing, cellName, cellOf, crossingKey, crossingsInOrder, type MatrixShape } from "./shape";

/** A crossing that answered without being closed, and the diodes that can be the reason. */
export interface Phantom {
  /** The crossing that was shown although open. */
  readonly cell: Crossing;
  readonly closed: readonly Crossing[];
  /** Corners opposite to it whose diode would let it show, those cleared elsewhere left out. */
  readonly diodes: readonly Crossing[];
}

export interface DiodeSuspect extends Crossing {
  readonly explains: readonly Phantom[];
  /** True where some phantom has no other explanation among single diodes. */
  readonly only: boolean;
  readonly says: Saying;
}

export interface PhantomReport {
  readonly suspects: readonly DiodeSuspect[];
  /** Shown although open, and no rectangle of the closed crossings explains it. */
  readonly unexplained: readonly Phantom[];
  /** Crossings whose diode stopped the way round in a rectangle that was tried. */
  readonly blocked: readonly Crossing[];
  readonly source: string;
}

/**
 * Phantoms among what was shown with several crossings held closed. Stuck crossings count as closed: list them in
 * `closed`. A rectangle that was tried and showed nothing clears the diode it would have needed. Crossings must lie
 * in the matrix.
 */
export function phantomReport(shape: MatrixShape, held: readonly HeldTogether[]): PhantomReport {
  const blocked = new Set<number>();
  const found: {
    readonly cell: Crossing;
    readonly closed: readonly Crossing[];
    readonly by: readonly number[];
  }[] = [];
  for (const { closed, seen } of held) {
    const shut = new Set(closed.map(crossingKey));
    const shown = new Set(seen.map(crossingKey));
    for (const [key, opposite] of fourthCorners(closed, shut)) {
      if (!shown.has(key)) for (const corner of opposite) blocked.add(corner);
    }
    const corners = fourthCorners(closed, shut);
    for (const key of shown) {
      if (shut.has(key)) continue;
      found.push({ cell: cellOf(key), closed, by: [...(corners.get(key) ?? [])] });
    }
  }
  const phantoms = found.map(
    ({ cell, closed, by }): Phantom => ({
      cell,
      closed,
      diodes: crossingsInOrder(by.filter((key) => !blocked.has(key)).map(cellOf)),
    }),
  );
  const explains = new Map<number, Phantom[]>();
  for (const phantom of phantoms) {
    for (const diode of phantom.diodes) {
      const key = crossingKey(diode);
      explains.set(key, [...(explains.get(key) ?? []), phantom]);
    }
  }
  const suspects = [...explains].map(([key, shown]): DiodeSuspect => {
    const only = shown.some(({ diodes }) => diodes.length === 1);
    return {
      ...cellOf(key),
      explains: shown,
      only,
      says: saying(shape, cellOf(key), shown, only),
    };
  });
  return {
    suspects: suspects.sort(
      (a, b) =>
        Number(b.only) - Number(a.only) ||
        b.explains.length - a.explains.length ||
        crossingKey(a) - crossingKey(b),
    ),
    unexplained: phantoms.filter(({ diodes }) => diodes.length === 0),
    blocked: [...blocked].sort((a, b) => a - b).map(cellOf),
    source: "follows from the circuit of a matrix with a diode at each crossing",
  };
}

/** Open crossings that complete a rectangle of closed ones, each with the closed corners opposite to it. */
function fourthCorners(
  closed: readonly Crossing[],
  shut: ReadonlySet<number>,
): ReadonlyMap<number, ReadonlySet<number>> {
  const corners = new Map<number, Set<number>>();
  const inRow = new Map<number, number[]>();
  for (const { row, column } of closed) inRow.set(row, [...(inRow.get(row) ?? []), column]);
  for (const [row, columns] of inRow) {
    for (const [other, theirs] of inRow) {
      // The opposite corner and one beside it stand in `other`, the third in `row`.
      if (other === row || !theirs.some((column) => columns.includes(column))) continue;
      for (const column of theirs) {
        const fourth = crossingKey({ row, column });
        if (shut.has(fourth)) continue;
        const opposite = corners.get(fourth) ?? new Set();
        for (const shared of theirs) {
          if (columns.includes(shared)) opposite.add(crossingKey({ row: other, column: shared }));
        }
        corners.set(fourth, opposite);
      }
    }
  }
  return corners;
}

function saying(shape: MatrixShape, cell: Crossing, shown: readonly Phantom[], only: boolean): Saying {
  const first = shown[0]!;
  const more = shown.length > 1 ? ` And ${shown.length - 1} more like it.` : "";
  const doubt = only ? "is" : "may be";
  return {
    fact: `The crossing at ${cellName(shape, first.cell)} showed although open, with 3 corners closed.${more}`,
    cause: `The diode at ${cellName(shape, cell)}, the corner opposite, ${doubt} missing or shorted.`,
    step: "Measure it with the power off.",
  };
}
