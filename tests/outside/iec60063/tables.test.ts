// IEC 60063, the tables of preferred numbers written out: from memory. The formula behind them is tested with the
// other codes; here a slip in the formula or in its one exception would show.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  E_SERIES,
  type ESeries,
  isPreferred,
  nearestPreferred,
  seriesNumbers,
} from "../../../server/src/quantity/e-series";

const numbers = (text: string): number[] => text.trim().split(/\s+/).map(Number);

const E24 = numbers(
  "1.0 1.1 1.2 1.3 1.5 1.6 1.8 2.0 2.2 2.4 2.7 3.0 3.3 3.6 3.9 4.3 4.7 5.1 5.6 6.2 6.8 7.5 8.2 9.1",
);

const E48 = numbers(`
  1.00 1.05 1.10 1.15 1.21 1.27 1.33 1.40 1.47 1.54 1.62 1.69 1.78 1.87 1.96 2.05 2.15 2.26 2.37 2.49 2.61 2.74 2.87
  3.01 3.16 3.32 3.48 3.65 3.83 4.02 4.22 4.42 4.64 4.87 5.11 5.36 5.62 5.90 6.19 6.49 6.81 7.15 7.50 7.87 8.25 8.66
  9.09 9.53`);

/** What E96 has and E48 has not. */
const E96_MORE = numbers(`
  1.02 1.07 1.13 1.18 1.24 1.30 1.37 1.43 1.50 1.58 1.65 1.74 1.82 1.91 2.00 2.10 2.21 2.32 2.43 2.55 2.67 2.80 2.94
  3.09 3.24 3.40 3.57 3.74 3.92 4.12 4.32 4.53 4.75 4.99 5.23 5.49 5.76 6.04 6.34 6.65 6.98 7.32 7.68 8.06 8.45 8.87
  9.31 9.76`);

/** What E192 has and E96 has not. */
const E192_MORE = numbers(`
  1.01 1.04 1.06 1.09 1.11 1.14 1.17 1.20 1.23 1.26 1.29 1.32 1.35 1.38 1.42 1.45 1.49 1.52 1.56 1.60 1.64 1.67 1.72
  1.76 1.80 1.84 1.89 1.93 1.98 2.03 2.08 2.13 2.18 2.23 2.29 2.34 2.40 2.46 2.52 2.58 2.64 2.71 2.77 2.84 2.91 2.98
  3.05 3.12 3.20 3.28 3.36 3.44 3.52 3.61 3.70 3.79 3.88 3.97 4.07 4.17 4.27 4.37 4.48 4.59 4.70 4.81 4.93 5.05 5.17
  5.30 5.42 5.56 5.69 5.83 5.97 6.12 6.26 6.42 6.57 6.73 6.90 7.06 7.23 7.41 7.59 7.77 7.96 8.16 8.35 8.56 8.76 8.98
  9.20 9.42 9.65 9.88`);

const ascending = (list: readonly number[]): number[] => [...list].sort((a, b) => a - b);

const TABLES: Readonly<Record<ESeries, readonly number[]>> = {
  E3: [1, 2.2, 4.7],
  E6: [1, 1.5, 2.2, 3.3, 4.7, 6.8],
  E12: E24.filter((_, i) => i % 2 === 0),
  E24,
  E48,
  E96: ascending([...E48, ...E96_MORE]),
  E192: ascending([...E48, ...E96_MORE, ...E192_MORE]),
};

describe.each(E_SERIES)("%s", (series) => {
  test("is the table, number for number", () => {
    expect(TABLES[series]).toHaveLength(Number(series.slice(1)));
    expect(seriesNumbers(series)).toEqual(TABLES[series]);
  });

  test("the nearest number is the nearest of the table in ratio, in any decade", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -12, max: 9 }),
        fc.double({ min: 1, max: 10, noNaN: true }),
        (decade, m) => {
          const value = m * 10 ** decade;
          const found = nearestPreferred(value, series)!;
          const mantissas = [TABLES[series].at(-1)! / 10, ...TABLES[series], 10];
          const least = Math.min(...mantissas.map((n) => Math.abs(Math.log(n / m))));
          expect(Math.abs(Math.log(found / value))).toBeCloseTo(least, 12);
          expect(isPreferred(found, series)).toBe(true);
        },
      ),
      { seed: 60_063 },
    );
  });
});

test("a value just off the table is not preferred", () => {
  for (const series of E_SERIES) {
    for (const n of TABLES[series]) expect(isPreferred(n * 1.0005, series)).toBe(false);
  }
});
