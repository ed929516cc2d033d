import { describe, expect, test } from "vitest";
import {
  howeFactor,
  oneSidedFactor,
  toleranceInterval,
  twoSidedFactor,
} from "../../../server/src/compute/measurement/tolerance-interval";
import { wilksConfidence, wilksSmallest } from "../../../server/src/compute/measurement/wilks";
import { refusalIn, valueIn } from "../../support/computed";

const DEMAND = { coverage: 0.95, confidence: 0.9 };
const FACTORS = { howeFactor, twoSidedFactor, oneSidedFactor };

describe.each(Object.entries(FACTORS))("%s", (_name, factor) => {
  test("shrinks towards the plain normal quantile as readings come in", () => {
    const counts = [2, 3, 5, 10, 30, 100, 1000, 100_000];
    const factors = counts.map((n) => valueIn(factor(n, DEMAND)));
    expect(factors).toEqual([...factors].sort((a, b) => b - a));
    const plain = factor === oneSidedFactor ? 1.6448536 : 1.959964;
    expect(factors.at(-1)! / plain).toBeGreaterThan(1);
    expect(factors.at(-1)! / plain).toBeLessThan(1.01);
  });

  test("grows with the coverage and with the confidence", () => {
    const at = (coverage: number, confidence: number) => valueIn(factor(6, { coverage, confidence }));
    expect(at(0.99, 0.9)).toBeGreaterThan(at(0.9, 0.9));
    expect(at(0.9, 0.99)).toBeGreaterThan(at(0.9, 0.9));
  });

  test.each([
    [1, DEMAND, "Too few: 1"],
    [0, DEMAND, "Too few: 0"],
    [5.5, DEMAND, "Too few: 5.5"],
    [Number.NaN, DEMAND, "Too few"],
    [2_000_000, DEMAND, "more than"],
    [10, { coverage: 1, confidence: 0.9 }, "coverage"],
    [10, { coverage: Number.NaN, confidence: 0.9 }, "coverage"],
    [10, { coverage: 0.9, confidence: 0 }, "confidence"],
  ])("refuses n = %d, %j", (n, demand, words) => {
    expect(refusalIn(factor(n, demand))).toContain(words);
  });

  test("extreme demands give a factor or a refusal, never an endless search", () => {
    for (const n of [2, 7, 1000, 1_000_000]) {
      for (const coverage of [1e-9, 0.5, 1 - 1e-9]) {
        for (const confidence of [1e-9, 0.5, 1 - 1e-9]) {
          const result = factor(n, { coverage, confidence });
          if (result.ok) expect(Number.isFinite(result.value)).toBe(true);
          else expect(result.reason).toContain("extreme");
        }
      }
    }
  });
});

test("Howe's factor is close to the exact one from ten readings on", () => {
  for (const n of [10, 20, 50, 200]) {
    const ratio = valueIn(howeFactor(n, DEMAND)) / valueIn(twoSidedFactor(n, DEMAND));
    expect(Math.abs(ratio - 1)).toBeLessThan(0.01);
  }
});

test("the median needs no allowance at even odds: one-sided factor 0", () => {
  expect(valueIn(oneSidedFactor(5, { coverage: 0.5, confidence: 0.5 }))).toBeCloseTo(0, 12);
  const upper = valueIn(oneSidedFactor(5, { coverage: 0.8, confidence: 0.7 }));
  // Above mean + k s with a share of 0.2 is the other side of below it with 0.8.
  expect(valueIn(oneSidedFactor(5, { coverage: 0.2, confidence: 0.3 }))).toBeCloseTo(-upper, 10);
});

test("toleranceInterval leaves the other side open where one was asked for", () => {
  expect(toleranceInterval(5, 0.1, 2)).toEqual({ low: 4.8, high: 5.2 });
  expect(toleranceInterval(5, 0.1, 2, "upper")).toEqual({ low: Number.NEGATIVE_INFINITY, high: 5.2 });
  expect(toleranceInterval(5, 0.1, 2, "lower")).toEqual({ low: 4.8, high: Number.POSITIVE_INFINITY });
});

describe("wilks", () => {
  test("one reading bounds half of all on one side, at even odds, and nothing on two", () => {
    expect(valueIn(wilksConfidence(1, 0.5, "one"))).toBeCloseTo(0.5, 12);
    expect(valueIn(wilksConfidence(1, 0.5, "both"))).toBe(0);
    expect(valueIn(wilksSmallest({ coverage: 0.5, confidence: 0.4 }, "one"))).toBe(1);
  });

  test("the smallest number is the first that is enough", () => {
    for (const sides of ["one", "both"] as const) {
      for (const coverage of [0.3, 0.5, 0.8, 0.9, 0.99]) {
        for (const confidence of [0.1, 0.5, 0.9, 0.999]) {
          let n = 1;
          while (valueIn(wilksConfidence(n, coverage, sides)) < confidence) n += 1;
          expect(valueIn(wilksSmallest({ coverage, confidence }, sides))).toBe(n);
        }
      }
    }
  });

  test.each([
    [{ coverage: 1, confidence: 0.9 }, "coverage"],
    [{ coverage: 0.9, confidence: 1 }, "confidence"],
    [{ coverage: 1 - 1e-15, confidence: 0.9 }, "No number of readings"],
  ])("refuses %j", (demand, words) => {
    expect(refusalIn(wilksSmallest(demand, "both"))).toContain(words);
  });

  test("refuses no readings at all", () => {
    expect(refusalIn(wilksConfidence(0, 0.9, "one"))).toContain("Too few: 0");
  });
});
