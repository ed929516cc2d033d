import { describe, expect, it } from "vitest";
import { compareToLimits, type How, type Limits } from "../../../server/src/compute/limits/compare";
import { comparisonText } from "../../../server/src/compute/limits/text";

const WINDOW: Limits = { low: 4.75, high: 5.25, unit: "V" };
const OVERLOAD = Number.POSITIVE_INFINITY;

const found = (value: Parameters<typeof compareToLimits>[0], how?: How, limits = WINDOW) => {
  const { verdict, limit, side } = compareToLimits(value, limits, how);
  return [verdict, limit, side];
};

describe("a value against limits", () => {
  it.each([
    [5, 0, ["within-limits", undefined, undefined]],
    // Both limits belong to the window.
    [5.25, 0, ["within-limits", undefined, undefined]],
    [4.75, 0, ["within-limits", undefined, undefined]],
    [5.24, 0.02, ["suspect", "high", "high"]],
    [5.26, 0.02, ["suspect", "high", "high"]],
    [5.28, 0.02, ["out-of-limits", "high", "high"]],
    [4.76, 0.02, ["suspect", "low", "low"]],
    [4.72, 0.02, ["out-of-limits", "low", "low"]],
    [OVERLOAD, 0, ["out-of-limits", "high", "high"]],
  ])("%d ± %d", (value, uncertainty, wanted) => {
    expect(found(value, { uncertainty })).toEqual(wanted);
  });

  it("keeps no guard inside limits that are no specification, and the same one outside", () => {
    const how = { uncertainty: 0.02, guardInside: false };
    expect(found(5.24, how)).toEqual(["within-limits", undefined, undefined]);
    expect(found(5.26, how)).toEqual(["suspect", "high", "high"]);
    expect(found(5.28, how)).toEqual(["out-of-limits", "high", "high"]);
  });

  it("is suspect between the limits and those further out, and says that it lies between", () => {
    const how = { beyond: { low: 4.5, high: 5.5 } };
    expect(compareToLimits(5.4, WINDOW, how)).toMatchObject({
      verdict: "suspect",
      side: "high",
      isBetween: true,
    });
    expect(compareToLimits(4.6, WINDOW, how)).toMatchObject({
      verdict: "suspect",
      side: "low",
      isBetween: true,
    });
    expect(compareToLimits(5.51, WINDOW, how)).not.toHaveProperty("isBetween");
    expect(found(5.51, how)).toEqual(["out-of-limits", "high", "high"]);
    // Its uncertainty reaches back to them.
    expect(found(5.51, { ...how, uncertainty: 0.02 })).toEqual(["suspect", "high", "high"]);
  });

  it("takes the two ends of an uncertainty that lies unevenly", () => {
    const above = { high: 1, unit: "A" };
    expect(found(0.9, { uncertainty: [0.8, 0.95] }, above)).toEqual(["within-limits", undefined, undefined]);
    expect(found(0.9, { uncertainty: [0.8, 1.2] }, above)).toEqual(["suspect", "high", "high"]);
    expect(found(1.2, { uncertainty: [1.1, OVERLOAD] }, above)).toEqual(["out-of-limits", "high", "high"]);
  });

  it("is told against the upper limit where a range reaches across both, and lies where its middle does", () => {
    expect(found({ low: 4, high: 5.3 })).toEqual(["suspect", "high", "low"]);
    expect(found({ low: 4.7, high: 7 })).toEqual(["suspect", "high", "high"]);
    // "< 5.5" may be anything below.
    expect(found({ low: Number.NEGATIVE_INFINITY, high: 5.5 })).toEqual(["suspect", "high", "low"]);
    expect(found({ low: 5, high: OVERLOAD })).toEqual(["suspect", "high", "high"]);
  });

  it("has an open end where a limit is left out", () => {
    expect(found(OVERLOAD, {}, { low: 60, unit: "ohm" })).toEqual(["within-limits", undefined, undefined]);
    expect(found(59, {}, { low: 60, unit: "ohm" })).toEqual(["out-of-limits", "low", "low"]);
    expect(found(59, {}, { unit: "ohm" })).toEqual(["within-limits", undefined, undefined]);
  });
});

describe("its words", () => {
  const words = (value: number, how?: How, limits = WINDOW) => {
    const comparison = compareToLimits(value, limits, how);
    return [comparisonText(comparison, "bench"), comparisonText(comparison, "arithmetic")];
  };

  it("say an uncertainty to two digits at the bench, and as it stands in arithmetic", () => {
    expect(words(5.28, { uncertainty: 0.01234 })).toEqual([
      "5.28 V ± 12 mV > 5.25 V",
      "5.28 V ± 12.34 mV > 5.25 V",
    ]);
  });

  it("say the ends of an uneven one", () => {
    expect(words(5.2, { uncertainty: [5.1, 5.4] })).toEqual(
      Array(2).fill("5.2 V (5.1 V to 5.4 V) straddles 5.25 V"),
    );
  });

  it("say open at the bench, and infinite in arithmetic", () => {
    expect(words(OVERLOAD)).toEqual(["open > 5.25 V", "∞ V > 5.25 V"]);
  });

  it("say outside of what lies between two pairs of limits", () => {
    expect(words(4.6, { beyond: { low: 4.5, high: 5.5 } })[0]).toBe("4.6 V < 4.75 V");
  });
});
