// The ways in which the pins of a dual in-line package get counted wrong.

import type { Count, PinWindow } from "./types";

/**
 * The pin that carries the number `typed` in truth; `pins` is even.
 * Looked at from the solder side the first row is on the other hand, and counting down it begins at the last pin: that
 * is the same as counting from the other end.
 */
export function truePin(typed: number, pins: number, count: Count): number {
  const half = pins / 2;
  switch (count.way) {
    case "reversed":
      return pins + 1 - typed;
    case "turned":
      return ((typed - 1 + half) % pins) + 1;
    case "second-row-down":
      return typed <= half ? typed : pins + half + 1 - typed;
    case "rows-backward":
      return typed <= half ? half + 1 - typed : pins + half + 1 - typed;
    case "across":
      return typed % 2 === 1 ? (typed + 1) / 2 : pins + 1 - typed / 2;
    case "further-on":
      return ((typed - 1 + count.by) % pins) + 1;
  }
}

/** Pins in line, and the two rows of a header with pin 2 beside pin 1: common practice, no source. */
export const COUNTS_IN_LINE: readonly (readonly [Count, prior: number])[] = [[{ way: "reversed" }, 0.01]];

/** Each with how often it is the reason: common practice, no source. */
export function countsOf(
  pins: number,
  ground: number | undefined,
): readonly (readonly [Count, prior: number])[] {
  if (pins < 6 || pins % 2 !== 0) return [];
  const half = pins / 2;
  const further = Array.from({ length: pins - 1 }, (_, i) => i + 1).filter((by) => by !== half);
  // Whoever takes the corner for ground counts a chip so that its ground comes to stand there.
  const toCorner = ground === undefined ? undefined : (ground - half + pins) % pins;
  return [
    [{ way: "reversed" }, 0.01],
    [{ way: "turned" }, 0.01],
    [{ way: "second-row-down" }, 0.01],
    [{ way: "rows-backward" }, 0.002],
    [{ way: "across" }, 0.001],
    ...further.map((by) => [{ way: "further-on", by }, by === toCorner ? 0.01 : 0.003 / pins] as const),
  ];
}

/** Counted another way every pin is read all the same: that one cell at an end of the column stays blank is another accident. */
const CUT = 0.1;

/** How likely a count is beside its prior, by the rows of the column of which so many were read. */
export const besideBlanks = (rows: readonly { readonly blank: boolean }[], read: number): number =>
  read === rows.length - 1 && (rows[0]?.blank || rows.at(-1)?.blank) ? CUT : 1;

/**
 * Ground reads as no ground does and the supply as ground: no fault of a board does both, and few pins besides tell how they were
 * counted.
 * @param read the rows with a reading, from 0
 */
export function isPowerTurned(
  read: readonly number[],
  windows: readonly (PinWindow | undefined)[],
  isOff: (row: number) => boolean,
  isNothing: (row: number) => boolean,
): boolean {
  const [grounds, supplies] = (["ground", "supply"] as const).map((is) =>
    read.filter((row) => windows[row]?.is === is),
  ) as [number[], number[]];
  return grounds.length > 0 && supplies.length > 0 && grounds.every(isOff) && supplies.every(isNothing);
}
