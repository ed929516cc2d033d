// Our distribution functions against @stdlib's, and against values computed with mpmath 1.3 at 40 digits where
// @stdlib runs out of precision.
import chiSquareOracle from "@stdlib/stats-base-dists-chisquare-quantile";
import normalCdfOracle from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantileOracle from "@stdlib/stats-base-dists-normal-quantile";
import tOracle from "@stdlib/stats-base-dists-t-quantile";
import { describe, expect, test } from "vitest";
import { chiSquareQuantile, tQuantile } from "../../../server/src/compute/measurement/distributions";
import { normalCdf, normalQuantile, normalTail } from "../../../server/src/compute/measurement/normal";
import { relative } from "../../support/computed";

/** Largest relative difference of two functions over the arguments. */
const worst = (xs: readonly number[], ours: (x: number) => number, theirs: (x: number) => number): number =>
  Math.max(...xs.map((x) => relative(ours(x), theirs(x))));

const steps = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));

const SHARES = [
  1e-12, 1e-9, 1e-6, 1e-4, 0.001, 0.01, 0.025, 0.05, 0.1, 0.3, 0.49, 0.6, 0.9, 0.95, 0.99, 0.999,
];

describe("against @stdlib", () => {
  test("normal distribution function, in the relative sense down to the deep tail", () => {
    expect(worst(steps(-10, 9, 3001), normalCdf, (x) => normalCdfOracle(x, 0, 1))).toBeLessThan(2e-14);
    // x^2/2 is rounded before the exponential there, by @stdlib: see the mpmath values below.
    expect(worst(steps(-37.4, -10, 3001), normalCdf, (x) => normalCdfOracle(x, 0, 1))).toBeLessThan(4e-13);
  });

  // Its normal quantile goes through the inverse of 2p - 1, so it loses the digits of a small p: 1e-10 relative
  // at p = 1e-9, infinite below 1e-17. Those are held against mpmath.
  test("normal quantile, p from 0.001 to 0.999", () => {
    expect(
      worst(steps(0.001, 0.999, 2000), normalQuantile, (p) => normalQuantileOracle(p, 0, 1)),
    ).toBeLessThan(5e-14);
  });

  test.each([1, 2, 3, 7, 30, 101, 1000])("chi-square and t quantiles, %d degrees of freedom", (freedom) => {
    expect(
      worst(
        SHARES,
        (p) => chiSquareQuantile(p, freedom),
        (p) => chiSquareOracle(p, freedom),
      ),
    ).toBeLessThan(2e-14);
    expect(
      worst(
        SHARES,
        (p) => tQuantile(p, freedom),
        (p) => tOracle(p, freedom),
      ),
    ).toBeLessThan(2e-14);
  });
});

describe("against mpmath at 40 digits (computed)", () => {
  test.each([
    [0.5, 0.3085375387259869],
    [1.9, 0.028716559816001807],
    [2, 0.02275013194817921],
    [2.1, 0.017864420562816553],
    [5, 2.866515718791939e-7],
    [10, 7.619853024160525e-24],
    [30, 4.906713927148187e-198],
    [37.3452, 1.5168156691774383e-305],
  ])("normal tail above %d", (x, tail) => {
    expect(relative(normalTail(x), tail)).toBeLessThan(5e-15);
    expect(relative(normalCdf(-x), tail)).toBeLessThan(5e-15);
    expect(relative(normalQuantile(tail), -x)).toBeLessThan(1e-14);
  });

  test.each([
    [1e-300, 37.0470962993612],
    [1e-20, 9.262340089798407],
    [1e-9, 5.9978070150076865],
    [0.001, 3.0902323061678136],
    [0.025, 1.9599639845400543],
    [0.3, 0.5244005127080408],
  ])("normal quantile %d", (p, x) => {
    expect(relative(normalQuantile(p), -x)).toBeLessThan(5e-15);
  });

  // @stdlib 0.2.3 gives 9929.35 for the first, 4e-4 off.
  test.each([
    [0.3, 10_000, 9925.358009834968],
    [0.01, 10_000, 9673.948839577637],
    [0.01, 42, 23.650094677826193],
    [0.05, 9, 3.325112843066815],
    [0.99, 1000, 1106.9689943522174],
  ])("chi-square quantile %d, %d degrees of freedom", (p, freedom, quantile) => {
    expect(relative(chiSquareQuantile(p, freedom), quantile)).toBeLessThan(1e-14);
  });

  test.each([
    [0.05, 10_000, 1.645006018069243],
    [0.003125, 6, 4.1151701175956905],
    [1e-9, 1, 318309886.1837906],
    [1e-12, 3, 10331.108244292485],
  ])("t quantile %d, %d degrees of freedom", (p, freedom, quantile) => {
    expect(relative(tQuantile(p, freedom), -quantile)).toBeLessThan(1e-14);
  });
});
