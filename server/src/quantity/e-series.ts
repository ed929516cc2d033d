// Preferred numbers of IEC 60063 (from memory): which values a resistor or capacitor is made in.

/** Names of the series, the coarsest first; the number is how many values a decade has. */
export const E_SERIES = ["E3", "E6", "E12", "E24", "E48", "E96", "E192"] as const;
/** Name of a series, "E24" for the usual resistors of 5 %. */
export type ESeries = (typeof E_SERIES)[number];

/** E24 as standardised; eight of its values depart from the rounded geometric series. */
const E24: readonly number[] = [
  1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8,
  7.5, 8.2, 9.1,
];

const cache = new Map<ESeries, readonly number[]>();

/** The numbers of one decade, 1.0 up to but without 10, ascending. */
export function seriesNumbers(series: ESeries): readonly number[] {
  const known = cache.get(series);
  if (known) return known;
  const size = Number(series.slice(1));
  const numbers =
    size <= 24
      ? E24.filter((_, index) => index % (24 / size) === 0)
      : Array.from({ length: size }, (_, index) => threeDigits(size, index));
  cache.set(series, numbers);
  return numbers;
}

/** E192 holds 9.20 where the formula gives 9.19; the value is not shared with E48 or E96. */
function threeDigits(size: number, index: number): number {
  if (size === 192 && index === 185) return 9.2;
  return Number((10 ** (index / size)).toFixed(2));
}

/** True where the value, in any decade, belongs to the series. False for zero and below. */
export function isPreferred(value: number, series: ESeries): boolean {
  const found = nearestPreferred(value, series);
  return found !== undefined && Math.abs(found - value) <= value * 1e-9;
}

/**
 * The series' value closest to this one in ratio, in the same unit; undefined for zero, negative and
 * unbounded values.
 */
export function nearestPreferred(value: number, series: ESeries): number | undefined {
  if (!Number.isFinite(value) || value <= 0) return undefined;
  const decade = Math.floor(Math.log10(value));
  let best: number | undefined;
  for (const shift of [decade - 1, decade, decade + 1]) {
    for (const number of seriesNumbers(series)) {
      // Decimal text keeps 4.7 at 10^-9 from becoming 4.700000000000001e-9.
      const candidate = Number(`${number}e${shift}`);
      if (best === undefined || distance(candidate, value) < distance(best, value)) best = candidate;
    }
  }
  return best;
}

const distance = (a: number, b: number): number => Math.abs(Math.log(a / b));
