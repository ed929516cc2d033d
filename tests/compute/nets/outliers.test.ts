import { mad, median } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { likePinOutliers } from "../../../server/src/compute/nets/outliers";
import { reason } from "../circuit/support";

const OL = Number.POSITIVE_INFINITY;
const like = (values: readonly number[]) => values.map((value, index) => ({ what: `U${index + 1}`, value }));

function found(values: readonly number[], leastSpread = 0.01) {
  const result = likePinOutliers(like(values), { unit: "V", leastSpread });
  if (!result.ok) throw new Error(result.reason);
  return result;
}

describe("like pins", () => {
  test("one that stands out is named with the arithmetic", () => {
    const { outliers, median: middle } = found([0.58, 0.59, 0.57, 0.58, 1.42, 0.58]);
    expect(middle).toBeCloseTo(0.58, 10);
    expect(outliers).toMatchObject([{ what: "U5", side: "high" }]);
    expect(outliers[0]?.formula).toBe("(1.42 V - 0.58 V) / 10 mV = 84, above 3.5");
  });
  test("low ones too, the farthest first", () => {
    const { outliers } = found([0.58, 0.59, 0.57, 0.58, 0.02, 0.58, 0.7, 0.58]);
    expect(outliers.map(({ what, side }) => [what, side])).toEqual([
      ["U5", "low"],
      ["U7", "high"],
    ]);
    expect(outliers[0]?.formula).toMatch(/^\(0\.58 V - 20 mV\)/);
  });
  test("ordinary spread and a last digit are nothing", () => {
    expect(found([0.55, 0.57, 0.58, 0.6, 0.61, 0.63]).outliers).toEqual([]);
    expect(found([0.58, 0.58, 0.58, 0.58, 0.59]).outliers).toEqual([]);
  });
  test("an open among readings is the farthest", () => {
    const { outliers } = found([0.58, 0.59, OL, 0.57, 0.58, 0.58]);
    expect(outliers).toMatchObject([{ what: "U3", side: "high", score: OL }]);
    expect(outliers[0]?.formula).toBe("open where the others read 0.58 V");
  });
  // e-Handbook 1.3.5.17.1 data, from memory; median and MAD by another library.
  test("agrees with another library's median and MAD", () => {
    const data = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
    const { outliers, median: middle } = found(data, 0);
    expect(middle).toBeCloseTo(median(data), 10);
    expect(outliers.map(({ value }) => value)).toEqual([245.57]);
    expect(outliers[0]?.score).toBeCloseTo((0.6744898 * (245.57 - median(data))) / mad(data), 4);
  });
  test("too few, half of them open and no numbers are refused", () => {
    const options = { unit: "V", leastSpread: 0.01 };
    expect(reason(likePinOutliers(like([0.5, 0.6, 0.7]), options))).toMatch(/Too few/);
    expect(reason(likePinOutliers(like([0.5, 0.6, OL, OL]), options))).toMatch(/infinite/);
    expect(reason(likePinOutliers(like([0.5, Number.NaN]), options))).toMatch(/reading/);
    expect(reason(likePinOutliers(like([0.5, -0.1]), options))).toMatch(/zero or more/);
    expect(reason(likePinOutliers([], options))).toMatch(/Too few/);
    expect(reason(likePinOutliers(like([1]), { ...options, leastSpread: -1 }))).toMatch(/least spread/);
  });
});
