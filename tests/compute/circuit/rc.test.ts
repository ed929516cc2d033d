import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { judgeResetDelay, rcTime, rcVoltage, resetDelay } from "../../../server/src/compute/circuit/rc";
import { words } from "../../support/words";
import { close, reason, ruling } from "./support";

const RC = { resistance: 10e3, capacitance: 10e-6 };

describe("RC time", () => {
  // 10 k and 10 µF from 0 V towards 5 V reach 2.0 V in 100 ms × ln(5/3) = 51.083 ms.
  test("charging to a threshold takes RC times the logarithm of what is left", () => {
    const found = close(rcTime({ ...RC, from: 0, to: 5, threshold: 2 }), 51.0826e-3);
    expect(found.formula).toBe("10 kΩ × 10 µF × ln((5 V - 0 V) / (5 V - 2 V)) = 51.08 ms");
  });
  test("discharging, and towards a voltage below zero", () => {
    close(rcTime({ ...RC, from: 5, to: 0, threshold: 5 / Math.E }), 0.1);
    close(rcTime({ ...RC, from: 5, to: -5, threshold: 0 }), 0.1 * Math.log(2));
  });
  test("a threshold at the start is crossed at once", () => {
    close(rcTime({ ...RC, from: 0, to: 5, threshold: 0 }), 0);
  });
  test.each([
    [{ threshold: 5 }, /never crosses 5 V/],
    [{ threshold: 6 }, /never crosses/],
    [{ threshold: -0.1 }, /never crosses/],
    [{ from: 5 }, /nothing charges/],
    [{ capacitance: 0 }, /capacitance must be above zero/],
    [{ resistance: -1 }, /resistance must be above zero/],
    [{ to: Number.POSITIVE_INFINITY }, /final voltage/],
  ])("%j is refused", (over, text) => {
    expect(reason(rcTime({ ...RC, from: 0, to: 5, threshold: 2, ...over }))).toMatch(text);
  });
  test("time and voltage undo each other", () => {
    const volts = fc.double({ min: -30, max: 30, noNaN: true });
    fc.assert(
      fc.property(volts, volts, fc.double({ min: 0, max: 0.3, noNaN: true }), (from, to, time) => {
        fc.pre(Math.abs(from - to) > 0.01);
        const at = rcVoltage({ ...RC, from, to, time });
        const back = at.ok ? rcTime({ ...RC, from, to, threshold: at.value }) : at;
        // A threshold rounded onto the start itself counts as outside by a last digit.
        if (time > 1e-9) expect(back.ok && back.value).toBeCloseTo(time, 6);
      }),
    );
  });
  test("a time before the start is refused", () => {
    expect(reason(rcVoltage({ ...RC, from: 0, to: 5, time: -1 }))).toMatch(/time must be zero or more/);
  });
});

describe("reset delay", () => {
  const RESET = { ...RC, supply: 5, threshold: 2, resistorTolerance: 0.05, capacitorTolerance: 0.2 };
  test("the tolerances open a window about it", () => {
    const found = close(resetDelay(RESET), 51.0826e-3);
    expect(found.shortest / found.value).toBeCloseTo(0.95 * 0.8, 12);
    expect(found.longest / found.value).toBeCloseTo(1.05 * 1.2, 12);
  });
  test("inside, short, long and for ever", () => {
    ruling(judgeResetDelay({ ...RESET, measured: 0.045 }), "within-limits");
    expect(words(ruling(judgeResetDelay({ ...RESET, measured: 0.004 }), "out-of-limits"))).toMatch(
      /4 ms;.*open or has lost capacitance/,
    );
    expect(words(ruling(judgeResetDelay({ ...RESET, measured: 0.2 }), "out-of-limits"))).toMatch(
      /200 ms;.*leaks/,
    );
    expect(
      words(ruling(judgeResetDelay({ ...RESET, measured: Number.POSITIVE_INFINITY }), "out-of-limits")),
    ).toMatch(/^Reset never releases/);
  });
  test("an edge within the uncertainty is suspect", () => {
    ruling(judgeResetDelay({ ...RESET, measured: 0.038, uncertainty: 0.002 }), "suspect");
  });
  test("bad tolerances and delays are refused", () => {
    expect(reason(resetDelay({ ...RESET, capacitorTolerance: 1.2 }))).toMatch(/capacitor's tolerance/);
    expect(reason(judgeResetDelay({ ...RESET, measured: -1 }))).toMatch(/measured delay/);
    expect(reason(judgeResetDelay({ ...RESET, measured: 0.05, threshold: 5.1 }))).toMatch(/never crosses/);
  });
});
