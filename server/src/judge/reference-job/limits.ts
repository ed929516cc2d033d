import { defined } from "../../base/defined";
import type { ReferenceReading } from "./types";

/**
 * A reading is out of limits only where it lies twice as far off as a board of the type may: common practice, no source,
 * and the same for what this shop's returned boards read.
 */
export const FAR = 2;

interface Range {
  readonly low?: number;
  readonly high?: number;
}

export interface Window extends Range {
  readonly beyond: { readonly low: number; readonly high: number };
}

/**
 * The window that reaches from the lowest reading less its width to the highest and its width: it covers what each of
 * the boards allows, and so never narrows by there being two of them. Where like pins made the width more than the least,
 * it is not to reach past the `usual` window of the part, outside of which a reading is told with no reference job too.
 * An end on the other side of zero from every reading says nothing and is left out, and so is the low one where less is
 * no fault.
 */
export function windowFrom(
  readings: readonly ReferenceReading[],
  usual: Range | undefined,
  lessIsFine: boolean,
): Window {
  const { low, high } = reach(readings, usual, 1);
  const beyond = reach(readings, usual, FAR);
  const values = readings.map(({ value }) => value);
  const noLow = lessIsFine || (low < 0 && values.every((value) => value >= 0));
  const noHigh = high > 0 && values.every((value) => value < 0);
  return defined({ low: noLow ? undefined : low, high: noHigh ? undefined : high, beyond });
}

function reach(readings: readonly ReferenceReading[], usual: Range | undefined, times: number) {
  const floor = usual?.low ?? Number.NEGATIVE_INFINITY;
  const ceiling = usual?.high ?? Number.POSITIVE_INFINITY;
  return {
    low: Math.min(
      ...readings.map(({ value, half, least }) =>
        Math.max(value - times * half, Math.min(floor, value - times * least)),
      ),
    ),
    high: Math.max(
      ...readings.map(({ value, half, least }) =>
        Math.min(value + times * half, Math.max(ceiling, value + times * least)),
      ),
    ),
  };
}
