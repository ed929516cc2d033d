import { describe, expect, it } from "vitest";
import type { Extent } from "../../server/src/compute/limits/compare";
import { comparisonText } from "../../server/src/compute/limits/text";
import { compareWith, straddleAdvice, windowText } from "../../server/src/judge/compare";
import type { Reference } from "../../server/src/judge/types";
import { rangeFor, roundingOf, testVoltage, uncertaintyOf } from "../../server/src/judge/uncertainty";
import type { Meter } from "../../server/src/knowledge/types";
import { formatValue } from "../../server/src/quantity/format-value";
import { parseCell } from "../../server/src/quantity/parse-cell";

const volts = (typed: string) => parseCell(typed, { kind: "quantity", unit: "V" });

const meter: Meter = {
  id: "m",
  title: "Meter",
  ranges: [
    { function: "dc-volts", range: "20 V", resolution: "10 mV", accuracy: { reading: "0.5 %", counts: 1 } },
    { function: "dc-volts", range: "2 V", resolution: "1 mV", accuracy: { reading: "0.5 %", counts: 1 } },
    { function: "dc-volts", range: "200 V", accuracy: { reading: "1 %", counts: 3 } },
    { function: "ac-volts", range: "2 V" },
    { function: "diode", range: "2 V", accuracy: { reading: "1 %", counts: 2 }, testVoltage: "2.8 V" },
  ],
};

describe("the range", () => {
  it("is the smallest that holds the value, else the largest", () => {
    expect(rangeFor(meter, "dc-volts", 1.9)?.range).toBe("2 V");
    expect(rangeFor(meter, "dc-volts", -2)?.range).toBe("2 V");
    expect(rangeFor(meter, "dc-volts", 2.01)?.range).toBe("20 V");
    expect(rangeFor(meter, "dc-volts", 900)?.range).toBe("200 V");
    expect(rangeFor(meter, "ohms", 1)).toBeUndefined();
  });

  it("knows its test voltage", () => {
    expect(testVoltage(meter, "diode")).toBe(2.8);
    expect(testVoltage(meter, "dc-volts")).toBeUndefined();
    expect(testVoltage(undefined, "diode")).toBeUndefined();
  });
});

// U = 2 u. A maker's limit a gives u = a / sqrt(3), so U = 1.154701 a; the rounding h to either side gives the same
// and joins in quadrature: U = 1.154701 sqrt(a^2 + h^2) (JCGM 100, 4.3.7 and 5.1.2, k = 2).
/** U = k u with k = 2 and u = sqrt((a / sqrt 3)^2 + (h / sqrt 3)^2): a the maker's limit, h half a digit typed. */
const expanded = (limit: number, half = 0) => (2 / Math.sqrt(3)) * Math.sqrt(limit ** 2 + half ** 2);

describe("the uncertainty, by hand", () => {
  it.each([
    // 0.5 % of 1.5 V = 7.5 mV, and one count of 1 mV.
    ["1.500", "dc-volts", expanded(0.0085)],
    ["-1.500", "dc-volts", expanded(0.0085)],
    // 0.5 % of 5 V = 25 mV, and one count of 10 mV.
    ["5.00", "dc-volts", expanded(0.035)],
    // The same, and half of the 0.1 V typed where the meter shows 10 mV.
    ["5.0", "dc-volts", expanded(0.035, 0.05)],
    // The same, and all of the 0.1 V behind "about".
    ["~5.0", "dc-volts", expanded(0.035, 0.1)],
    // More digits than the meter shows change nothing.
    ["5.000", "dc-volts", expanded(0.035)],
    // 1 % of 100 V = 1 V, and three counts of the last digit typed, 0.1 V.
    ["100.0", "dc-volts", expanded(1.3)],
    // 1 % of 0.58 V = 5.8 mV, and two counts of the last digit typed, 10 mV.
    ["0.58", "diode", expanded(0.0258)],
    // No accuracy, no range of that function: half the last digit.
    ["0.58", "ac-volts", expanded(0, 0.005)],
    ["0.58", "ohms", expanded(0, 0.005)],
    [">1.500", "dc-volts", expanded(0.0085)],
    // Of a range the end farther out.
    ["1.400-1.500", "dc-volts", expanded(0.0085)],
    ["OL", "dc-volts", 0],
    ["short", "dc-volts", 0],
  ])("of %s on %s is %d V", (typed, fn, wanted) => {
    expect(uncertaintyOf(volts(typed), meter, fn)).toBeCloseTo(wanted, 12);
  });

  it("is the rounding alone without a meter", () => {
    expect(uncertaintyOf(volts("5.0"), undefined, "dc-volts")).toBeCloseTo(expanded(0, 0.05), 12);
    expect(uncertaintyOf(volts("580 mV"), undefined, "diode")).toBeCloseTo(expanded(0, 0.0005), 12);
    expect(roundingOf(volts("~5.0"))).toBeCloseTo(0.1, 12);
  });
});

describe("the comparison", () => {
  const board: Reference = { kind: "board", of: "x", low: 4.75, high: 5.25, unit: "V", source: "s" };
  const at = (value: number) => ({ low: value, high: value });
  const compare = (extent: Extent, reference: Reference, uncertainty: number) => {
    const found = compareWith(reference, extent, uncertainty);
    return { ...found, formula: comparisonText(found, "bench") };
  };

  it.each([
    [5, 0.01, "within-limits", "4.75 V ≤ 5 V ± 10 mV ≤ 5.25 V"],
    [5.25, 0, "within-limits", "4.75 V ≤ 5.25 V ≤ 5.25 V"],
    [5.24, 0.02, "suspect", "5.24 V ± 20 mV straddles 5.25 V"],
    [5.26, 0.02, "suspect", "5.26 V ± 20 mV straddles 5.25 V"],
    [5.28, 0.02, "out-of-limits", "5.28 V ± 20 mV > 5.25 V"],
    [4.74, 0.02, "suspect", "4.74 V ± 20 mV straddles 4.75 V"],
    [4.7, 0.02, "out-of-limits", "4.7 V ± 20 mV < 4.75 V"],
  ])("%d ± %d is %s", (value, u, verdict, formula) => {
    expect(compare(at(value), board, u)).toMatchObject({ verdict, formula });
  });

  it("keeps no guard inside a usual range, for it is no specification", () => {
    const family: Reference = { ...board, kind: "family" };
    expect(compare(at(5.24), family, 0.02).verdict).toBe("within-limits");
    expect(compare(at(5.26), family, 0.02).verdict).toBe("suspect");
    expect(compare(at(5.28), family, 0.02).verdict).toBe("out-of-limits");
  });

  it("says open ends in words", () => {
    const open = { low: Number.POSITIVE_INFINITY, high: Number.POSITIVE_INFINITY };
    expect(compare(open, board, 0).formula).toBe("open > 5.25 V");
    expect(compare({ low: 5, high: Number.POSITIVE_INFINITY }, board, 0)).toMatchObject({
      verdict: "suspect",
      side: "high",
      formula: "over 5 V straddles 5.25 V",
    });
    expect(compare({ low: Number.NEGATIVE_INFINITY, high: 5 }, board, 0).formula).toBe(
      "under 5 V straddles 4.75 V",
    );
    expect(compare({ low: 4, high: 5 }, board, 0).formula).toBe("4 V to 5 V straddles 4.75 V");
    const { high: _, ...atLeast } = board;
    expect(compare(open, atLeast, 0)).toMatchObject({ verdict: "within-limits", formula: "4.75 V ≤ open" });
    expect(windowText(atLeast)).toBe("at least 4.75 V");
  });

  it("accuses nothing where the reading is in doubt", () => {
    expect(straddleAdvice(volts("5.200"), 0.04)).toContain("finer range or another meter");
    expect(straddleAdvice(volts("5.2"), 0.05)).toContain("every digit");
    expect(straddleAdvice(volts("4-5.2"), 0.04)).toContain("for one value");
    expect(straddleAdvice(volts(">4"), 0.04)).toContain("shows the value");
  });
});

it("says values as the bench does", () => {
  expect(formatValue(0.58, "V")).toBe("0.58 V");
  expect(formatValue(0.0012, "V")).toBe("1.2 mV");
  expect(formatValue(0.0999, "V")).toBe("99.9 mV");
  expect(formatValue(-0.5, "V")).toBe("-0.5 V");
  expect(formatValue(0.015, "F")).toBe("15000 µF");
  expect(formatValue(4700, "Ω")).toBe("4.7 kΩ");
});
