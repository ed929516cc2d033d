import { describe, expect, test } from "vitest";
import { readingUncertainty } from "../../../server/src/compute/measurement/accuracy";
import { refusalIn, valueIn } from "../../support/computed";

/** "0.5 % + 2" on a range that shows 10 mV. */
const RANGE = { accuracy: { reading: 0.005, counts: 2 }, digit: 0.01 };

describe("readingUncertainty", () => {
  test("says the maker's limit, what it amounts to, the rounding, and their sum, each by its name", () => {
    const result = valueIn(readingUncertainty({ ...RANGE, value: 5.02, resolutionTyped: 0.01 }));
    expect(result.limit).toBeCloseTo(0.0451, 12);
    expect(result.meter).toBeCloseTo(0.0451 / Math.sqrt(3), 12);
    expect(result.rounding).toBeCloseTo(0.005 / Math.sqrt(3), 12);
    expect(result.standard ** 2).toBeCloseTo((0.0451 ** 2 + 0.005 ** 2) / 3, 12);
    expect(result.expanded).toBeCloseTo(2 * result.standard, 12);
    expect(result).toMatchObject({ coverageFactor: 2, digitFrom: "range" });
  });

  test("the sign of the reading does not matter", () => {
    const at = (value: number) => valueIn(readingUncertainty({ ...RANGE, value, resolutionTyped: 0.1 }));
    expect(at(-12.1)).toEqual(at(12.1));
  });

  test("without a specification only rounding is left", () => {
    const result = valueIn(readingUncertainty({ value: 5, resolutionTyped: 0.1 }));
    expect(result).toMatchObject({ limit: 0, meter: 0, standard: result.rounding });
    expect(result.standard).toBeCloseTo(0.05 / Math.sqrt(3), 12);
  });

  test("digits left out when typing widen it: 5.0 V is not 5.00 V", () => {
    const at = (resolutionTyped: number) =>
      valueIn(readingUncertainty({ ...RANGE, value: 5, resolutionTyped })).standard;
    expect(at(0.1)).toBeGreaterThan(at(0.01));
  });

  test("where the range's digit is not known the digit typed stands in, and it says so", () => {
    const { accuracy } = RANGE;
    const result = valueIn(readingUncertainty({ value: 5, accuracy, resolutionTyped: 0.1 }));
    expect(result.limit).toBeCloseTo(0.225, 12);
    expect(result.digitFrom).toBe("typed");
  });

  test("another spread between the limits", () => {
    const meter = (spread: "rectangular" | "triangular" | "normal-95") =>
      valueIn(readingUncertainty({ ...RANGE, value: 5.02, resolutionTyped: 0.01 }, { spread })).meter;
    expect(meter("rectangular") / meter("triangular")).toBeCloseTo(Math.SQRT2, 12);
    expect(meter("normal-95")).toBeCloseTo(0.0451 / 1.96, 6);
  });

  test.each([1, 2, 3, 10])("counting the display's rounding twice adds little at %d counts", (counts) => {
    const result = valueIn(
      readingUncertainty({ value: 0, accuracy: { reading: 0, counts }, digit: 1, resolutionTyped: 1 }),
    );
    const widened = result.standard / result.meter - 1;
    expect(widened).toBeLessThan(counts === 1 ? 0.13 : 0.04);
    expect(widened).toBeGreaterThan(0);
  });

  test.each([
    [{ value: Number.POSITIVE_INFINITY, resolutionTyped: 1 }, {}, "finite reading"],
    [{ value: Number.NaN, resolutionTyped: 1 }, {}, "finite reading"],
    [{ value: 1, resolutionTyped: -1 }, {}, "resolution typed"],
    [{ value: 1, resolutionTyped: 1, digit: Number.NaN }, {}, "last digit"],
    [{ value: 1, resolutionTyped: 1, accuracy: { reading: -0.1, counts: 1 } }, {}, "share of the reading"],
    [{ value: 1, resolutionTyped: 1, accuracy: { reading: 0, counts: -1 } }, {}, "counts"],
    [{ value: 1, resolutionTyped: 1 }, { coverageFactor: -2 }, "coverage factor"],
  ] as const)("refuses %j", (input, options, words) => {
    expect(refusalIn(readingUncertainty(input, options))).toContain(words);
  });
});
