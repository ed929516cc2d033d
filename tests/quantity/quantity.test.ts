import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseQuantity, type QuantityOptions } from "../../server/src/quantity/quantity";

/** "value unit dimension resolution" of what was read, or "! message". */
function read(text: string, options: QuantityOptions = {}): string {
  const result = parseQuantity(text, options);
  if (!result.ok) return `! ${result.message}`;
  const { value, unit, dimension, resolution } = result.quantity;
  return `${value} ${unit} ${dimension} ${resolution}`;
}

describe("numbers with the column's unit", () => {
  test.each([
    ["0.58", "0.58 V voltage 0.01"],
    [".58", "0.58 V voltage 0.01"],
    ["0,58", "0.58 V voltage 0.01"],
    [",58", "0.58 V voltage 0.01"],
    ["12,05", "12.05 V voltage 0.01"],
    ["5", "5 V voltage 1"],
    ["1.", "1 V voltage 1"],
    ["5.0", "5 V voltage 0.1"],
    ["5.000", "5 V voltage 0.001"],
    ["+5.0", "5 V voltage 0.1"],
    ["-12.1", "-12.1 V voltage 0.1"],
    ["\u221212.1", "-12.1 V voltage 0.1"],
    ["- 12.1", "-12.1 V voltage 0.1"],
    ["-0", "0 V voltage 1"],
    ["1e3", "1000 V voltage 1000"],
    ["1.5e-3", "0.0015 V voltage 0.0001"],
    ["580m", "0.58 V voltage 0.001"],
    ["  0.58  ", "0.58 V voltage 0.01"],
  ])("%s is read as %s", (text, expected) => expect(read(text, { unit: "V" })).toBe(expected));

  test("a prefix typed replaces the default's own", () => {
    expect(read("580", { unit: "mV" })).toBe("0.58 V voltage 0.001");
    expect(read("580m", { unit: "mV" })).toBe("0.58 V voltage 0.001");
    expect(read("0.58 V", { unit: "mV" })).toBe("0.58 V voltage 0.01");
  });

  test("the dimension stands in for a unit, and a default that is no unit is as none", () => {
    expect(read("4", { dimension: "resistance" })).toBe("4 Ω resistance 1");
    expect(read("4", { unit: "parsec" })).toBe("4  count 1");
  });
});

describe("units typed", () => {
  test.each([
    ["580 mV", "0.58 V voltage 0.001"],
    ["580mV", "0.58 V voltage 0.001"],
    ["5 volts", "5 V voltage 1"],
    ["20 millivolts", "0.02 V voltage 0.001"],
    ["2.2 \u00B5F", "0.0000022 F capacitance 1e-7"],
    ["2.2 \u03BCF", "0.0000022 F capacitance 1e-7"],
    ["2.2uF", "0.0000022 F capacitance 1e-7"],
    ["22 UF", "0.000022 F capacitance 0.000001"],
    ["10 MFD", "0.00001 F capacitance 0.000001"],
    ["4.7 k\u03A9", "4700 Ω resistance 100"],
    ["4.7 k\u2126", "4700 Ω resistance 100"],
    ["4.7 K\u03A9", "4700 Ω resistance 100"],
    ["4.7 k ohm", "4700 Ω resistance 100"],
    ["4.7 kilohms", "4700 Ω resistance 100"],
    ["20 megohms", "20000000 Ω resistance 1000000"],
    ["20M", "20000000 Ω resistance 1000000"],
    ["20 Meg", "20000000 Ω resistance 1000000"],
    ["20MEG", "20000000 Ω resistance 1000000"],
    ["100 R", "100 Ω resistance 1"],
    ["100n", "1e-7 F capacitance 1e-9"],
    ["3.58 MHz", "3580000 Hz frequency 10000"],
    ["50 ms", "0.05 s time 0.001"],
    ["50 mS", "0.05 s time 0.001"],
    ["30 min", "1800 s time 60"],
    ["2 h", "7200 s time 3600"],
    ["2 H", "2 H inductance 1"],
    ["5 %", "0.05 % ratio 0.01"],
    ["50 ppm", "0.00005 ppm ratio 0.000001"],
    ["25 °C", "25 °C temperature 1"],
    ["1.8 A", "1.8 A current 0.1"],
    ["0.5 W", "0.5 W power 0.1"],
    ["6 pcs", "6  count 1"],
  ])("%s is read as %s", (text, expected) => expect(read(text)).toBe(expected));

  test("M is mega and m is milli, as typed", () => {
    expect(read("1 MV")).toBe("1000000 V voltage 1000000");
    expect(read("1 mV")).toBe("0.001 V voltage 0.001");
  });

  test.each([
    ["40 mVpp", "pp"],
    ["40 mVp-p", "pp"],
    ["12 VAC", "ac"],
    ["12 V DC", "dc"],
    ["12 Vrms", "rms"],
  ])("how an alternating voltage was read is kept: %s is %s", (text, qualifier) => {
    const result = parseQuantity(text);
    expect(result.ok && result.quantity.qualifier).toBe(qualifier);
  });

  test("degrees Fahrenheit are turned into Celsius", () => {
    const result = parseQuantity("212 °F");
    expect(result.ok && result.quantity.value).toBeCloseTo(100, 9);
  });
});

describe("letter code", () => {
  test.each([
    ["1k5", "1500 Ω resistance 100"],
    ["4R7", "4.7 Ω resistance 0.1"],
    ["4r7", "4.7 Ω resistance 0.1"],
    ["R47", "0.47 Ω resistance 0.01"],
    ["4k7 ohm", "4700 Ω resistance 100"],
    ["4K7Ω", "4700 Ω resistance 100"],
    ["2M2", "2200000 Ω resistance 100000"],
    ["1Meg5", "1500000 Ω resistance 100000"],
    ["2n2", "2.2e-9 F capacitance 1e-10"],
    ["2n2F", "2.2e-9 F capacitance 1e-10"],
    ["4µ7", "0.0000047 F capacitance 1e-7"],
    ["5V1", "5.1 V voltage 0.1"],
  ])("%s is read as %s", (text, expected) => expect(read(text)).toBe(expected));

  test("R means ohms whatever the column holds, other letters scale the column's unit", () => {
    expect(read("4R7", { unit: "V" })).toBe("4.7 Ω resistance 0.1");
    expect(read("1k5", { unit: "Hz" })).toBe("1500 Hz frequency 100");
    expect(read("4k7", { dimension: "count" })).toBe("4700 Ω resistance 100");
  });

  test.each(["U14", "P1", "2N3904", "1N914", "74LS04", "4k7 kΩ", "4R7 V"])("%s is no quantity", (text) =>
    expect(read(text, { unit: "V" })).toMatch(/^! /),
  );
});

describe("marks and groups", () => {
  test.each([
    ["1,234.5", "1234.5 Ω resistance 0.1"],
    ["1.234,5", "1234.5 Ω resistance 0.1"],
    ["1,234,567", "1234567 Ω resistance 1"],
    ["1.234.567", "1234567 Ω resistance 1"],
    ["1\u00a0500", "1500 Ω resistance 1"],
    ["1'500", "1500 Ω resistance 1"],
    ["0,580", "0.58 Ω resistance 0.001"],
    ["1,50", "1.5 Ω resistance 0.01"],
    ["1,5000", "1.5 Ω resistance 0.0001"],
    ["1500,250", "1500.25 Ω resistance 0.001"],
    ["1.500", "1.5 Ω resistance 0.001"],
  ])("%s is read as %s", (text, expected) => expect(read(text, { unit: "ohm" })).toBe(expected));

  test("one comma before exactly three digits is refused with both readings", () => {
    const volts = parseQuantity("1,420 V");
    expect(volts).toEqual({
      ok: false,
      message: '"1,420" can be read as 1.420 or as 1420: write the one meant',
      suggestions: ["1.420 V", "1420 V"],
    });
    const ohms = parseQuantity("-1,500 ohm");
    expect(!ohms.ok && ohms.suggestions).toEqual(["-1500 ohm", "-1.500 ohm"]);
  });

  test("a log that is known to use one mark settles it", () => {
    expect(read("1,420", { unit: "V", decimalMark: "comma" })).toBe("1.42 V voltage 0.001");
    expect(read("1,420", { unit: "V", decimalMark: "point" })).toBe("1420 V voltage 1");
  });

  test.each(["1,23.4,5", "12,34,5", "1.2.3", "0..58", "5,0,0", "1,2345,678", "1'50"])(
    "%s is refused",
    (text) => expect(read(text, { unit: "V" })).toMatch(/^! ".*" is not a number: /),
  );
});

describe("what cannot be read says why", () => {
  test.each([
    ["", "nothing is typed where a quantity belongs"],
    ["about", '"about" does not start with a number'],
    ["5 parsecs", '"5 parsecs" is not one quantity: "parsecs" is not a unit'],
    ["10uF 16 V", '"10uF 16 V" is not one quantity: "uF 16 V" is not a unit'],
    ["1 000", '"1 000" is not one quantity: "000" is not a unit'],
    ["1e400", '"1e400" is too large to be a quantity'],
    ["1e-400", '"1e-400" is too small to be a quantity'],
    ["9".repeat(80), '"99999999999999999999…" is too long to be a quantity'],
    [".", '"." does not start with a number'],
  ])("%s is refused: %s", (text, message) => expect(read(text)).toBe(`! ${message}`));
});

describe("properties", () => {
  const typing = fc.string({
    unit: fc.constantFrom(..."0123456789.,+-−eEkKmMµμunpGRVFHzΩΩ %'\u00a0<>~ohmsOlS"),
    maxLength: 14,
  });

  test("never throws, and what it reads is finite with a positive resolution", () => {
    fc.assert(
      fc.property(
        fc.oneof(typing, fc.string()),
        fc.constantFrom("V", "ohm", "%", undefined),
        (text, unit) => {
          const result = parseQuantity(text, unit === undefined ? {} : { unit });
          if (!result.ok) return result.message.length > 0;
          const { value, resolution } = result.quantity;
          return Number.isFinite(value) && resolution >= 0 && !Object.is(value, -0);
        },
      ),
      { numRuns: 3000 },
    );
  });

  test("point and comma read alike, and the resolution is the last digit's", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99999 }), fc.integer({ min: 1, max: 4 }), (n, places) => {
        const point = (n / 10 ** places).toFixed(places);
        const comma = point.replace(".", ",");
        const a = parseQuantity(point, { unit: "V" });
        const b = parseQuantity(comma, { unit: "V", decimalMark: "comma" });
        if (!a.ok || !b.ok) return false;
        return (
          a.quantity.value === Number(point) &&
          a.quantity.value === b.quantity.value &&
          a.quantity.resolution === Number(`1e-${places}`) &&
          a.quantity.decimals === places
        );
      }),
    );
  });
});
