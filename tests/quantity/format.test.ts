import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DIMENSION_NAMES, formatQuantity, formatTyped } from "../../server/src/quantity/format";
import { parseQuantity } from "../../server/src/quantity/quantity";
import { baseUnit, DIMENSIONS } from "../../server/src/quantity/units";

describe("engineering notation", () => {
  test.each([
    [0.58, "V", "580 mV"],
    [1.42, "V", "1.42 V"],
    [4700, "ohm", "4.7 kΩ"],
    [4700, "Ω", "4.7 kΩ"],
    [0.6000000001, "V", "600 mV"],
    [0.1 + 0.2, "V", "300 mV"],
    [-12.1, "V", "-12.1 V"],
    [0, "V", "0 V"],
    [-0, "V", "0 V"],
    [0.99996, "V", "1 V"],
    [999_960, "Hz", "1 MHz"],
    [2.2e-6, "F", "2.2 µF"],
    [5.2e-3, "F", "5200 µF"],
    [0.022, "F", "22000 µF"],
    [0.999999, "F", "1 F"],
    [1.5, "F", "1.5 F"],
    [3.3e-13, "F", "0.33 pF"],
    [0.05, "%", "5 %"],
    [0.00005, "ppm", "50 ppm"],
    [25, "°C", "25 °C"],
    [7200, "s", "7200 s"],
    [7200, "h", "2 h"],
    [0.05, "s", "50 ms"],
    [6, "", "6"],
    [5, "furlong", "5 furlong"],
    [580e-3, "mV", "580 mV"],
    [Number.POSITIVE_INFINITY, "ohm", "∞ Ω"],
    [Number.NaN, "V", "not a number V"],
  ])("%d %s is %s", (value, unit, text) => expect(formatQuantity(value, unit)).toBe(text));

  test("digits bound the significant figures", () => {
    expect(formatQuantity(1.23456, "V", { digits: 3 })).toBe("1.23 V");
    expect(formatQuantity(1.23456, "V", { digits: 6 })).toBe("1.23456 V");
    expect(formatQuantity(0.88716, "V", { digits: 2 })).toBe("890 mV");
  });
});

describe("with the resolution typed", () => {
  test.each([
    ["5.0 V", "5.0 V"],
    ["5.000 V", "5.000 V"],
    ["0.58 V", "0.58 V"],
    ["580 mV", "580 mV"],
    ["0.580 V", "580 mV"],
    ["4k7 ohm", "4.7 kΩ"],
    ["4700 ohm", "4.700 kΩ"],
    ["100n", "100 nF"],
    ["0.000 V", "0.000 V"],
    ["5200 µF", "5200 µF"],
    ["5.200 mF", "5200 µF"],
    ["5.2 mF", "5200 µF"],
    ["4700u", "4700 µF"],
    ["5.0 %", "5.0 %"],
    ["-12.10 V", "-12.10 V"],
  ])("%s is written %s", (typed, written) => {
    const result = parseQuantity(typed);
    expect(result.ok && formatTyped(result.quantity)).toBe(written);
  });
});

test("format and parse are each other's inverse", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: -9999, max: 9999 }),
      fc.integer({ min: -12, max: 6 }),
      fc.constantFrom("V", "A", "Ω", "F", "Hz", "s", "H", "W"),
      (digits, power, unit) => {
        const value = digits === 0 ? 0 : Number(`${digits}e${power}`);
        const text = formatQuantity(value, unit);
        const read = parseQuantity(text);
        expect(read.ok ? read.quantity.value : read.message).toBe(value);
        expect(text).not.toMatch(/\.\d{7}|e/);
      },
    ),
    { numRuns: 2000 },
  );
});

test("writing a reading keeps its value and its resolution", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 19999 }),
      fc.integer({ min: 0, max: 4 }),
      fc.constantFrom("mV", "V", "kΩ", "nF", "MHz"),
      (digits, places, unit) => {
        const typed = `${(digits / 10 ** places).toFixed(places)} ${unit}`;
        const first = parseQuantity(typed);
        if (!first.ok) throw new Error(first.message);
        const second = parseQuantity(formatTyped(first.quantity));
        if (!second.ok) throw new Error(second.message);
        expect(second.quantity.value).toBe(first.quantity.value);
        expect(second.quantity.resolution).toBe(first.quantity.resolution);
      },
    ),
    { numRuns: 2000 },
  );
});

test("each dimension has a name for sentences and a base unit of its own", () => {
  for (const dimension of DIMENSIONS) {
    expect(DIMENSION_NAMES[dimension]).toContain(dimension === "count" ? "number" : dimension);
    expect(baseUnit(dimension).dimension).toBe(dimension);
  }
});
