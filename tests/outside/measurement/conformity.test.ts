// JCGM 106:2012, the role of measurement uncertainty in conformity assessment. The inputs are from memory, the
// results computed.
import normalCdfOracle from "@stdlib/stats-base-dists-normal-cdf";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { conformanceProbability, conformity } from "../../../server/src/compute/measurement/conformity";
import { valueIn } from "../../support/computed";

describe("conformance probability", () => {
  test("507 against at least 490, u = 8.6: 0.976", () => {
    const { within, outside } = valueIn(conformanceProbability(507, 8.6, { low: 490 }));
    expect(Number(within.toFixed(3))).toBe(0.976);
    expect(Number(outside.toFixed(3))).toBe(0.024);
  });

  test("13.6 in 12.5 to 16.3, u = 1.8: 0.663", () => {
    const { within } = valueIn(conformanceProbability(13.6, 1.8, { low: 12.5, high: 16.3 }));
    expect(Number(within.toFixed(3))).toBe(0.663);
  });

  test("is the difference of two distribution functions, for any value and limits", () => {
    const number = fc.double({ min: -1e3, max: 1e3, noNaN: true });
    fc.assert(
      fc.property(number, fc.double({ min: 1e-3, max: 1e2, noNaN: true }), number, number, (y, u, a, b) => {
        const [low, high] = a < b ? [a, b] : [b, a];
        const { within, outside } = valueIn(conformanceProbability(y, u, { low, high }));
        expect(within).toBeCloseTo(normalCdfOracle(high, y, u) - normalCdfOracle(low, y, u), 12);
        expect(within + outside).toBeCloseTo(1, 12);
      }),
      { seed: 106 },
    );
  });
});

describe("guard band of one expanded uncertainty, k = 2", () => {
  test.each([
    ["upper", { high: 0.7 }],
    ["lower", { low: 0.7 }],
  ])("falsely accepts and falsely rejects 2.275 %% at worst, %s limit", (_name, limits) => {
    const result = valueIn(conformity(0.5, 0.01, limits));
    expect(result.guard).toBeCloseTo(0.02, 15);
    expect(result.consumersRisk).toBeCloseTo(0.02275, 5);
    expect(result.producersRisk).toBeCloseTo(0.02275, 5);
  });

  test("simple acceptance, without a guard band, falsely accepts one in two at the limit", () => {
    const result = valueIn(conformity(0.5, 0.01, { high: 0.7 }, { ratio: 0 }));
    expect(result.consumersRisk).toBeCloseTo(0.5, 15);
    expect(result.acceptance).toEqual({ low: Number.NEGATIVE_INFINITY, high: 0.7 });
  });
});
