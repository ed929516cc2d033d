import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type ColoursWanted,
  readColours,
  toleranceOf,
  writeColours,
} from "../../server/src/quantity/colours";
import { seriesNumbers } from "../../server/src/quantity/e-series";

const written = (ohms: number, wanted?: ColoursWanted) => {
  const result = writeColours(ohms, wanted);
  return result.ok ? result.bands.join(" ") : result.reason;
};
const read = (bands: string) => {
  const result = readColours(bands);
  return result.ok ? result.reading : result.reason;
};

describe("bands", () => {
  test.each(["brown black orange gold", "Brown, Black, Orange, Gold", "BROWN-BLACK-ORANGE-GOLD"])(
    "%s is read, whatever stands between the bands and in any case",
    (typed) => expect(read(typed)).toEqual({ value: 10_000, tolerance: 5 }),
  );

  test("a list is read, and other names of colours", () => {
    expect(readColours(["Gray", "red", "black", "Purple"])).toMatchObject({
      bands: ["grey", "red", "black", "violet"],
    });
  });

  test.each([
    ["", "A resistor has three to six bands (or one black one), not 0."],
    ["brown black", "A resistor has three to six bands (or one black one), not 2."],
    ["brown black mauve gold", '"mauve" is no band colour'],
    ["brown gold orange gold", "Band 2 is a digit and cannot be gold."],
    ["gold orange black brown", "Band 1 is a digit and cannot be gold. From the other end they can be read."],
    ["brown black orange black", "Band 4 is the tolerance and cannot be black."],
    ["brown black black red brown gold", "Band 6 is the temperature coefficient and cannot be gold."],
  ])("%s: %s", (typed, reason) => expect(read(typed)).toContain(reason));

  test("what the other end would say is told where it can be read", () => {
    expect(readColours("brown black orange red")).toMatchObject({
      reading: { value: 10_000, tolerance: 2 },
      fromOtherEnd: { value: 23, tolerance: 1 },
    });
    expect(readColours("brown black orange gold")).not.toHaveProperty("fromOtherEnd");
  });

  test("as few bands as say it", () => {
    expect(written(4700)).toBe("yellow violet red");
    expect(written(4700, { tolerance: 5 })).toBe("yellow violet red gold");
    expect(written(4750, { tolerance: 1 })).toBe("yellow violet green brown brown");
    expect(written(4700, { tolerance: 1, bands: 5 })).toBe("yellow violet black brown brown");
    expect(written(0.22, { tolerance: 5 })).toBe("red red silver gold");
    expect(written(100, { tolerance: 1, temperatureCoefficient: 50 })).toBe(
      "brown black black black brown red",
    );
    expect(written(0)).toBe("black");
  });

  test.each<[number, ColoursWanted, RegExp]>([
    [4750, { bands: 4, tolerance: 5 }, /more than 2 digits, which 4 bands/],
    [12.34, {}, /more than 3 digits, which 5 bands/],
    [4700, { tolerance: 3 }, /No band colour means 3 %/],
    [4700, { tolerance: 5, bands: 3 }, /5 % needs a fourth/],
    [4700, { tolerance: 1, bands: 6 }, /Six bands need/],
    [4700, { tolerance: 1, temperatureCoefficient: 33 }, /33 ppm/],
    [4700, { tolerance: 1, temperatureCoefficient: 50, bands: 5 }, /sixth band; 5 were asked for/],
    [0.01, { tolerance: 5 }, /outside what 4 bands/],
    [1e12, {}, /outside what 3 bands/],
    [-1, {}, /above zero/],
    [Number.NaN, {}, /above zero/],
    [0, { tolerance: 5 }, /one black band/],
  ])("%d ohm %o is refused", (ohms, wanted, reason) => expect(written(ohms, wanted)).toMatch(reason));

  test("every preferred value of every decade goes there and back", () => {
    let pairs = 0;
    for (const [series, bands, tolerance] of [
      ["E24", 4, 5],
      ["E12", 4, 10],
      ["E96", 5, 1],
      ["E192", 5, 0.5],
    ] as const) {
      for (const number of seriesNumbers(series)) {
        // Silver, a hundredth, is the least multiplier: three digits reach down to 1 ohm, two to 0.1.
        for (let decade = bands === 4 ? -1 : 0; decade <= 6; decade++) {
          const ohms = Number(`${number}e${decade}`);
          const bandsOf = writeColours(ohms, { tolerance, bands });
          const back = bandsOf.ok ? readColours(bandsOf.bands) : undefined;
          expect(back, `${ohms}`).toMatchObject({ ok: true, reading: { value: ohms, tolerance } });
          pairs += 1;
        }
      }
    }
    expect(pairs).toBe((24 + 12) * 8 + (96 + 192) * 7);
  });

  test("whatever is written reads back, whatever is read writes back, and nothing throws", () => {
    const word = fc.constantFrom(
      ..."black brown red orange yellow green blue violet grey white gold silver pink".split(" "),
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 7 }), (bands) => {
        const result = readColours(bands);
        if (!result.ok) {
          expect(result.reason).not.toMatch(/undefined/);
          return;
        }
        const { value, tolerance, temperatureCoefficient } = result.reading;
        // Leading black bands say a value that is written with other bands.
        if (bands.length < 3 || bands[0] === "black") return;
        expect(
          writeColours(value, {
            bands: bands.length as 3 | 4 | 5 | 6,
            ...(tolerance === undefined ? {} : { tolerance }),
            ...(temperatureCoefficient === undefined ? {} : { temperatureCoefficient }),
          }),
        ).toEqual({ ok: true, bands });
      }),
    );
    fc.assert(
      fc.property(fc.double(), fc.double(), (ohms, tolerance) => {
        expect(writeColours(ohms, { tolerance })).toHaveProperty("ok");
      }),
    );
  });
});

describe("tolerance letters", () => {
  test("symmetrical, lopsided, and in picofarads for small capacitors", () => {
    expect(toleranceOf("J")).toEqual({ below: 5, above: 5, unit: "%" });
    expect(toleranceOf("Z")).toEqual({ below: 20, above: 80, unit: "%" });
    expect(toleranceOf("D", 4.7e-12)).toEqual({ below: 0.5, above: 0.5, unit: "pF" });
    expect(toleranceOf("D", 47e-12)).toEqual({ below: 0.5, above: 0.5, unit: "%" });
    expect(toleranceOf("J", 4.7e-12)).toEqual({ below: 5, above: 5, unit: "%" });
  });

  test.each(["", "j", "k", "X", "A", "JJ"])('"%s" is none', (letter) =>
    expect(toleranceOf(letter)).toBeUndefined(),
  );
});
