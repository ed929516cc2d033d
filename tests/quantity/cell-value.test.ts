import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CellValue, CellWant } from "../../server/src/quantity/cell-value";
import { formatTyped } from "../../server/src/quantity/format";
import { parseCell } from "../../server/src/quantity/parse-cell";

/** One line for what a cell was read as. */
function show(value: CellValue): string {
  switch (value.kind) {
    case "quantity":
      return (value.approx ? "~" : "") + formatTyped(value.quantity);
    case "range":
      return `${formatTyped(value.low)} to ${formatTyped(value.high)}`;
    case "bound":
      return `${value.op} ${formatTyped(value.quantity)}`;
    case "state":
      return value.state;
    case "result":
      return `${value.ok} ${value.word}`;
    case "text":
      return `text ${value.text}`;
    case "unreadable":
      return `! ${value.suggestion ?? "(none)"}`;
    default:
      return value.kind;
  }
}

const VOLTS: CellWant = { kind: "quantity", unit: "V" };
const OHMS: CellWant = { kind: "quantity", unit: "ohm" };
const reading = (text: string, want: CellWant = VOLTS): string => show(parseCell(text, want));

describe("a reading", () => {
  test.each([
    ["0.58", "0.58 V"],
    ["580mV", "580 mV"],
    ["**0.58**", "0.58 V"],
    ["`1.42 V`", "1.42 V"],
    ["-12.1", "-12.1 V"],
    ["4R7", "4.7 Ω"],
    ["~0.6", "~0.6 V"],
    ["≈0,6", "~0.6 V"],
    ["ca. 0.6", "~0.6 V"],
    ["about 5", "~5 V"],
    ["0.58?", "~0.58 V"],
    ["1e-3", "1 mV"],
    ["1.", "1 V"],
    ["0.3-0.4", "0.3 V to 0.4 V"],
    ["0.3 – 0.4 V", "0.3 V to 0.4 V"],
    ["0.3..0.4", "0.3 V to 0.4 V"],
    ["0.3 to 0.4", "0.3 V to 0.4 V"],
    ["0,4 - 0,3", "0.3 V to 0.4 V"],
    ["300-400 mV", "300 mV to 400 mV"],
    ["300 mV - 0.4 V", "300 mV to 0.4 V"],
    ["-12.1 to -12.3", "-12.3 V to -12.1 V"],
    ["-0.1 to 0.1", "-0.1 V to 0.1 V"],
    ["-12.3--12.1", "-12.3 V to -12.1 V"],
    ["< 0,1", "< 0.1 V"],
    [">= 2.0", ">= 2.0 V"],
    ["≤0.8", "<= 0.8 V"],
    ["at least 2.0", ">= 2.0 V"],
    ["over 5", "> 5 V"],
    ["H", "high"],
    ["pulsing", "pulsing"],
    ["dead", "false dead"],
    ["ok", "true ok"],
  ])("%j is read as %s", (text, expected) => expect(reading(text)).toBe(expected));

  test.each([
    [">20M", "> 20 MΩ"],
    ["20M+", ">= 20 MΩ"],
    ["1k-2k", "1 kΩ to 2 kΩ"],
    ["1-2k", "1 kΩ to 2 kΩ"],
    ["5.0 V", "5.0 V"],
  ])("%s in an ohms column", (text, expected) => expect(reading(text, OHMS)).toBe(expected));

  test.each(["", " ", "-", "–", "—", "--", "n/a", "N/A", "not measured", "?"])(
    "%j is not measured",
    (text) => {
      for (const kind of ["quantity", "state", "result", "text"] as const) {
        expect(parseCell(text, { kind }).kind).toBe("empty");
      }
    },
  );

  test.each(["OL", "ol", "O.L", "O/L", "0L", ".OL", "OL MΩ", "~OL", ">OL", "open", "inf", "∞"])(
    "%s is open",
    (text) => expect(reading(text)).toBe("open"),
  );
  test.each(["short", "Shorted", "s/c", "dead short"])("%s is a short", (text) =>
    expect(reading(text)).toBe("short"),
  );
});

describe("slips are named and put right", () => {
  test.each([
    ["O.58", "0.58"],
    ["o,58", "0,58"],
    ["0.S8", "0.58"],
    ["0.5B", "0.58"],
    ["l.42", "1.42"],
    ["|.42", "1.42"],
    ["1O", "10"],
    ["O.58 V", "0.58 V"],
    ["O.3-0.4", "0.3-0.4"],
    ["0..58", "0.58"],
    ["0,.58", "0.58"],
    ["0.58.", "0.58"],
    ["0. 58", "0.58"],
    ["0.58 VV", "0.58 V"],
    ["5,0,0", "5.00"],
    ["1,420", "1.420"],
    ["-12.1-12.3", "-12.3 to -12.1"],
    ["plusing", "pulsing"],
    ["74LS04", "(none)"],
    ["0.58 twice", "(none)"],
    ["hello", "(none)"],
  ])("%s to %s", (text, suggestion) => expect(reading(text)).toBe(`! ${suggestion}`));

  test("a pasted paragraph is refused without a search", () => {
    const value = parseCell("1-".repeat(200_000), VOLTS);
    expect(value.kind === "unreadable" && value.reason).toBe(
      '"1-1-1-1-1-1-1-1-1-1-…" is too long to be a quantity',
    );
  }, 1000);

  test("the reason quotes what was typed", () => {
    const value = parseCell("0.58 twice", VOLTS);
    expect(value).toEqual({
      kind: "unreadable",
      typed: "0.58 twice",
      reason: '"0.58 twice" is not one quantity: "twice" is not a unit',
    });
  });
});

describe("a logic state", () => {
  test.each([
    ["H", "high"],
    ["1", "high"],
    ["stuck high", "high"],
    ["lo", "low"],
    ["0", "low"],
    ["toggling", "pulsing"],
    ["Clocking", "pulsing"],
    ["hi-z", "floating"],
    ["Z", "floating"],
    ["tri-state", "floating"],
    ["1.4", "1.4 V"],
    ["open", "open"],
    ["short", "short"],
    ["dead", "false dead"],
    ["on", "text on"],
    ["plusing", "! pulsing"],
    ["flaoting", "! floating"],
    ["xx", "! (none)"],
  ])("%j is read as %s", (text, expected) => expect(reading(text, { kind: "state" })).toBe(expected));
});

describe("a result", () => {
  test.each([
    ["ok", "true ok"],
    ["OK.", "true OK"],
    ["✓", "true ✓"],
    ["ok (cleaned)", "true ok"],
    ["dead - cable", "false dead"],
    ["no", "false no"],
    ["✗", "false ✗"],
    ["stuck", "false stuck"],
    ["intermittent", "undefined intermittent"],
    ["open", "open"],
    ["failled", "! failed"],
    ["x", "text x"],
    ["no corrosion", "text no corrosion"],
    ["light corrosion at J3", "text light corrosion at J3"],
  ])("%j is read as %s", (text, expected) => expect(reading(text, { kind: "result" })).toBe(expected));
});

test("text stays text", () => {
  expect(reading("0.58", { kind: "text" })).toBe("text 0.58");
  expect(reading("OL", { kind: "text" })).toBe("text OL");
});

describe("properties", () => {
  const typing = fc.oneof(
    fc.string(),
    fc.string({ unit: fc.constantFrom(..."0123456789.,+-–<>=~?VmkMΩOLlS toHpulse*"), maxLength: 16 }),
  );
  const wants: CellWant[] = [
    VOLTS,
    OHMS,
    { kind: "quantity" },
    { kind: "state" },
    { kind: "result" },
    { kind: "text" },
  ];

  test("never throws, keeps what was typed, orders a range", () => {
    fc.assert(
      fc.property(typing, fc.constantFrom(...wants), (text, want) => {
        const value = parseCell(text, want);
        expect(value.typed).toBe(text.trim());
        if (value.kind === "range") expect(value.low.value).toBeLessThanOrEqual(value.high.value);
      }),
      { numRuns: 4000 },
    );
  });

  test("a suggestion is another text, and it reads", () => {
    fc.assert(
      fc.property(typing, fc.constantFrom(...wants), (text, want) => {
        const value = parseCell(text, want);
        if (value.kind !== "unreadable" || value.suggestion === undefined) return;
        expect(value.suggestion).not.toBe(text.trim());
        expect(parseCell(value.suggestion, want).kind).not.toBe("unreadable");
      }),
      { numRuns: 4000 },
    );
  });

  test("every range of two readings is read back", () => {
    const number = fc.integer({ min: 0, max: 1999 }).map((n) => (n / 1000).toFixed(3));
    const mark = fc.constantFrom("-", " - ", "–", " – ", " to ", "..", "…");
    fc.assert(
      fc.property(number, number, mark, (a, b, between) => {
        const value = parseCell(a + between + b, VOLTS);
        if (value.kind !== "range") throw new Error(`${a}${between}${b}: ${value.kind}`);
        expect([value.low.value, value.high.value]).toEqual([Number(a), Number(b)].sort((x, y) => x - y));
      }),
    );
  });
});

describe("remarks and second values", () => {
  const volts = { kind: "quantity", unit: "V" } as const;
  test.each(["0.58 (twice)", "5.02V ok", "9.98 kΩ in circuit", "1.2 cold", "0.58 [again]"])(
    "%s is read without its remark",
    (typed) => {
      expect(parseCell(typed, volts)).toMatchObject({ kind: "quantity", typed });
    },
  );
  test.each(["gnd", "shorted to gnd", "to ground"])("%s is a short", (typed) => {
    expect(parseCell(typed, volts)).toMatchObject({ kind: "short", typed });
  });
  test.each(["0.55/0.57", "0.55 vs 0.57", "0.55 and 0.57"])("%s is two values, and said to be", (typed) => {
    const value = parseCell(typed, volts);
    expect(value).toMatchObject({ kind: "unreadable" });
    expect(value.kind === "unreadable" && value.reason).toContain("two values");
  });
  test("leaves alone what only looks like a remark", () => {
    expect(parseCell("(0.58)", volts).kind).not.toBe("empty");
    expect(parseCell("ok", volts)).toMatchObject({ kind: "result", ok: true });
    expect(parseCell("abc (twice)", volts).kind).toBe("unreadable");
  });
});
