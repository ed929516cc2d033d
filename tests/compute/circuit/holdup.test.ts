import { describe, expect, test } from "vitest";
import {
  chargeCurrent,
  chargeTime,
  holdUpAtCurrent,
  holdUpIntoResistance,
  impliedCurrent,
  MEMORY_CAPACITOR,
} from "../../../server/src/compute/circuit/holdup";
import { close, reason } from "./support";

describe("hold-up", () => {
  // Gold Capacitors Technical Guide, page 37: 0.2 F from 2.5 V to 1.8 V at 10.2 µA lasts 13,725 s.
  test("at a constant current lasts as long as the maker's guide says", () => {
    const found = close(
      holdUpAtCurrent({ capacitance: 0.2, from: 2.5, to: 1.8, current: 10.2e-6 }),
      13725,
      1e-4,
    );
    expect(found).toMatchObject({ unit: "s" });
    expect(found.formula).toMatch(/\(2\.5 V - 1\.8 V\) \/ 10\.2 µA/);
    close(impliedCurrent({ capacitance: 0.2, from: 2.5, to: 1.8, time: 13725.49 }), 10.2e-6, 1e-6);
  });
  test("into a resistance falls to 1/e in one time constant", () => {
    close(holdUpIntoResistance({ capacitance: 1, from: 5, to: 5 / Math.E, resistance: 1000 }), 1000);
  });
  test("already at the end lasts no time", () => {
    close(holdUpAtCurrent({ capacitance: 1, from: 2, to: 2, current: 1e-6 }), 0);
  });
  test("input nothing follows from is refused", () => {
    const good = { capacitance: 1, from: 5, to: 2 };
    expect(reason(holdUpAtCurrent({ ...good, current: 0 }))).toMatch(/current must be above zero/);
    expect(reason(holdUpAtCurrent({ ...good, to: 6, current: 1 }))).toMatch(/above the starting voltage/);
    expect(reason(holdUpIntoResistance({ ...good, to: 0, resistance: 1 }))).toMatch(
      /lowest voltage must be above/,
    );
    expect(reason(holdUpIntoResistance({ ...good, capacitance: 0, resistance: 1 }))).toMatch(/capacitance/);
    expect(reason(impliedCurrent({ ...good, time: -3 }))).toMatch(/time must be above zero/);
  });
});

describe("charging a memory capacitor", () => {
  const { capacitance, voltage, seriesResistance, source } = MEMORY_CAPACITOR;
  test("the usual resistor holds the inrush near 80 mA, and its source is no more than practice", () => {
    close(chargeCurrent({ supply: voltage, resistance: seriesResistance }), 0.0806451, 1e-5);
    close(chargeCurrent({ supply: voltage, resistance: seriesResistance, voltage: 5 }), 0);
    expect(source).toBe("common practice, no source");
  });
  test("the time to a voltage follows from resistance and capacitance, and the supply itself is never reached", () => {
    close(chargeTime({ supply: 5, resistance: 62, capacitance, voltage: 2 }), 31.6712, 1e-5);
    expect(reason(chargeTime({ supply: 5, resistance: 62, capacitance, voltage: 5 }))).toMatch(
      /never crosses/,
    );
    expect(reason(chargeCurrent({ supply: 5, resistance: 0 }))).toMatch(
      /series resistance must be above zero/,
    );
  });
});
