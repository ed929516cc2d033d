import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readingLength } from "../../server/src/quantity/typed-run";
import { wholeReading } from "../../server/src/quantity/whole-digits";

const THREE_VOLTS = { limit: 3 };

/** The readings of a run, and what is left behind them. */
function cut(run: string, digits = THREE_VOLTS): string[] {
  const length = readingLength(run, digits);
  return length === undefined ? [run] : [run.slice(0, length), ...cut(run.slice(length), digits)];
}

describe("a reading is over", () => {
  test("with the digit behind which no other could belong to it", () => {
    expect(readingLength("558", THREE_VOLTS)).toBe(3);
    expect(readingLength("0558", THREE_VOLTS)).toBe(4);
    expect(readingLength("1487", THREE_VOLTS)).toBe(4);
    expect(readingLength("312", THREE_VOLTS)).toBe(3);
    expect(readingLength("0.558", THREE_VOLTS)).toBe(5);
    expect(readingLength("0,558", THREE_VOLTS)).toBe(5);
    expect(readingLength(".558", THREE_VOLTS)).toBe(4);
    expect(readingLength("OL", THREE_VOLTS)).toBe(2);
  });

  test("not while it may go on", () => {
    for (const typed of ["", "5", "55", "0", "05", "055", "1", "14", "148", "30", "300", "0.55", "O", "1.48"])
      expect(readingLength(typed, THREE_VOLTS), typed).toBeUndefined();
  });

  test("not where it is nothing that the meter shows, nor by a word", () => {
    for (const typed of ["5.123", "short", "open", "-", "?", "0.5.8", "12a", "U14"])
      expect(readingLength(typed, THREE_VOLTS), typed).toBeUndefined();
  });

  test("by the meter's own limit", () => {
    expect(readingLength("250", { limit: 2 })).toBe(3);
    expect(readingLength("250", { limit: 2.5 })).toBeUndefined();
    expect(readingLength("2500", { limit: 2.5 })).toBe(4);
    expect(readingLength("2501", { limit: 2.5 })).toBe(3);
  });
});

describe("a run of digits is cut where its readings end", () => {
  test("two readings in one cell are two readings", () => {
    expect(cut("558573")).toEqual(["558", "573", ""]);
    expect(cut("5581487056957")).toEqual(["558", "1487", "0569", "57"]);
    expect(cut("300574")).toEqual(["300", "574", ""]);
    expect(cut("3000574")).toEqual(["3000", "574", ""]);
    expect(cut("OL558")).toEqual(["OL", "558", ""]);
    expect(cut("0.5580.573")).toEqual(["0.558", "0.573", ""]);
  });

  test("whatever the readings, as they were typed", () => {
    const shown = fc.oneof(
      fc.integer({ min: 0, max: 3000 }).map((millivolts) => String(millivolts).padStart(4, "0")),
      fc.integer({ min: 301, max: 999 }).map(String),
      fc.constant("OL"),
    );
    fc.assert(
      fc.property(fc.array(shown, { maxLength: 20 }), (readings) => {
        expect(cut(readings.join(""))).toEqual([...readings, ""]);
      }),
    );
  });

  test("no earlier where more of the run is known: word of it may come at any time", () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[0-9.OL]{0,12}$/), fc.double({ min: 1, max: 8 }), (run, limit) => {
        const first = readingLength(run, { limit });
        if (first === undefined) return;
        for (let heard = first; heard < run.length; heard += 1) {
          const sooner = readingLength(run.slice(0, heard), { limit });
          expect(sooner === undefined || sooner === first).toBe(true);
        }
      }),
    );
  });

  test("three digits that are over are a reading with its point put in", () => {
    for (let n = 0; n <= 999; n += 1) {
      const typed = String(n).padStart(3, "0");
      if (readingLength(typed, THREE_VOLTS) === 3)
        expect(wholeReading(typed, THREE_VOLTS)).toBe(`0.${typed} V`);
    }
  });
});
