import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  conformanceProbability,
  conformity,
  type ToleranceLimits,
} from "../../../server/src/compute/measurement/conformity";
import { refusalIn, relative, valueIn } from "../../support/computed";

const RAIL = { low: 4.75, high: 5.25 };
const decide = (value: number, u: number, limits: ToleranceLimits = RAIL, ratio = 1) =>
  valueIn(conformity(value, u, limits, { ratio }));

describe("conformity", () => {
  test.each([
    [5, "conforming", undefined],
    [5.22, "conforming", undefined],
    [5.24, "in-guard-band", "high"],
    [5.26, "in-guard-band", "high"],
    [5.28, "non-conforming", "high"],
    [4.76, "in-guard-band", "low"],
    [4.7, "non-conforming", "low"],
  ])("%d V on a 5 V rail read with u = 10 mV: %s", (value, decision, side) => {
    const result = decide(value, 0.01);
    expect([result.decision, result.side]).toEqual([decision, side]);
  });

  test("says where the acceptance interval ends", () => {
    const { acceptance, notRejected, guard, expanded } = decide(5, 0.01);
    expect([expanded, guard]).toEqual([0.02, 0.02]);
    expect(acceptance).toEqual({ low: expect.closeTo(4.77, 12), high: expect.closeTo(5.23, 12) });
    expect(notRejected).toEqual({ low: expect.closeTo(4.73, 12), high: expect.closeTo(5.27, 12) });
  });

  test.each([4.75, 5.25])("with no guard band and no uncertainty the limit %d itself conforms", (value) => {
    expect(decide(value, 0)).toMatchObject({ decision: "conforming", probability: 1, ifAccepted: 0 });
  });

  test("with no guard band and no uncertainty what lies beyond does not, and there is no risk", () => {
    expect(decide(5.2500001, 0)).toMatchObject({ decision: "non-conforming", probability: 0, ifRejected: 0 });
    expect(decide(5, 0)).toMatchObject({ consumersRisk: 0, producersRisk: 0 });
  });

  test("a meter too coarse for the limits accepts nothing and says so", () => {
    const result = decide(5, 0.2);
    expect(result.acceptance).toBeUndefined();
    expect(result).toMatchObject({ decision: "in-guard-band", consumersRisk: 0 });
    expect(decide(5.7, 0.2).decision).toBe("non-conforming");
  });

  test("between two limits a wrong acceptance may fall beyond either", () => {
    // Limits 4u apart, w = u: at the edge of acceptance one limit is 1u away and the other 3u.
    const result = decide(0, 1, { low: -2, high: 2 }, 0.5);
    expect(result.consumersRisk).toBeCloseTo(0.158655 + 0.00135, 6);
    // At the edge of rejection the true value is within where it is 1u to 5u off.
    expect(result.producersRisk).toBeCloseTo(0.158655, 6);
  });

  test.each([
    [Number.POSITIVE_INFINITY, { high: 100 }, "non-conforming", "high", 0],
    [Number.POSITIVE_INFINITY, { low: 100 }, "conforming", undefined, 1],
    [Number.POSITIVE_INFINITY, RAIL, "non-conforming", "high", 0],
    [Number.NEGATIVE_INFINITY, RAIL, "non-conforming", "low", 0],
    [Number.NEGATIVE_INFINITY, { high: 100 }, "conforming", undefined, 1],
  ] as const)("an overload of %d against %j: %s", (value, limits, decision, side, p) => {
    const result = decide(value, 0.1, limits);
    expect([result.decision, result.side, result.probability]).toEqual([decision, side, p]);
    expect(result.ifAccepted).toBe(1 - p);
  });

  test.each([
    [Number.NaN, 1, RAIL, {}, "measured value is not a number"],
    [5, Number.NaN, RAIL, {}, "standard uncertainty"],
    [5, -1, RAIL, {}, "standard uncertainty"],
    [5, Number.POSITIVE_INFINITY, RAIL, {}, "standard uncertainty"],
    [5, 1, { low: 2, high: 1 }, {}, "above the upper limit"],
    [5, 1, { low: Number.NaN }, {}, "limit is not a number"],
    [5, 1, {}, {}, "no limit"],
    [5, 1, { high: Number.POSITIVE_INFINITY }, {}, "no limit"],
    [5, 1, RAIL, { ratio: -1 }, "guard band's ratio"],
    [5, 1, RAIL, { coverageFactor: Number.NaN }, "coverage factor"],
  ])("refuses %d, u %d, %j, %j", (value, u, limits, band, words) => {
    expect(refusalIn(conformity(value, u, limits, band))).toContain(words);
  });

  const finite = fc.double({ min: -100, max: 100, noNaN: true });
  const spread = fc.double({ min: 1e-6, max: 50, noNaN: true });

  test("a conforming value is wrong at most as often as the rule allows, a rejected one likewise", () => {
    fc.assert(
      fc.property(
        finite,
        spread,
        finite,
        finite,
        fc.double({ min: 0, max: 2, noNaN: true }),
        (y, u, a, b, ratio) => {
          const result = decide(y, u, { low: Math.min(a, b), high: Math.max(a, b) }, ratio);
          const slack = 1e-12;
          if (result.decision === "conforming") {
            expect(result.ifAccepted).toBeLessThanOrEqual(result.consumersRisk + slack);
            expect(result.probability).toBeGreaterThanOrEqual(1 - result.consumersRisk - slack);
          }
          if (result.decision === "non-conforming") {
            expect(result.ifRejected).toBeLessThanOrEqual(result.producersRisk + slack);
          }
        },
      ),
      { seed: 8, numRuns: 500 },
    );
  });

  test("small probabilities on either side are not lost to rounding", () => {
    // The normal tail above 10, mpmath at 40 digits.
    const beyondTen = 7.619853024160525e-24;
    const far = valueIn(conformanceProbability(10, 1, { low: -90, high: 0 }));
    expect(relative(far.within, beyondTen)).toBeLessThan(1e-14);
    expect(far.outside).toBe(1);
    const deep = valueIn(conformanceProbability(0, 1, { low: -10, high: 10 }));
    expect(relative(deep.outside, 2 * beyondTen)).toBeLessThan(1e-14);
    expect(deep.within).toBe(1);
  });
});
