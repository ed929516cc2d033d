// The ripple rule claims to be an upper bound: a rectifier simulated in time must stay below it, and near enough
// that the bound is worth having. And a supply whose fault is known must be judged by that fault.
import { expect, test } from "vitest";
import {
  impliedCapacitance,
  judgeReservoir,
  type Rectifier,
  rippleBound,
} from "../../../server/src/compute/circuit/ripple";
import { amount, describeSpice, measure } from "./spice";

interface Supply {
  readonly peak: number;
  readonly frequency: number;
  readonly capacitance: number;
  readonly current: number;
  readonly rectifier: Rectifier;
  /** Half of the bridge missing, as after one diode opened. */
  readonly broken?: boolean;
}

/** Ripple in V peak to peak of the last cycles, after the transformer's first ones. */
function ripple({ peak, frequency, capacitance, current, rectifier, broken = false }: Supply): number {
  const period = 1 / frequency;
  const bridge = [
    `v1 a b sin(0 ${peak} ${frequency})`,
    "rs b s 0.05",
    "d1 a out dd",
    "d2 0 a dd",
    ...(broken ? [] : ["d3 s out dd"]),
    "d4 0 s dd",
    "rleak s 0 1meg",
  ];
  const half = [`v1 a 0 sin(0 ${peak} ${frequency})`, "rs a b 0.05", "d1 b out dd"];
  return measure("pp", [
    ...(rectifier === "full-wave" ? bridge : half),
    ".model dd d(is=1e-12 rs=0.02)",
    `c1 out 0 ${capacitance} ic=${peak - 1}`,
    `i1 out 0 dc ${current}`,
    ".options reltol=1e-4",
    `.tran ${period / 500} ${period * 12} 0 ${period / 500} uic`,
    `.measure tran pp pp v(out) from=${period * 9} to=${period * 11.9}`,
  ]);
}

const BASE: Supply = { peak: 12, frequency: 60, capacitance: 4700e-6, current: 0.5, rectifier: "full-wave" };

describeSpice("ripple by simulation", () => {
  test.each<[string, Partial<Supply>]>([
    ["the plain case", {}],
    ["50 Hz", { frequency: 50 }],
    ["a big capacitor", { capacitance: 22e-3, current: 2 }],
    ["a light load", { current: 0.05 }],
    ["a low supply", { peak: 9, current: 1, capacitance: 10e-3 }],
    ["a high supply", { peak: 45, current: 0.2, capacitance: 1000e-6 }],
    ["half wave", { rectifier: "half-wave", capacitance: 10e-3 }],
    ["half wave, light load", { rectifier: "half-wave", current: 0.05, capacitance: 1000e-6 }],
  ])("%s stays below the bound, and above half of it", (_what, over) => {
    const supply = { ...BASE, ...over };
    const simulated = ripple(supply);
    const bound = amount(rippleBound(supply));
    expect(simulated).toBeLessThanOrEqual(bound);
    expect(simulated).toBeGreaterThan(bound / 2);
    expect(amount(impliedCapacitance({ ...supply, ripple: simulated }))).toBeGreaterThanOrEqual(
      supply.capacitance,
    );
  });

  const verdict = (simulated: number) => {
    const found = judgeReservoir({ ...BASE, ripple: simulated, nominal: BASE.capacitance, tolerance: 0.2 });
    return found.ok ? found.verdict : found.reason;
  };
  test("a sound supply is not disproved, even with its capacitor at the lower tolerance", () => {
    expect(verdict(ripple(BASE))).toBe("within-limits");
    expect(verdict(ripple({ ...BASE, capacitance: BASE.capacitance * 0.8 }))).toBe("within-limits");
  });
  test("a capacitor with a quarter left, and half a bridge, are out of limits", () => {
    expect(verdict(ripple({ ...BASE, capacitance: BASE.capacitance / 4 }))).toBe("out-of-limits");
    expect(verdict(ripple({ ...BASE, broken: true }))).toBe("out-of-limits");
  });
});
