import { describe, expect, test } from "vitest";
import { familyLevels, inputLevels4000 } from "../../../server/src/compute/logic/family-levels";
import { compareToLevels, logicLevel } from "../../../server/src/compute/logic/levels";
import type { Family } from "../../../server/src/knowledge/types";
import { words } from "../../support/words";
import { reason, ruling } from "../circuit/support";

const LS = { vih: 2, vil: 0.8, voh: 2.7, vol: 0.5, source: "SN74LS00 data sheet" };
const HC = { vih: 3.15, vil: 1.35, voh: 3.84, vol: 0.33, source: "74HC04 data sheet" };
const TTL_INPUT = { receiving: LS, technology: "ttl", supply: 5 } as const;

describe("volts to a level", () => {
  test.each([
    [0, "low"],
    [0.8, "low"],
    [0.81, "undefined"],
    [1.99, "undefined"],
    [2, "high"],
    [5, "high"],
  ] as const)("%d V is %s for LS", (volts, level) => {
    expect(logicLevel(volts, LS)).toMatchObject({ ok: true, level });
  });
  test("a TTL high of 2.8 V is no high for HC", () => {
    expect(logicLevel(2.8, LS)).toMatchObject({ level: "high" });
    expect(logicLevel(2.8, HC)).toMatchObject({ level: "undefined", formula: "1.35 V < 2.8 V < 3.15 V" });
  });
  test("not a number and crossed thresholds are refused", () => {
    expect(reason(logicLevel(Number.NaN, LS))).toMatch(/not a number/);
    expect(reason(logicLevel(1, { vih: 0.8, vil: 2 }))).toMatch(/low level .* reaches the high level/);
  });
});

describe("judged", () => {
  test("a clear level is within limits", () => {
    const found = ruling(compareToLevels({ ...TTL_INPUT, volts: 3.4 }), "within-limits");
    expect(found).toMatchObject({ level: "high", causes: [] });
  });
  test("near 1.5 V an open TTL input is the first thought", () => {
    const found = ruling(compareToLevels({ ...TTL_INPUT, volts: 1.5 }), "out-of-limits");
    expect(found.causes[0]).toBe("floating");
    expect(found.says.more).toMatch(/1\.4 V to 1\.6 V/);
    expect(found.says.source).toBe("common practice, no source");
  });
  test("elsewhere between the levels it is a fight", () => {
    const found = ruling(compareToLevels({ ...TTL_INPUT, volts: 1.1 }), "out-of-limits");
    expect(found.causes).toEqual(["fighting", "moving"]);
    expect(found.says.more).not.toMatch(/open TTL input/);
  });
  test("an output between the levels fights; it does not float", () => {
    const found = ruling(compareToLevels({ ...TTL_INPUT, driving: LS, volts: 1.5 }), "out-of-limits");
    expect(found.causes).toEqual(["fighting", "moving"]);
  });
  test("CMOS has no floating voltage of its own", () => {
    const found = ruling(
      compareToLevels({ receiving: HC, technology: "cmos", supply: 5, volts: 1.5 }),
      "out-of-limits",
    );
    expect(found.causes).toContain("floating");
    expect(found.says.more).not.toMatch(/open TTL input/);
  });
  test("thresholds within the meter's uncertainty are suspect from both sides", () => {
    ruling(compareToLevels({ ...TTL_INPUT, volts: 0.82, uncertainty: 0.03 }), "suspect");
    ruling(compareToLevels({ ...TTL_INPUT, volts: 0.78, uncertainty: 0.03 }), "suspect");
    ruling(compareToLevels({ ...TTL_INPUT, volts: 1.98, uncertainty: 0.03 }), "suspect");
    ruling(compareToLevels({ ...TTL_INPUT, volts: 2.02, uncertainty: 0.03 }), "suspect");
    ruling(compareToLevels({ ...TTL_INPUT, volts: 1.96, uncertainty: 0.03 }), "out-of-limits");
    ruling(compareToLevels({ ...TTL_INPUT, volts: 0.7, uncertainty: 0.03 }), "within-limits");
  });
  test("a level its driver does not promise is suspect, and only for a known output", () => {
    const found = ruling(compareToLevels({ ...TTL_INPUT, driving: LS, volts: 2.3 }), "suspect");
    expect(found).toMatchObject({ level: "high", causes: ["weak-driver"] });
    expect(words(found)).toMatch(/at least 2\.7 V/);
    expect(ruling(compareToLevels({ ...TTL_INPUT, driving: LS, volts: 0.7 }), "suspect").level).toBe("low");
    ruling(compareToLevels({ ...TTL_INPUT, volts: 2.3 }), "within-limits");
    ruling(compareToLevels({ ...TTL_INPUT, driving: LS, volts: 2.69, uncertainty: 0.02 }), "within-limits");
  });
  test("beyond the rails something else drives the pin", () => {
    expect(words(ruling(compareToLevels({ ...TTL_INPUT, volts: 11.8 }), "out-of-limits"))).toMatch(
      /above the supply of 5 V/,
    );
    expect(words(ruling(compareToLevels({ ...TTL_INPUT, volts: -4 }), "out-of-limits"))).toMatch(
      /below ground/,
    );
    ruling(compareToLevels({ ...TTL_INPUT, volts: -0.2 }), "within-limits");
    ruling(compareToLevels({ ...TTL_INPUT, volts: 5.2 }), "within-limits");
  });
  test("a level, supply or uncertainty that cannot be is refused", () => {
    expect(reason(compareToLevels({ ...TTL_INPUT, volts: Number.NaN }))).toMatch(/level/);
    expect(reason(compareToLevels({ ...TTL_INPUT, volts: 1, supply: 0 }))).toMatch(/supply/);
    expect(reason(compareToLevels({ ...TTL_INPUT, volts: 1, uncertainty: -1 }))).toMatch(/uncertainty/);
  });
});

describe("a family's levels", () => {
  const family: Family = { id: "LS", title: "LS", source: "test" };
  const text = { vih: "2.0 V", vil: "800 mV", voh: "2.7 V", vol: "0.5 V", source: "test" };
  test("are read as numbers of volts", () => {
    expect(familyLevels({ ...family, levels: text })).toEqual({
      ok: true,
      vih: 2,
      vil: 0.8,
      voh: 2.7,
      vol: 0.5,
      source: "test",
    });
  });
  test("absent or unreadable ones are refused", () => {
    expect(reason(familyLevels(family))).toMatch(/No logic levels are known/);
    expect(reason(familyLevels({ ...family, levels: { ...text, vih: "two" } }))).toMatch(/least high level/);
    expect(reason(familyLevels({ ...family, levels: { ...text, voh: "5 ohm" } }))).toMatch(/promised/);
  });
  // CD4001B data sheet at 5, 10 and 15 V: 3.5/1.5, 7/3, 11/4.
  test.each([
    [5, 3.5, 1.5],
    [10, 7, 3],
    [15, 11, 4],
    [12.5, 9, 3.5],
    [4, 2.8, 1.2],
  ])("4000 series at %d V", (supply, vih, vil) => {
    const found = inputLevels4000(supply);
    if (!found.ok) throw new Error(found.reason);
    expect(found.vih).toBeCloseTo(vih, 10);
    expect(found.vil).toBeCloseTo(vil, 10);
    expect(found.source).toMatch(
      [5, 10, 15].includes(supply) ? /^CD4001B data sheet$/ : /between|proportion/,
    );
  });
  test("the 4000 series has no levels outside its supply", () => {
    expect(reason(inputLevels4000(18))).toMatch(/3 V to 15 V, not 18 V/);
    expect(reason(inputLevels4000(Number.NaN))).toMatch(/not/);
  });
});
