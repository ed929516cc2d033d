// Quantities as we read and write them against mathjs, which knows units by its own tables.
import fc from "fast-check";
import { unit as mathUnit } from "mathjs";
import { describe, expect, test } from "vitest";
import { formatQuantity } from "../../server/src/quantity/format";
import { parseQuantity, type Quantity } from "../../server/src/quantity/quantity";
import { relative } from "../support/computed";

interface Name {
  /** As typed at a bench, and as mathjs wants it where that differs. */
  readonly ours: string;
  readonly theirs: string;
  readonly base: string;
}

const name = (ours: string, theirs: string, base = theirs): Name => ({ ours, theirs, base });

const UNITS: readonly Name[] = [
  name("V", "V"),
  name("A", "A"),
  name("Ω", "ohm"),
  name("\u2126", "ohm"),
  name("ohm", "ohm"),
  name("F", "F"),
  name("H", "H"),
  name("Hz", "Hz"),
  name("s", "s"),
  name("W", "W"),
];

/** mathjs has no µ. */
const PREFIXES: readonly (readonly [ours: string, theirs: string])[] = [
  ["", ""],
  ["G", "G"],
  ["M", "M"],
  ["k", "k"],
  ["m", "m"],
  ["\u00b5", "u"],
  ["\u03bc", "u"],
  ["u", "u"],
  ["n", "n"],
  ["p", "p"],
];

const WORD_UNITS: readonly Name[] = [
  name("volts", "volt", "V"),
  name("amps", "ampere", "A"),
  name("ohms", "ohm"),
  name("farads", "farad", "F"),
  name("henry", "henry", "H"),
  name("hertz", "hertz", "Hz"),
  name("seconds", "second", "s"),
  name("watts", "watt", "W"),
];
const WORD_PREFIXES = ["giga", "mega", "kilo", "milli", "micro", "nano", "pico"] as const;

const number = fc
  .tuple(
    fc.constantFrom("", "-"),
    fc.nat({ max: 99_999 }),
    fc.option(fc.stringMatching(/^\d{1,5}$/), { nil: undefined }),
  )
  .map(([sign, int, frac]) => `${sign}${int}${frac === undefined ? "" : `.${frac}`}`);

const blank = fc.constantFrom("", " ", "\u00a0");

function read(text: string): Quantity {
  const result = parseQuantity(text);
  if (!result.ok) throw new Error(`${text}: ${result.message}`);
  return result.quantity;
}

/** Their value in the base unit, which both sides share. */
const theirs = (text: string, base: string): number => mathUnit(text).toNumber(base);

/** Both multiply by powers of ten, we through decimal text and they in binary. */
const SAME = 1e-14;

describe("reading", () => {
  test("symbols with every prefix", () => {
    fc.assert(
      fc.property(
        number,
        blank,
        fc.constantFrom(...PREFIXES),
        fc.constantFrom(...UNITS),
        (n, gap, prefix, unit) => {
          const q = read(`${n}${gap}${prefix[0]}${unit.ours}`);
          expect(relative(q.value, theirs(`${n} ${prefix[1]}${unit.theirs}`, unit.base))).toBeLessThan(SAME);
          const digit = q.decimals === 0 ? "1" : `0.${"1".padStart(q.decimals, "0")}`;
          expect(
            relative(q.resolution, theirs(`${digit} ${prefix[1]}${unit.theirs}`, unit.base)),
          ).toBeLessThan(SAME);
        },
      ),
      { seed: 15, numRuns: 1000 },
    );
  });

  test("written-out units and prefixes", () => {
    fc.assert(
      fc.property(
        number,
        fc.constantFrom("", ...WORD_PREFIXES),
        fc.constantFrom(...WORD_UNITS),
        (n, prefix, unit) => {
          const q = read(`${n} ${prefix}${unit.ours}`);
          expect(relative(q.value, theirs(`${n} ${prefix}${unit.theirs}`, unit.base))).toBeLessThan(SAME);
        },
      ),
      { seed: 16, numRuns: 500 },
    );
  });

  test("a decimal comma is read as their point", () => {
    fc.assert(
      // Three digits behind the comma can be thousands, which is refused: see number-text.
      fc.property(fc.nat({ max: 999 }), fc.stringMatching(/^(\d{1,2}|\d{4})$/), (int, frac) => {
        expect(relative(read(`${int},${frac} mV`).value, theirs(`${int}.${frac} mV`, "V"))).toBeLessThan(
          SAME,
        );
      }),
      { seed: 17 },
    );
  });

  test.each([
    ["min", "minute", "s"],
    ["h", "hour", "s"],
    ["hours", "hour", "s"],
    ["°C", "degC", "degC"],
    ["°F", "degF", "degC"],
  ])("%s, which takes no prefix, is the same", (ours, their, base) => {
    fc.assert(
      fc.property(number, (n) => {
        // Degrees go through kelvin there: an absolute error of its rounding.
        expect(Math.abs(read(`${n} ${ours}`).value - theirs(`${n} ${their}`, base))).toBeLessThan(
          SAME * Math.max(1e4, Math.abs(theirs(`${n} ${their}`, base))),
        );
      }),
      { seed: 18 },
    );
  });

  test("a number with an exponent", () => {
    fc.assert(
      fc.property(number, fc.integer({ min: -9, max: 9 }), (n, exponent) => {
        const text = `${n}e${exponent} V`;
        expect(relative(read(text).value, theirs(text, "V"))).toBeLessThan(SAME);
      }),
      { seed: 19 },
    );
  });
});

describe("writing", () => {
  test("what we write, they read as the same value to the digits asked for", () => {
    const value = fc.tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -12, max: 11 }));
    fc.assert(
      fc.property(
        value,
        fc.constantFrom(...UNITS),
        fc.integer({ min: 3, max: 9 }),
        ([m, e], unit, digits) => {
          const exact = m * 10 ** e;
          const text = formatQuantity(exact, unit.base, { digits });
          const plain = text.replace("Ω", "ohm").replace("\u00b5", "u").replace("\u00a0", " ");
          expect(relative(theirs(plain, unit.base), exact)).toBeLessThanOrEqual(
            0.5 * 10 ** (1 - digits) * (1 + 1e-9),
          );
        },
      ),
      { seed: 20, numRuns: 500 },
    );
  });
});
