import { describe, expect, test } from "vitest";
import { impliedCapacitance, judgeReservoir, rippleBound } from "../../../server/src/compute/circuit/ripple";
import { words } from "../../support/words";
import { close, reason, ruling } from "./support";

const FULL = { current: 0.5, frequency: 60, rectifier: "full-wave" } as const;

describe("ripple bound", () => {
  test("full wave is I/(2fC), half wave twice that, with the numbers in the formula", () => {
    const full = close(rippleBound({ ...FULL, capacitance: 4700e-6 }), 0.8865248);
    expect(full).toMatchObject({ unit: "V", formula: "500 mA / (2 × 60 Hz × 4700 µF) = 0.8865 V" });
    expect(full.source).toContain("upper bound");
    const half = close(rippleBound({ ...FULL, rectifier: "half-wave", capacitance: 4700e-6 }), 1.7730496);
    expect(half.formula).toBe("500 mA / (60 Hz × 4700 µF) = 1.773 V");
  });

  // Half-wave example, 100 V into 10 k at 60 Hz with 2 V of ripple: 83.3 µF (Sedra and Smith, from memory).
  test("implied capacitance turns the bound round", () => {
    close(
      impliedCapacitance({ current: 0.01, frequency: 60, rectifier: "half-wave", ripple: 2 }),
      83.333e-6,
      1e-4,
    );
    const back = close(impliedCapacitance({ ...FULL, ripple: 0.8865248 }), 4700e-6, 1e-6);
    expect(back.unit).toBe("F");
  });

  test("no load has no ripple", () => {
    close(rippleBound({ ...FULL, current: 0, capacitance: 1e-3 }), 0);
  });

  test.each([
    [{ capacitance: 0 }, /capacitance must be above zero, but it is 0 F/],
    [{ capacitance: Number.NaN }, /not a number/],
    [{ frequency: 0 }, /mains frequency must be above zero/],
    [{ current: -1 }, /load current must be zero or more, but it is -1 A/],
    [{ current: Number.POSITIVE_INFINITY }, /load current/],
  ])("%j comes back with a reason", (over, text) => {
    expect(reason(rippleBound({ ...FULL, capacitance: 1e-3, ...over }))).toMatch(text);
  });

  test("nothing follows from a ripple of zero", () => {
    expect(reason(impliedCapacitance({ ...FULL, ripple: 0 }))).toMatch(/ripple must be above zero/);
  });
});

describe("a measured ripple against the marked capacitor", () => {
  const RESERVOIR = { ...FULL, nominal: 4700e-6, tolerance: 0.2 };

  test("above the bound disproves the capacitor, its joints or half the bridge", () => {
    const found = ruling(judgeReservoir({ ...RESERVOIR, ripple: 1.6 }), "out-of-limits");
    expect(words(found)).toMatch(/1\.6 V; 3760 µF leaves at most 1\.108 V/);
    expect(found.says.more).toMatch(/at most 2604 µF/);
    expect(words(found)).toMatch(/half of the bridge is open/);
    expect(words(found)).toMatch(/Check the load current first/);
  });

  test("below the bound stays open, and says so", () => {
    const found = ruling(judgeReservoir({ ...RESERVOIR, ripple: 0.7 }), "within-limits");
    expect(words(found)).toMatch(/not disproved/);
  });

  test("within the meter's uncertainty of the bound is suspect", () => {
    ruling(judgeReservoir({ ...RESERVOIR, ripple: 1.12, uncertainty: 0.05 }), "suspect");
    ruling(judgeReservoir({ ...RESERVOIR, ripple: 1.05, uncertainty: 0.05 }), "within-limits");
  });

  test("a half-wave supply has no bridge to blame", () => {
    const found = ruling(
      judgeReservoir({ ...RESERVOIR, rectifier: "half-wave", ripple: 3 }),
      "out-of-limits",
    );
    expect(words(found)).not.toContain("bridge");
  });

  test("a tolerance of all of it leaves no bound", () => {
    expect(reason(judgeReservoir({ ...RESERVOIR, ripple: 1, tolerance: 1 }))).toMatch(/lower tolerance/);
  });
});
