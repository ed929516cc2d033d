// The Theil-Sen slope against all slopes by simple-statistics, Kendall's test against every order the values can stand in:
// no approximation, and nothing taken from our own code.
import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import fc from "fast-check";
import { linearRegression, median } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { type Dated, trendOf } from "../../../server/src/compute/measurement/trend";

const pairs = (values: readonly Dated[]): (readonly [Dated, Dated])[] =>
  values.flatMap((a, i) => values.slice(i + 1).flatMap((b) => (a.at === b.at ? [] : [[a, b] as const])));

const dated = fc.array(
  fc.record({ at: fc.integer({ min: 0, max: 40 }), value: fc.integer({ min: -50, max: 50 }) }),
  { minLength: 5, maxLength: 30 },
);

describe("the slope", () => {
  test("is the median of the slopes of all pairs, and the pairs are counted", () => {
    fc.assert(
      fc.property(dated, (values) => {
        const slopes = pairs(values).map(([a, b]) => (b.value - a.value) / (b.at - a.at));
        const trend = trendOf(values);
        if (slopes.length === 0) expect(trend).toBeUndefined();
        else
          expect(trend).toMatchObject({
            slope: expect.closeTo(median(slopes), 9),
            rising: slopes.filter((slope) => slope > 0).length,
            falling: slopes.filter((slope) => slope < 0).length,
          });
      }),
      { seed: 1968 },
    );
  });

  test("is that of the line where the values stand on one, and one wild value does not move it", () => {
    const line = Array.from({ length: 12 }, (_, i) => ({ at: i * i, value: 3 - 0.25 * i * i }));
    const { m } = linearRegression(line.map(({ at, value }) => [at, value]));
    expect(trendOf(line)!.slope).toBeCloseTo(m, 12);
    const wild = line.map((each, i) => (i === 5 ? { ...each, value: 1e6 } : each));
    expect(trendOf(wild)!.slope).toBeCloseTo(m, 12);
  });
});

/** Every order of the values. */
function* orders<T>(values: readonly T[]): Generator<readonly T[]> {
  if (values.length <= 1) yield values;
  for (const [i, value] of values.entries())
    for (const rest of orders([...values.slice(0, i), ...values.slice(i + 1)])) yield [value, ...rest];
}

const scoreOf = (times: readonly number[], values: readonly number[]): number =>
  pairs(times.map((at, i) => ({ at, value: values[i]! }))).reduce(
    (sum, [a, b]) => sum + Math.sign((b.value - a.value) * (b.at - a.at)),
    0,
  );

describe("the chance", () => {
  test.each([
    ["all apart", [1, 2, 3, 4, 5, 6, 7], [1, 3, 2, 5, 4, 7, 6]],
    ["values alike", [1, 2, 3, 4, 5, 6, 7], [1, 1, 2, 3, 3, 3, 4]],
    ["times alike", [1, 1, 2, 2, 2, 3, 4], [1, 3, 2, 5, 4, 7, 6]],
    ["both", [1, 1, 2, 2, 2, 3, 4], [1, 1, 2, 3, 3, 3, 4]],
  ])("has the spread of the score over all orders: %s", (_, times, values) => {
    const scores = [...orders(values)].map((order) => scoreOf(times, order));
    const variance = scores.reduce((sum, score) => sum + score ** 2, 0) / scores.length;
    const score = scoreOf(times, values);
    const { chance } = trendOf(times.map((at, i) => ({ at, value: values[i]! })))!;
    // The chance is that of (|score| - 1) / sqrt(variance) standard deviations; undo it.
    const z = normalQuantile(1 - chance / 2, 0, 1);
    expect(((Math.abs(score) - 1) / z) ** 2 / variance).toBeCloseTo(1, 8);
  });

  test.each([[[2, 1, 3, 4, 6, 5, 8, 7]], [[3, 1, 2, 6, 4, 5, 8, 7]], [[8, 1, 3, 2, 6, 4, 7, 5]]])(
    "is near the share of orders that rise or fall as clearly as %j",
    (values) => {
      const times = [1, 2, 3, 4, 5, 6, 7, 8];
      const all = [...orders(times)].map((order) => Math.abs(scoreOf(times, order)));
      const score = Math.abs(scoreOf(times, values));
      const exact = all.filter((each) => each >= score).length / all.length;
      const { chance } = trendOf(times.map((at, i) => ({ at, value: values[i]! })))!;
      // Eight values are few for a normal approximation: it is good to two hundredths.
      expect(Math.abs(chance - exact)).toBeLessThan(0.02);
    },
  );

  test("is one where all are alike, and nothing is told of too few or of one time", () => {
    const at = [1, 2, 3, 4, 5];
    expect(trendOf(at.map((time) => ({ at: time, value: 7 })))).toEqual({
      slope: 0,
      rising: 0,
      falling: 0,
      chance: 1,
    });
    expect(trendOf(at.slice(1).map((time) => ({ at: time, value: time })))).toBeUndefined();
    expect(trendOf(at.map((value) => ({ at: 3, value })))).toBeUndefined();
    expect(
      trendOf(at.map((time) => ({ at: time, value: time === 2 ? Number.POSITIVE_INFINITY : 1 }))),
    ).toBeUndefined();
  });
});
