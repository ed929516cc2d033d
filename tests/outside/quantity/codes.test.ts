// Source: IEC 60062 and IEC 60063, from memory; the E96 rule, E24's eight departures and the two colour
// examples are the vectors the project keeps for them.
import { describe, expect, test } from "vitest";
import { readColours, toleranceOf, writeColours } from "../../../server/src/quantity/colours";
import { isPreferred, nearestPreferred, seriesNumbers } from "../../../server/src/quantity/e-series";
import { readColourCode, readLetterCode, writeLetterCode } from "../../../server/src/quantity/iec60062";
import { parseQuantity } from "../../../server/src/quantity/quantity";

describe("letter code of IEC 60062 (from memory)", () => {
  const resistors: [string, number][] = [
    ["R10", 0.1],
    ["R332", 0.332],
    ["1R0", 1],
    ["3R32", 3.32],
    ["10R", 10],
    ["33R2", 33.2],
    ["100R", 100],
    ["332R", 332],
    ["1K0", 1000],
    ["3K32", 3320],
    ["10K", 10_000],
    ["33K2", 33_200],
    ["332K", 332_000],
    ["1M0", 1e6],
    ["3M32", 3.32e6],
    ["10M", 1e7],
    ["1G0", 1e9],
    ["3G32", 3.32e9],
  ];
  test.each(resistors)("%s is %d ohm, both ways and as a quantity", (code, ohms) => {
    expect(readLetterCode(code, "resistor")).toEqual({ value: ohms });
    expect(writeLetterCode(ohms, "resistor")).toBe(code);
    const read = parseQuantity(code, { unit: "ohm" });
    expect(read.ok && [read.quantity.value, read.quantity.dimension]).toEqual([ohms, "resistance"]);
  });

  const capacitors: [string, number][] = [
    ["p10", 1e-13],
    ["p332", 3.32e-13],
    ["1p0", 1e-12],
    ["33p2", 3.32e-11],
    ["1n0", 1e-9],
    ["3n32", 3.32e-9],
    ["100n", 1e-7],
    ["1µ0", 1e-6],
    ["33µ2", 3.32e-5],
    ["1m0", 1e-3],
    ["10m", 1e-2],
  ];
  test.each(capacitors)("%s is %d farad, both ways and as a quantity", (code, farads) => {
    expect(readLetterCode(code, "capacitor")).toEqual({ value: farads });
    expect(writeLetterCode(farads, "capacitor")).toBe(code);
    const read = parseQuantity(code, { unit: "F" });
    expect(read.ok && [read.quantity.value, read.quantity.dimension]).toEqual([farads, "capacitance"]);
  });

  test("a tolerance letter stands last", () => {
    expect(readLetterCode("4K7J", "resistor")).toEqual({ value: 4700, tolerance: 5 });
    expect(readLetterCode("R47F", "resistor")).toEqual({ value: 0.47, tolerance: 1 });
    expect(readLetterCode("2n2K", "capacitor")).toEqual({ value: 2.2e-9, tolerance: 10 });
    expect(readLetterCode("7404", "resistor")).toBeUndefined();
    expect(readLetterCode("K", "resistor")).toBeUndefined();
  });
});

describe("colour code of IEC 60062", () => {
  test.each([
    ["brown black orange gold", { value: 10_000, tolerance: 5 }],
    ["yellow violet green orange brown", { value: 475_000, tolerance: 1 }],
    ["yellow violet red", { value: 4700, tolerance: 20 }],
    ["Red Red Gold Gold", { value: 2.2, tolerance: 5 }],
    ["grey red silver silver", { value: 0.82, tolerance: 10 }],
    ["brown black black brown purple", { value: 1000, tolerance: 0.1 }],
  ])("%s", (bands, value) => {
    expect(readColourCode(bands.split(" "))).toEqual(value);
  });

  test.each(["gold black red", "brown black", "brown black orange pink", "brown black orange black"])(
    "%s is no resistor",
    (bands) => expect(readColourCode(bands.split(" "))).toBeUndefined(),
  );
});

describe("colour code both ways, and the tolerance letters", () => {
  // The first two are the vectors the project keeps; the others follow from the digits of the colours, from memory.
  test.each<[string, number, number, (4 | 5 | 6)?, number?]>([
    ["brown black orange gold", 10_000, 5, 4],
    ["yellow violet green orange brown", 475_000, 1, 5],
    ["red red brown silver", 220, 10, 4],
    ["orange white red gold", 3900, 5, 4],
    ["blue grey yellow gold", 680_000, 5, 4],
    ["brown green black gold brown", 15, 1, 5],
    ["white orange brown red red brown", 93_100, 2, 6, 100],
    ["green brown gold gold", 5.1, 5, 4],
  ])("%s is %d ohm, %d %%", (bands, ohms, tolerance, count, coefficient) => {
    const read = readColours(bands);
    expect(read).toMatchObject({ ok: true, reading: { value: ohms, tolerance } });
    expect(read.ok && read.reading.temperatureCoefficient).toBe(coefficient);
    const written = writeColours(ohms, {
      tolerance,
      ...(count === undefined ? {} : { bands: count }),
      ...(coefficient === undefined ? {} : { temperatureCoefficient: coefficient }),
    });
    expect(written).toEqual({ ok: true, bands: bands.split(" ") });
  });

  test("violet is 0.1 %, where the editions differ", () => {
    expect(readColours("brown black black brown violet")).toMatchObject({ reading: { tolerance: 0.1 } });
    expect(writeColours(1000, { tolerance: 0.1, bands: 5 })).toEqual({
      ok: true,
      bands: ["brown", "black", "black", "brown", "violet"],
    });
  });

  // IEC 60062 tolerance letters: from memory.
  test.each([
    ["B", 0.1],
    ["C", 0.25],
    ["D", 0.5],
    ["F", 1],
    ["G", 2],
    ["J", 5],
    ["K", 10],
    ["M", 20],
    ["N", 30],
  ])("%s is %d %% either way, and the letter code says the same", (letter, percent) => {
    expect(toleranceOf(letter)).toEqual({ below: percent, above: percent, unit: "%" });
    if (letter !== "N") expect(readLetterCode(`4K7${letter}`, "resistor")?.tolerance).toBe(percent);
  });

  test("Z, S, Q and T lie to one side (from memory)", () => {
    const sides = ["Z", "S", "Q", "T"].map((letter) => [
      toleranceOf(letter)?.below,
      toleranceOf(letter)?.above,
    ]);
    expect(sides).toEqual([
      [20, 80],
      [20, 50],
      [10, 30],
      [10, 50],
    ]);
  });
});

describe("preferred numbers of IEC 60063", () => {
  test("E96 is the rounded geometric series", () => {
    seriesNumbers("E96").forEach((number, i) => {
      expect(number).toBe(Math.round(100 * 10 ** (i / 96)) / 100);
    });
    expect(seriesNumbers("E96")).toHaveLength(96);
  });

  test("E24 departs from the formula at exactly eight values", () => {
    const departures = seriesNumbers("E24").filter((n, i) => n !== Math.round(10 * 10 ** (i / 24)) / 10);
    expect(departures).toEqual([2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 8.2]);
  });

  test("the short series are every so many of the longer", () => {
    expect(seriesNumbers("E3")).toEqual([1, 2.2, 4.7]);
    expect(seriesNumbers("E6")).toEqual([1, 1.5, 2.2, 3.3, 4.7, 6.8]);
    expect(seriesNumbers("E12")).toEqual([1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2]);
    expect(seriesNumbers("E48")).toEqual(seriesNumbers("E96").filter((_, i) => i % 2 === 0));
    expect(seriesNumbers("E96")).toEqual(seriesNumbers("E192").filter((_, i) => i % 2 === 0));
  });

  test("E192 holds 9.20, its one departure", () => {
    const departures = seriesNumbers("E192").filter((n, i) => n !== Math.round(100 * 10 ** (i / 192)) / 100);
    expect(departures).toEqual([9.2]);
  });

  test("membership and nearest in any decade", () => {
    expect(isPreferred(4700, "E12")).toBe(true);
    expect(isPreferred(4.7e-9, "E3")).toBe(true);
    expect(isPreferred(5000, "E24")).toBe(false);
    expect(nearestPreferred(5000, "E24")).toBe(5100);
    expect(nearestPreferred(9.9, "E12")).toBe(10);
    expect(nearestPreferred(1.04e-9, "E6")).toBe(1e-9);
    expect(nearestPreferred(0, "E12")).toBeUndefined();
  });
});
