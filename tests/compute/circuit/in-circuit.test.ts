import { describe, expect, test } from "vitest";
import {
  judgeCapacitanceInCircuit,
  judgeResistanceInCircuit,
} from "../../../server/src/compute/circuit/in-circuit";
import { parallelCapacitance, parallelResistance } from "../../../server/src/compute/circuit/parallel";
import { words } from "../../support/words";
import { close, reason, ruling } from "./support";

describe("parallel", () => {
  test("resistances in parallel come to less than the least", () => {
    const found = close(parallelResistance([4700, 10e3, 22e3]), 2791.58, 1e-5);
    expect(found.formula).toBe("4.7 kΩ ∥ 10 kΩ ∥ 22 kΩ = 2.792 kΩ");
    close(parallelResistance([100, Number.POSITIVE_INFINITY]), 100);
    close(parallelResistance([1000]), 1000);
  });
  test("capacitances in parallel add up", () => {
    close(parallelCapacitance([10e-6, 100e-9]), 10.1e-6);
  });
  test("none, zero and not a number are refused", () => {
    expect(reason(parallelResistance([]))).toMatch(/no resistor/);
    expect(reason(parallelResistance([10, 0]))).toMatch(/above zero, but it is 0 Ω/);
    expect(reason(parallelCapacitance([Number.NaN]))).toMatch(/not a number/);
    expect(reason(parallelCapacitance([]))).toMatch(/no capacitor/);
  });
});

const R = { nominal: 4700, tolerance: 0.05 };

describe("a resistor in place", () => {
  test.each([
    [4700, "within-limits", "not-disproved"],
    [4935, "within-limits", "not-disproved"],
    [4465, "within-limits", "not-disproved"],
    [5200, "out-of-limits", "disproved"],
    [Number.POSITIVE_INFINITY, "out-of-limits", "disproved"],
    [1200, "unjudged", "inconclusive"],
    [0, "unjudged", "inconclusive"],
  ] as const)("%d ohm: %s", (reading, verdict, conclusion) => {
    const found = ruling(judgeResistanceInCircuit({ ...R, reading }), verdict);
    expect(found.conclusion).toBe(conclusion);
    expect(found.formula).toMatch(/[<>≤]/);
  });
  test("high says open or drifted, low says parallel paths and blames nothing", () => {
    const high = ruling(judgeResistanceInCircuit({ ...R, reading: 9000 }), "out-of-limits");
    expect(words(high)).toMatch(/at most 4\.935 kΩ\. It is open, has drifted high/);
    const low = ruling(judgeResistanceInCircuit({ ...R, reading: 900 }), "unjudged");
    expect(words(low)).toMatch(/says nothing about the part/);
    const inside = ruling(judgeResistanceInCircuit({ ...R, reading: 4700 }), "within-limits");
    expect(words(inside)).toMatch(/Not disproved/);
  });
  test("the uncertainty keeps a borderline reading from disproving", () => {
    ruling(judgeResistanceInCircuit({ ...R, reading: 4960, uncertainty: 50 }), "suspect");
    ruling(judgeResistanceInCircuit({ ...R, reading: 5000, uncertainty: 50 }), "out-of-limits");
    ruling(judgeResistanceInCircuit({ ...R, reading: 4440, uncertainty: 50 }), "within-limits");
  });
  test("a known neighbour lowers the most it may read, and shares the blame", () => {
    const beside = [10e3];
    expect(words(ruling(judgeResistanceInCircuit({ ...R, reading: 4700, beside }), "out-of-limits"))).toMatch(
      /one of those beside it/,
    );
    ruling(judgeResistanceInCircuit({ ...R, reading: 3197, beside }), "within-limits");
  });
  test("what cannot be a reading is refused", () => {
    expect(reason(judgeResistanceInCircuit({ ...R, reading: -1 }))).toMatch(/zero or more/);
    expect(reason(judgeResistanceInCircuit({ ...R, reading: Number.NaN }))).toMatch(/not a number/);
    expect(reason(judgeResistanceInCircuit({ nominal: 0, tolerance: 0, reading: 1 }))).toMatch(
      /marked value/,
    );
    expect(reason(judgeResistanceInCircuit({ ...R, reading: 1, uncertainty: -1 }))).toMatch(/uncertainty/);
  });
});

const C = { nominal: 100e-6, tolerance: 0.2 };

describe("a capacitor in place is judged the other way round", () => {
  test.each([
    [100e-6, 0, "within-limits", "not-disproved"],
    [80e-6, 0, "within-limits", "not-disproved"],
    [60e-6, 0, "out-of-limits", "disproved"],
    [0, 0, "out-of-limits", "disproved"],
    [79e-6, 2e-6, "suspect", "inconclusive"],
    [470e-6, 0, "unjudged", "inconclusive"],
  ] as const)("%d F ± %d: %s", (reading, uncertainty, verdict, conclusion) => {
    const found = ruling(judgeCapacitanceInCircuit({ ...C, reading, uncertainty }), verdict);
    expect(found.conclusion).toBe(conclusion);
  });
  test("an endless capacitance is refused", () => {
    expect(reason(judgeCapacitanceInCircuit({ ...C, reading: Number.POSITIVE_INFINITY }))).toMatch(
      /capacitance/,
    );
  });
});
