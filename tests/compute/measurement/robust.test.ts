import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { grubbs, grubbsCritical } from "../../../server/src/compute/measurement/grubbs";
import { mad, median, modifiedZ } from "../../../server/src/compute/measurement/robust";
import { refusalIn, valueIn } from "../../support/computed";

describe("median and MAD", () => {
  test.each([
    [[3], 3],
    [[2, 1], 1.5],
    [[5, 1, 3], 3],
    [[4, 1, 3, 2], 2.5],
    [[1, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY], Number.POSITIVE_INFINITY],
    [[Number.MAX_VALUE, Number.MAX_VALUE], Number.MAX_VALUE],
    [[], undefined],
    [[1, Number.NaN], undefined],
    [[Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY], undefined],
  ])("median of %j is %j", (values, middle) => {
    expect(median(values)).toBe(middle);
  });

  test("the list given keeps its order", () => {
    const values = [3, 1, 2];
    median(values);
    expect(values).toEqual([3, 1, 2]);
  });

  test("MAD, and scaled to a standard deviation", () => {
    expect(mad([1, 2, 3, 4, 100])).toBe(1);
    expect(mad([1, 2, 3, 4, 100], true)).toBeCloseTo(1.4826, 4);
    expect(mad([1, 2, Number.POSITIVE_INFINITY])).toBeUndefined();
    expect(mad([])).toBeUndefined();
  });
});

describe("modifiedZ", () => {
  test("finds the pin that differs among like pins, however many decimals it is off by", () => {
    const result = valueIn(modifiedZ([0.58, 0.59, 0.57, 1.42, 0.58, 0.6, 0.58, 0.57]));
    expect(result.outliers).toEqual([3]);
    expect(result).toMatchObject({ centre: 0.58, spreadFrom: "mad" });
  });

  test("one that lies too low stands out as well", () => {
    const result = valueIn(modifiedZ([0.58, 0.59, 0.57, 0.02, 0.58, 0.6, 0.58, 0.57]));
    expect(result.outliers).toEqual([3]);
    expect(result.z[3]).toBeLessThan(-3.5);
  });

  test("two that would hide each other from the mean are both found", () => {
    expect(valueIn(modifiedZ([0.58, 0.59, 0.57, 1.42, 1.44, 0.58, 0.6])).outliers).toEqual([3, 4]);
  });

  test("where more than half are alike the mean distance stands in", () => {
    const result = valueIn(modifiedZ([0.58, 0.58, 0.58, 0.58, 0.58, 0.58, 0.58, 1.9]));
    expect(result).toMatchObject({ spreadFrom: "mean-deviation", outliers: [7] });
  });

  test("a last digit's difference is no outlier once the least spread is given", () => {
    const values = [0.58, 0.58, 0.58, 0.58, 0.58, 0.58, 0.58, 0.59];
    expect(valueIn(modifiedZ(values)).outliers).toEqual([7]);
    const result = valueIn(modifiedZ(values, { leastSpread: 0.01 }));
    expect(result).toMatchObject({ spreadFrom: "least-spread", spread: 0.01, outliers: [] });
  });

  test("all alike: nothing stands out, and nothing is divided by zero", () => {
    expect(valueIn(modifiedZ([5, 5, 5, 5, 5]))).toEqual({
      centre: 5,
      spread: 0,
      spreadFrom: "all-alike",
      z: [0, 0, 0, 0, 0],
      outliers: [],
    });
  });

  test("an overload is an outlier and does not move the middle", () => {
    const result = valueIn(modifiedZ([0.58, 0.59, Number.POSITIVE_INFINITY, 0.57, 0.58, 0.6]));
    expect(result).toMatchObject({ centre: 0.58, outliers: [2] });
    expect(result.z[2]).toBe(Number.POSITIVE_INFINITY);
    const alike = valueIn(modifiedZ([5, 5, 5, 5, 5, Number.POSITIVE_INFINITY]));
    expect(alike).toMatchObject({ spreadFrom: "all-alike", outliers: [5] });
  });

  test.each([
    [[], {}, "Too few: 0"],
    [[1, 2, 3, 4], {}, "Too few: 4"],
    [[1, 2, Number.NaN, 3, 4, 5], {}, "not a number"],
    [[1, Number.POSITIVE_INFINITY], {}, "1 of 2"],
    [[1, 2, 3, 4, 5], { limit: 0 }, "limit of the z-score"],
    [[1, 2, 3, 4, 5], { leastSpread: -1 }, "least spread"],
  ])("refuses %j, %j", (values, options, words) => {
    expect(refusalIn(modifiedZ(values, options))).toContain(words);
  });

  test("neither shifting nor scaling the readings changes who stands out", () => {
    const readings = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 5, maxLength: 20 });
    fc.assert(
      fc.property(
        readings,
        fc.integer({ min: -500, max: 500 }),
        fc.constantFrom(2, 4, 0.5),
        (values, by, times) => {
          const moved = valueIn(modifiedZ(values.map((x) => (x + by) * times)));
          expect(moved.outliers).toEqual(valueIn(modifiedZ(values)).outliers);
        },
      ),
      { seed: 35 },
    );
  });
});

describe("grubbs", () => {
  const values = [5.01, 5.02, 4.99, 5.0, 5.01, 4.98, 5.0, 3.2];

  test("looks at the end asked for", () => {
    expect(valueIn(grubbs(values))).toMatchObject({ index: 7, outlier: true });
    expect(valueIn(grubbs(values, 0.05, "low"))).toMatchObject({ index: 7, outlier: true });
    expect(valueIn(grubbs(values, 0.05, "high"))).toMatchObject({ index: 1, outlier: false });
  });

  test("the bar rises as less doubt is allowed, and lies below the largest possible (n-1)/sqrt(n)", () => {
    const at = (alpha: number) => valueIn(grubbsCritical(8, alpha));
    expect(at(0.01)).toBeGreaterThan(at(0.05));
    expect(at(1e-12)).toBeLessThanOrEqual(7 / Math.sqrt(8));
  });

  test.each([
    [[1, 2, 3, 4, 5, 60], 0.05, "Too few: 6"],
    [[1, 2, 3, 4, 5, 6, Number.POSITIVE_INFINITY], 0.05, "finite"],
    [[0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1], 0.05, "the same"],
    [values, 1, "significance level"],
  ])("refuses %j at %d", (list, alpha, words) => {
    expect(refusalIn(grubbs(list, alpha))).toContain(words);
  });

  test("a critical value needs three readings", () => {
    expect(refusalIn(grubbsCritical(2))).toContain("Too few: 2");
    expect(refusalIn(grubbsCritical(7.5))).toContain("Too few");
    expect(valueIn(grubbsCritical(3))).toBeCloseTo(2 / Math.sqrt(3), 2);
  });
});
