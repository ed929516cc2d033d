// The shop's own limits against published tolerance intervals.
import { describe, expect, test } from "vitest";
import { baselineLimits } from "../../../server/src/judge/baseline/limits";
import { valueIn } from "../../support/computed";

const readings = (values: readonly number[]) =>
  values.map((value, i) => ({ uri: `mem:/${i}.md`, job: String(i), value, resolution: 1e-6, unit: "ohm" }));

/** `n` values at equal steps, with this mean and this standard deviation (divisor n-1). */
function spreadEvenly(n: number, mean: number, s: number): number[] {
  const steps = Array.from({ length: n }, (_, i) => i - (n - 1) / 2);
  const own = Math.sqrt(steps.reduce((sum, x) => sum + x * x, 0) / (n - 1));
  return steps.map((x) => mean + (x * s) / own);
}

// NIST/SEMATECH e-Handbook 7.2.6.3: 43 wafers, mean 97.07, s 0.0268, 90 % with 99 % confidence: 97.0106 to 97.1294 by
// Howe's factor 2.2173 (seen, quoted elsewhere). The wafers themselves were not at hand: the values here have their
// number, mean and standard deviation, which is all the interval is made from.
describe("43 wafers", () => {
  const limits = valueIn(
    baselineLimits(readings(spreadEvenly(43, 97.07, 0.0268)), { coverage: 0.9, confidence: 0.99 }),
  );

  test("have the handbook's limits, a little wider by the exact factor", () => {
    expect(limits.centre).toBeCloseTo(97.07, 9);
    expect(limits.spread).toBeCloseTo(0.0268, 9);
    expect(limits.low).toBeLessThan(97.0106);
    expect(limits.high).toBeGreaterThan(97.1294);
    // 2.2228 (computed) in place of 2.2173: 0.0055 standard deviations more on either side.
    expect(limits.low).toBeCloseTo(97.0106 - 0.0055 * 0.0268, 4);
    expect(limits.high).toBeCloseTo(97.1294 + 0.0055 * 0.0268, 4);
  });
});

// Statistics for Environmental Engineers, table 21.1: seen to two decimals, the third computed.
test.each([
  [0.9, 2.856],
  [0.95, 3.393],
  [0.99, 4.437],
])("ten boards, %d of all with 95 %% confidence: mean and %d standard deviations", (coverage, k) => {
  const { low = Number.NaN, high = Number.NaN } = valueIn(
    baselineLimits(readings(spreadEvenly(10, 100, 1)), { coverage, confidence: 0.95 }),
  );
  expect((high - low) / 2).toBeCloseTo(k, 3);
});

// What a tolerance interval promises: made again and again from normal boards, about 95 of 100 intervals hold
// 95 % of all boards. Taking outliers out costs a little of it; more than five points would be a wrong factor.
test("of intervals made from seven boards about 95 of 100 hold 95 % of all boards", () => {
  let state = 12345;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 4294967296;
  };
  const normal = () => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());
  // erf by Abramowitz and Stegun 7.1.26, error below 1.5e-7 (from memory).
  const erf = (x: number): number => {
    const t = 1 / (1 + 0.3275911 * Math.abs(x));
    const y =
      1 -
      ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) *
        t *
        Math.exp(-x * x);
    return x < 0 ? -y : y;
  };
  const below = (x: number) => (1 + erf(x / Math.SQRT2)) / 2;
  const rounds = 2000;
  let held = 0;
  let made = 0;
  for (let i = 0; i < rounds; i++) {
    const limits = baselineLimits(readings(Array.from({ length: 7 }, normal)));
    if (!limits.ok) continue;
    made++;
    const { low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY } = limits.value;
    if (below(high) - below(low) >= 0.95) held++;
  }
  expect(made).toBeGreaterThan(0.97 * rounds);
  expect(held / made).toBeGreaterThan(0.9);
  expect(held / made).toBeLessThan(0.97);
});
