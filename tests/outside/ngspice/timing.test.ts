// RC delays, hold-up and charging against a simulation in time.
import { expect, test } from "vitest";
import {
  chargeCurrent,
  chargeTime,
  holdUpAtCurrent,
  holdUpIntoResistance,
} from "../../../server/src/compute/circuit/holdup";
import { rcTime, rcVoltage, resetDelay } from "../../../server/src/compute/circuit/rc";
import { amount, describeSpice, simulate } from "./spice";

/** Time at which a capacitor fed through a resistor crosses a voltage, and its voltage at `at` s. */
function rc(given: {
  r: number;
  c: number;
  from: number;
  to: number;
  threshold: number;
  at: number;
  end: number;
}) {
  const { r, c, from, to, threshold, at, end } = given;
  const found = simulate([
    `v1 in 0 dc ${to}`,
    `r1 in out ${r}`,
    `c1 out 0 ${c} ic=${from}`,
    ".options reltol=1e-6",
    `.tran ${end / 4000} ${end} 0 ${end / 4000} uic`,
    `.measure tran crossed when v(out)=${threshold}`,
    `.measure tran level find v(out) at=${at}`,
  ]);
  return { crossed: found.get("crossed")!, level: found.get("level")! };
}

const near = (ours: number, theirs: number, relative = 1e-3) => {
  expect(Math.abs(ours - theirs), `${ours} against ${theirs}`).toBeLessThan(Math.abs(theirs) * relative);
};

describeSpice("delays by simulation", () => {
  test.each([
    { r: 10e3, c: 10e-6, from: 0, to: 5, threshold: 2, at: 0.08, end: 0.3 },
    { r: 100e3, c: 1e-6, from: 0, to: 5, threshold: 3.5, at: 0.05, end: 0.4 },
    { r: 4700, c: 47e-6, from: 5, to: 0, threshold: 0.8, at: 0.2, end: 1 },
    { r: 22e3, c: 100e-9, from: -5, to: 12, threshold: 1.4, at: 1e-3, end: 8e-3 },
    // 1 farad stand-in scaled to a microfarad: 62 µs is one time constant.
    { r: 62, c: 1e-6, from: 5, to: 0, threshold: 2, at: 62e-6, end: 200e-6 },
  ])("$r ohm, $c F from $from V to $to V across $threshold V", (given) => {
    const { crossed, level } = rc(given);
    const shape = { resistance: given.r, capacitance: given.c, from: given.from, to: given.to };
    near(amount(rcTime({ ...shape, threshold: given.threshold })), crossed);
    near(amount(rcVoltage({ ...shape, time: given.at })), level);
  });

  test("a reset at the ends of its tolerances lies in the window", () => {
    const window = resetDelay({
      resistance: 10e3,
      capacitance: 10e-6,
      supply: 5,
      threshold: 2,
      resistorTolerance: 0.05,
      capacitorTolerance: 0.2,
    });
    if (!window.ok) throw new Error(window.reason);
    const corners = [0.95, 1.05].flatMap((r) =>
      [0.8, 1.2].map(
        (c) => rc({ r: 10e3 * r, c: 10e-6 * c, from: 0, to: 5, threshold: 2, at: 0.1, end: 0.4 }).crossed,
      ),
    );
    near(Math.min(...corners), window.shortest);
    near(Math.max(...corners), window.longest);
  });
});

describeSpice("a memory capacitor by simulation", () => {
  test("hold-up at a constant current: 0.2 F, 10.2 µA, 2.5 V to 1.8 V", () => {
    const found = simulate([
      "c1 out 0 0.2 ic=2.5",
      "i1 out 0 dc 10.2u",
      ".tran 20 20000 0 20 uic",
      ".measure tran crossed when v(out)=1.8",
    ]);
    near(
      amount(holdUpAtCurrent({ capacitance: 0.2, from: 2.5, to: 1.8, current: 10.2e-6 })),
      found.get("crossed")!,
    );
  });

  test("hold-up into a resistance: 1 F, 100 k, 5 V to 2 V", () => {
    const found = simulate([
      "c1 out 0 1 ic=5",
      "r1 out 0 100k",
      ".tran 100 200000 0 100 uic",
      ".measure tran crossed when v(out)=2",
    ]);
    near(
      amount(holdUpIntoResistance({ capacitance: 1, from: 5, to: 2, resistance: 100e3 })),
      found.get("crossed")!,
    );
  });

  test("charging 1 F through 62 ohm to 4.5 V", () => {
    const found = simulate([
      "v1 in 0 dc 5",
      "r1 in out 62",
      "c1 out 0 1 ic=0",
      ".tran 0.1 400 0 0.1 uic",
      ".measure tran crossed when v(out)=4.5",
    ]);
    near(
      amount(chargeTime({ supply: 5, resistance: 62, capacitance: 1, voltage: 4.5 })),
      found.get("crossed")!,
    );
  });

  test("the inrush through the series resistor", () => {
    const found = simulate([
      "v1 in 0 dc 5",
      "r1 in out 62",
      "c1 out 0 1 ic=1.2",
      ".tran 0.01 1 0 0.01 uic",
      ".measure tran inrush find i(v1) at=0.001",
    ]);
    near(amount(chargeCurrent({ supply: 5, resistance: 62, voltage: 1.2 })), -found.get("inrush")!);
  });
});
