import jstat from "jstat";
import { describe, expect, test } from "vitest";
import {
  howeFactor,
  oneSidedFactor,
  toleranceInterval,
  twoSidedFactor,
} from "../../../server/src/compute/measurement/tolerance-interval";
import { wilksConfidence, wilksSmallest } from "../../../server/src/compute/measurement/wilks";
import { relative, valueIn } from "../../support/computed";

// NIST/SEMATECH e-Handbook 7.2.6.3: seen, quoted elsewhere. The handbook's is Howe's factor, not the exact one.
describe("43 readings, mean 97.07, s 0.0268, 90 % of them with 99 % confidence", () => {
  const demand = { coverage: 0.9, confidence: 0.99 };

  test("Howe's approximation: 2.2173, 97.0106 to 97.1294", () => {
    const k = valueIn(howeFactor(43, demand));
    expect(Number(k.toFixed(4))).toBe(2.2173);
    const { low, high } = toleranceInterval(97.07, 0.0268, k);
    expect([low.toFixed(4), high.toFixed(4)]).toEqual(["97.0106", "97.1294"]);
  });

  test("exact: 2.2228 (computed)", () => {
    expect(Number(valueIn(twoSidedFactor(43, demand)).toFixed(4))).toBe(2.2228);
  });
});

// Statistics for Environmental Engineers, table 21.1: seen to two decimals, the third computed.
test.each([
  [0.9, 2.856],
  [0.95, 3.393],
  [0.99, 4.437],
])("ten readings, %d of all with 95 %% confidence: exact %d", (coverage, k) => {
  expect(Number(valueIn(twoSidedFactor(10, { coverage, confidence: 0.95 })).toFixed(3))).toBe(k);
});

// mpmath 1.3 at 25 digits, adaptive quadrature (computed); the one-sided integral there runs over s, not the mean.
describe("against another quadrature", () => {
  test.each([
    [10, 0.95, 0.95, 3.39342947871261],
    [43, 0.9, 0.99, 2.22282517379112],
    [2, 0.99, 0.99, 234.877459816765],
  ])("two-sided, n = %d, %d, %d", (n, coverage, confidence, k) => {
    expect(relative(valueIn(twoSidedFactor(n, { coverage, confidence })), k)).toBeLessThan(1e-12);
  });

  test.each([
    [10, 0.95, 0.95, 2.91096341307817],
    [2, 0.9, 0.95, 20.581467624245],
    [43, 0.9, 0.99, 1.8739536058512],
  ])("one-sided, n = %d, %d, %d", (n, coverage, confidence, k) => {
    expect(relative(valueIn(oneSidedFactor(n, { coverage, confidence })), k)).toBeLessThan(1e-12);
  });
});

describe("the one-sided factor is a point of the noncentral t distribution", () => {
  const cases = [3, 5, 10, 43].flatMap((n) =>
    [0.9, 0.95, 0.99].flatMap((coverage) => [0.9, 0.95, 0.99].map((c) => [n, coverage, c] as const)),
  );
  const Z: Readonly<Record<string, number>> = {
    "0.9": 1.2815515655446004,
    "0.95": 1.6448536269514722,
    "0.99": 2.3263478740408408,
  };
  test.each(cases)("n = %d, coverage %d, confidence %d (jstat)", (n, coverage, confidence) => {
    const k = valueIn(oneSidedFactor(n, { coverage, confidence }));
    const root = Math.sqrt(n);
    const noncentrality = Z[String(coverage)]! * root;
    expect(jstat.jStat.noncentralt.cdf(k * root, n - 1, noncentrality)).toBeCloseTo(confidence, 8);
  });
});

test("limits made with the exact factor do hold what they promise", () => {
  const random = normals(20_240);
  const demand = { coverage: 0.9, confidence: 0.95 };
  const k = valueIn(twoSidedFactor(6, demand));
  const howe = valueIn(howeFactor(6, demand));
  const trials = 20_000;
  let held = 0;
  for (let trial = 0; trial < trials; trial += 1) {
    const values = Array.from({ length: 6 }, random);
    const mean = values.reduce((sum, x) => sum + x, 0) / 6;
    const s = Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / 5);
    if (share(mean + k * s) - share(mean - k * s) >= 0.9) held += 1;
  }
  // Four standard deviations of the count.
  expect(Math.abs(held / trials - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / trials));
  expect(howe).toBeLessThan(k);
});

/** Distribution function good to 1e-7 (Abramowitz and Stegun 26.2.17, from memory): of other making than ours. */
function share(x: number): number {
  if (x < 0) return 1 - share(-x);
  const t = 1 / (1 + 0.2316419 * x);
  const poly =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return 1 - (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * poly;
}

/** Normal numbers by the polar form of a 32-bit generator (mulberry), the same every run. */
function normals(seed: number): () => number {
  let state = seed;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return (((t ^ (t >>> 14)) >>> 0) + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

// Wilks: 93 two-sided (computed); 59 one-sided is ln 0.05 / ln 0.95 = 58.4, rounded up.
describe("without a distribution, 95 % with 95 % confidence", () => {
  test.each([
    ["both", 93],
    ["one", 59],
  ] as const)("%s: %d readings, and one fewer is not enough", (sides, n) => {
    expect(valueIn(wilksSmallest({ coverage: 0.95, confidence: 0.95 }, sides))).toBe(n);
    expect(valueIn(wilksConfidence(n, 0.95, sides))).toBeGreaterThanOrEqual(0.95);
    expect(valueIn(wilksConfidence(n - 1, 0.95, sides))).toBeLessThan(0.95);
  });
});
