// Figures of new parts: ESR60/ESR70 user guide, Peak Electronic Design; of leakage: IEC 60384-4 and makers' sheets,
// from memory.

import { describe, expect, it } from "vitest";
import { leakageLimit, typicalEsr } from "../../server/src/compute/circuit/electrolytic";
import { inWords } from "../../server/src/text/saying";
import { judgeTable } from "../support/judged";

async function capacitor(marked: string, column: string, typed: string) {
  const judged = await judgeTable(`| Ref | Marked | ${column} |\n|-|-|-|\n| C90 | ${marked} | ${typed} |\n`, {
    heading: "Capacitance and ESR",
    front: "received: 2026-03-02",
  });
  return judged.at(-1)!;
}

describe("series resistance against new parts of the value and voltage", () => {
  it.each([
    ["4700 uF 25 V", "0.03", "within-limits"],
    ["4700 uF 25 V", "0.15", "within-limits"],
    ["4700 uF 25 V", "0.3", "out-of-limits"],
    ["4700uF/25V", "1.2", "out-of-limits"],
    ["10 uF 16 V", "2.5", "within-limits"],
    ["10 uF 16 V", "16", "within-limits"],
    ["10 uF 16 V", "40", "suspect"],
    ["10 uF 16 V", "75", "out-of-limits"],
    ["100 uF 25 V", "1.4", "within-limits"],
    ["100 uF 25 V", "14", "out-of-limits"],
    ["100 uF 16 V", "3.5", "suspect"],
    ["220 uF 16 V", "OL", "out-of-limits"],
    ["220 uF 16 V", "0.00", "suspect"],
    // No voltage is marked: the most lenient column.
    ["22 uF", "9", "within-limits"],
    // Between two published values: 33 uF lies between 22 and 47.
    ["33 uF 25 V", "4.5", "within-limits"],
    ["33 uF 25 V", "20", "out-of-limits"],
    // Other kinds, and values nobody publishes figures of.
    ["0.1 uF 50 V", "3", "unjudged"],
    ["1 uF 50 V", "30", "unjudged"],
    ["47 uF tantalum 16 V", "6", "unjudged"],
    ["100 uF 25 V bipolar", "20", "unjudged"],
    ["1 F 5.5 V super capacitor", "30", "unjudged"],
    ["", "14", "unjudged"],
  ])("%s at %s ohm is %s", async (marked, typed, verdict) => {
    expect((await capacitor(marked, "ESR", typed)).verdict).toBe(verdict);
  });

  it("never says that a part is sound", async () => {
    const { says } = await capacitor("100 uF 25 V", "ESR", "0.4");
    const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
    expect(sentence).toContain("Not disproved");
    expect(sentence).not.toMatch(/\bgood\b/i);
  });

  it("is found in the note and the unit of the header", async () => {
    const judged = await judgeTable(
      "| Cap | Marked | ESR (mohm) | Note |\n|-|-|-|-|\n| C1 | 100 uF | 9000 | 25 V |\n",
      { heading: "ESR", front: "received: 2026-03-02" },
    );
    expect(judged.at(-1)).toMatchObject({
      verdict: "out-of-limits",
      says: { fact: expect.stringContaining("C1") },
    });
  });

  it("keeps the published figures, and lies between them elsewhere", () => {
    expect(typicalEsr({ capacitance: 100e-6, rated: 25 })).toBeCloseTo(1.4, 6);
    expect(typicalEsr({ capacitance: 100e-6, rated: 50 })).toBeCloseTo(1.1, 6);
    expect(typicalEsr({ capacitance: 4.7e-6, rated: 6.3 })).toBeCloseTo(40, 6);
    expect(typicalEsr({ capacitance: 10_000e-6, rated: 250 })).toBeCloseTo(0.01, 6);
    const between = typicalEsr({ capacitance: 33e-6, rated: 25 })!;
    expect(between).toBeLessThan(6.2);
    expect(between).toBeGreaterThan(2.9);
    expect(typicalEsr({ capacitance: 1e-6, rated: 25 })).toBeUndefined();
    expect(typicalEsr({ capacitance: 0.022, rated: 25 })).toBeUndefined();
  });
});

describe("leakage against value and voltage", () => {
  it.each([
    ["10 uF 16 V", "1.2 uA", "within-limits"],
    // 0.01 x 10 x 16 = 1.6: three microamperes are allowed at least.
    ["10 uF 16 V", "2.9 uA", "within-limits"],
    ["10 uF 16 V", "5", "suspect"],
    ["10 uF 16 V", "300 uA", "out-of-limits"],
    ["100 uF 25 V", "20 uA", "within-limits"],
    ["100 uF 25 V", "60 uA", "suspect"],
    ["100 uF 25 V", "5 mA", "out-of-limits"],
    ["4700 uF 25 V", "1 mA", "within-limits"],
    ["100 uF", "5 mA", "unjudged"],
    ["22 uF 16 V tant", "100 uA", "unjudged"],
  ])("%s at %s is %s", async (marked, typed, verdict) => {
    expect((await capacitor(marked, "Leakage", typed)).verdict).toBe(verdict);
  });

  it("is a hundredth of the charge, or three microamperes", () => {
    expect(leakageLimit({ capacitance: 1000e-6, rated: 25 })).toBeCloseTo(250e-6, 9);
    expect(leakageLimit({ capacitance: 1e-6, rated: 50 })).toBe(3e-6);
  });
});
