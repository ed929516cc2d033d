// NIST/SEMATECH e-Handbook 1.3.5.17.1 (Grubbs' test; data and results from memory), median and MAD of the same data
// computed; medians of anything against simple-statistics.
import fc from "fast-check";
import { medianAbsoluteDeviation, median as medianOracle } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { grubbs, grubbsCritical } from "../../../server/src/compute/measurement/grubbs";
import { mad, median, modifiedZ } from "../../../server/src/compute/measurement/robust";
import { valueIn } from "../../support/computed";

const URANIUM = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];

describe("the handbook's eight readings", () => {
  test("G = 2.4688, critical 2.032 for one end", () => {
    const result = valueIn(grubbs(URANIUM, 0.05, "high"));
    expect(result).toMatchObject({ index: 7, outlier: true });
    expect(Number(result.g.toFixed(4))).toBe(2.4688);
    expect(Number(result.critical.toFixed(3))).toBe(2.032);
  });

  test("critical 2.127 for either end", () => {
    expect(Number(valueIn(grubbsCritical(8)).toFixed(3))).toBe(2.127);
    expect(valueIn(grubbs(URANIUM)).outlier).toBe(true);
  });

  test("without the eighth nothing is left to find", () => {
    expect(valueIn(grubbs(URANIUM.slice(0, 7)))).toMatchObject({ outlier: false });
  });

  test("median 201.37, MAD 0.995, and the modified z-score finds the same reading", () => {
    expect(median(URANIUM)).toBeCloseTo(201.37, 10);
    expect(mad(URANIUM)).toBeCloseTo(0.995, 10);
    const result = valueIn(modifiedZ(URANIUM));
    expect(result.outliers).toEqual([7]);
    // The handbook's form, 0.6745 (x - median) / MAD, has four digits.
    expect(result.z[7]! / ((0.6745 * (245.57 - 201.37)) / 0.995)).toBeCloseTo(1, 4);
  });
});

test("median and MAD of any readings are those of simple-statistics", () => {
  const readings = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 40 });
  fc.assert(
    fc.property(readings, (values) => {
      expect(median(values)).toBeCloseTo(medianOracle(values), 6);
      expect(mad(values)).toBeCloseTo(medianAbsoluteDeviation(values), 6);
    }),
    { seed: 135 },
  );
});
