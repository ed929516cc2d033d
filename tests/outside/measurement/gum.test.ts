// JCGM 100:2008 (GUM), the guide to the expression of uncertainty in measurement.
import { describe, expect, test } from "vitest";
import { readingUncertainty } from "../../../server/src/compute/measurement/accuracy";
import { type Correlation, propagate } from "../../../server/src/compute/measurement/propagate";
import { valueIn } from "../../support/computed";

// Figures seen.
describe("H.2, resistance and reactance measured at once", () => {
  const inputs = [
    { value: 4.999, u: 3.2e-3 },
    { value: 19.661e-3, u: 9.5e-6 },
    { value: 1.04446, u: 0.75e-3 },
  ];
  const correlations: Correlation[] = [
    [0, 1, -0.36],
    [0, 2, 0.86],
    [1, 2, -0.65],
  ];
  test.each([
    ["R", (v: number, i: number, phi: number) => (v / i) * Math.cos(phi), 127.732, 0.07],
    ["X", (v: number, i: number, phi: number) => (v / i) * Math.sin(phi), 219.85, 0.3],
    ["Z", (v: number, i: number) => v / i, 254.26, 0.24],
  ] as const)("%s", (_name, f, value, u) => {
    const result = valueIn(propagate(f, inputs, correlations));
    // Each to the last digit the guide prints.
    expect(Math.abs(result.value - value)).toBeLessThan(value === 127.732 ? 5e-4 : 5e-3);
    expect(Number(result.u.toPrecision(2))).toBeCloseTo(u, 10);
  });

  test("leaving the correlations out gives other uncertainties", () => {
    const z = (v: number, i: number): number => v / i;
    const alone = valueIn(propagate(z, inputs));
    expect(Number(alone.u.toPrecision(2))).toBeCloseTo(0.2, 10);
  });
});

// Examples of 4.3.7 and F.2.2.1: from memory.
describe("limits without a confidence are rectangular", () => {
  test("expansion coefficient of copper, 16.52e-6 give or take 0.40e-6: u = 0.23e-6", () => {
    const result = valueIn(
      readingUncertainty({
        value: 16.52e-6,
        accuracy: { reading: 0, counts: 40 },
        digit: 0.01e-6,
        resolutionTyped: 0,
      }),
    );
    expect(result.limit).toBeCloseTo(0.4e-6, 15);
    expect(Number(result.standard.toPrecision(2))).toBe(0.23e-6);
  });

  test("voltmeter, 14e-6 of 0.928571 V and 2e-6 of the 1 V range: a = 15 uV, u = 8.7 uV", () => {
    const result = valueIn(
      readingUncertainty({
        value: 0.928571,
        accuracy: { reading: 14e-6, counts: 2 },
        digit: 1e-6,
        resolutionTyped: 0,
      }),
    );
    expect(Number(result.limit.toPrecision(2))).toBe(15e-6);
    expect(Number(result.standard.toPrecision(2))).toBe(8.7e-6);
  });

  test("a digital display: u = 0.29 of its step", () => {
    const result = valueIn(readingUncertainty({ value: 5, resolutionTyped: 1 }));
    expect(Number(result.standard.toPrecision(2))).toBe(0.29);
  });
});
