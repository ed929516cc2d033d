// The simulated boards of tests/bench/injected against arithmetic by hand, and without a fault against the boards' own
// limits. Formulas: from memory, of any textbook (peak of a sine, RC charging, astable 555). Allowances: common
// practice, no source.

import { readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { Service } from "../../../server/src/service";
import { inject, setsOf } from "../../bench/injected/bench";
import { readBoard } from "../../bench/injected/board";
import { drivers } from "../../bench/injected/drivers";
import type { Experiment } from "../../bench/injected/experiment";
import { type Fault, INTACT, leg } from "../../bench/injected/fault";
import { alike, BenchMeter, type Scene } from "../../bench/injected/log";
import { Meter, Unpowered } from "../../bench/injected/meter";
import { backup, reset, tone } from "../../bench/injected/reset";
import { runDecks } from "../../bench/injected/spice";
import { supplies } from "../../bench/injected/supplies";
import { describeSpice } from "../ngspice/spice";

const demo = new URL("../../../demo/", import.meta.url);
const CONTROLLER = new URL("boards/regatta-controller.board.yaml", demo);
const DRIVER = new URL("boards/regatta-driver.board.yaml", demo);
const SHOP = new URL("mendlog.shop.yaml", demo);
const controller = readBoard(CONTROLLER);
const driver = readBoard(DRIVER);

const run = <T>({ deck, read }: Experiment<T>): T => read(runDecks([deck])[0]!);
const broken = (...edits: Fault["edits"]): Fault => ({ ...INTACT, id: "broken", edits });

describeSpice("simulated supplies", () => {
  const loaded = run(supplies(driver, INTACT));
  /** Volts of a winding's peak: 9 V and 24 V windings give a tenth more without load. */
  const peak = (volts: number) => volts * 1.1 * Math.SQRT2;

  test("an unloaded reservoir stands at the winding's peak less two drops", () => {
    // With the regulator's input open only the bleeder of 1 kohm is left: 13 mA, at which a big diode drops 0.6 V to 0.8 V.
    const { mean, ripple } = run(supplies(driver, broken({ kind: "bond", pin: "VR1.1" }))).rails.vraw5!;
    expect(mean + ripple / 2).toBeLessThan(peak(9) - 2 * 0.55);
    expect(mean + ripple / 2).toBeGreaterThan(peak(9) - 2 * 0.9);
    // A tenth of a volt is what is left of the charging.
    expect(ripple).toBeLessThan(0.2);
  });
  test("a loaded one falls between two charges by no more than I / (2 f C), and by half of that at least", () => {
    const { mean, ripple, hertz } = loaded.rails.vcoil!;
    const most = (mean / 22 + mean / 4700) / (2 * 50 * 4700e-6 * 1.15);
    expect(ripple).toBeLessThan(most);
    expect(ripple).toBeGreaterThan(most / 2);
    expect(hertz).toBe(100);
  });
  test("with one diode of the bridge open it ripples at the mains frequency, and by about twice as much", () => {
    const { ripple, hertz } = run(supplies(driver, broken({ kind: "leg", ref: "BR3", leg: "a", to: "open" })))
      .rails.vcoil!;
    expect(hertz).toBe(50);
    expect(ripple / loaded.rails.vcoil!.ripple).toBeGreaterThan(1.6);
    expect(ripple / loaded.rails.vcoil!.ripple).toBeLessThan(3);
  });
  test("an unsmoothed rail has the mean of a rectified sine, 2 / pi of its peak, less drops and copper", () => {
    const ideal = (2 / Math.PI) * 15.2 * Math.SQRT2;
    expect(loaded.rails.vlamp!.mean).toBeLessThan(ideal);
    expect(loaded.rails.vlamp!.mean).toBeGreaterThan(ideal - 2 * 1.1 - 6 * 0.15);
  });
  test("the zero-crossing line goes once a cycle", () => {
    expect(loaded.crossings).toBeCloseTo(50, 1);
  });
  test("a shorted diode draws far more than its fuse stands", () => {
    const { fuses } = run(supplies(driver, broken({ kind: "leg", ref: "BR1", leg: "b", to: "short" })));
    expect(fuses.F1).toBeGreaterThan(2 * 5);
    expect(loaded.fuses.F1).toBeLessThan(5);
  });
});

describeSpice("simulated drivers", () => {
  test("a coil's Darlington blocks at rest and saturates when it is asked for", () => {
    expect(run(drivers(driver, INTACT, false)).at("Q1.2")).toBeCloseTo(33.5, 0);
    const on = run(drivers(driver, INTACT, true));
    // A Darlington saturates at a junction and a little: 0.6 V to 1.2 V.
    expect(on.at("Q1.2")).toBeGreaterThan(0.6);
    expect(on.at("Q1.2")).toBeLessThan(1.2);
    // Two junctions above ground at its base, three at the pre-driver's.
    expect(on.at("Q1.1")).toBeGreaterThan(2 * 0.6);
    expect(on.at("U1.2") - on.at("Q1.1")).toBeGreaterThan(0.55);
    expect(on.at("U1.2") - on.at("Q1.1")).toBeLessThan(0.85);
  });
});

describeSpice("simulated reset, memory supply and tone", () => {
  test("reset is released when R5 and the gate's own input have charged C1 to 1.6 V", () => {
    // Thevenin: 5 V behind 10 kohm, and 5 V less a small diode behind the 21 kohm of an LS input, onto 11.5 uF.
    const [a, b] = [1 / 10e3, 1 / 21e3];
    const source = (5 * a + (5 - 0.5) * b) / (a + b);
    const delay = (11.5e-6 / (a + b)) * Math.log(source / (source - 1.6));
    const { delay: simulated, at } = run(reset(controller, INTACT));
    expect(simulated! / delay).toBeGreaterThan(0.93);
    expect(simulated! / delay).toBeLessThan(1.07);
    // The divider that sees the supply: a junction at Q1's base, and Q1 saturated.
    expect(at("Q1.2")).toBeGreaterThan(0.6);
    expect(at("Q1.2")).toBeLessThan(0.75);
    expect(at("Q1.3")).toBeLessThan(0.2);
  });
  test("a shorted C1 never lets go of reset, an open one holds nothing", () => {
    expect(run(reset(controller, broken({ kind: "short", from: "C1.1", to: "C1.2" }))).delay).toBeUndefined();
    expect(run(reset(controller, broken({ kind: "bond", pin: "C1.1" }))).delay).toBeLessThan(1e-3);
  });
  test("1 F loses I t / C in an hour, and without it the memory loses its supply", () => {
    const { on, off } = run(backup(controller, INTACT));
    expect(on).toBeGreaterThan(5 - 0.7);
    expect(on).toBeLessThan(5);
    expect(on - off).toBeCloseTo((10e-6 * 3580) / 1, 2);
    expect(run(backup(controller, broken({ kind: "bond", pin: "C2.1" }))).off).toBeLessThan(0.5);
  });
  test("the timer runs at 1 / (ln 2 (R18 + 2 R19) C8)", () => {
    const hertz = 1 / (Math.LN2 * (1500 + 2 * 8200) * 10e-9);
    expect(run(tone(controller, INTACT)) / hertz).toBeCloseTo(1, 1);
    expect(run(tone(controller, broken({ kind: "value", ref: "R19", factor: 2 }))) / hertz).toBeCloseTo(
      17.9 / 34.3,
      1,
    );
  });
});

describeSpice("the simulated meter", () => {
  function read(fault: Fault, kind: "diode" | "ohms", red: string, black: string): number {
    const meter = new Meter();
    const at = (pin: string) => leg(controller, fault, pin);
    const number = meter.ask(new Unpowered(controller, fault), { kind, red: at(red), black: at(black) });
    return meter.readings(runDecks(meter.decks()))[number]!;
  }
  test("a clamp reads kT/q ln(I / Is) and its own resistance", () => {
    const volts = 0.025865 * Math.log(1e-3 / 1.2e-13) + 5e-3;
    expect(read(INTACT, "diode", "TP4.1", "U12.3")).toBeCloseTo(volts, 2);
  });
  test("a pin open inside reads what else is on its net, alone overload", () => {
    const alone = broken({ kind: "bond", pin: "U12.3" });
    expect(read(alone, "diode", "TP4.1", "U12.3")).toBeGreaterThan(2.5);
    const two = broken({ kind: "bond", pin: "U4.9" });
    expect(read(two, "diode", "TP4.1", "U4.9")).toBeGreaterThan(0.5);
    expect(read(two, "diode", "TP4.1", "U4.9")).toBeLessThan(0.7);
  });
  test("a chip whose ground is open reads through its supply, a junction higher", () => {
    const lost = broken({ kind: "joint", pin: "U13.7" });
    // U13 pin 2 shares its net with another chip, whose ground is whole.
    expect(read(lost, "diode", "TP4.1", "U13.2")).toBeLessThan(0.7);
    expect(read(lost, "diode", "TP4.1", "U13.7")).toBeGreaterThan(0.5);
  });
  test("a resistor in place, and one that is open", () => {
    expect(read(INTACT, "ohms", "R10.1", "R10.2")).toBeCloseTo(62, 0);
    expect(read(broken({ kind: "bond", pin: "R10.1" }), "ohms", "R10.1", "R10.2")).toBeGreaterThan(1e6);
  });
});

describeSpice("boards without a fault", () => {
  const meter = new BenchMeter(SHOP);
  const sets = setsOf(controller, driver).map((set) => ({ ...set, faults: [] }));
  const { intact } = inject(sets, meter);
  const texts = new Map([CONTROLLER, DRIVER, SHOP].map((url) => [url.href, readFileSync(url, "utf8")]));
  const service = new Service({ read: async (uri) => texts.get(uri), list: async () => [...texts.keys()] });
  beforeAll(() => service.load());

  test.each(intact.map((one) => [one.set.name, one] as const))(
    "%s: no finding of error severity",
    (_, one) => {
      const uri = new URL(`logs/${one.log.split("\n")[2]!.replace("job: ", "")}.md`, demo).href;
      service.open(uri, one.log);
      const found = service.findings(uri).map(({ code, severity, message }) => ({ code, severity, message }));
      expect(service.view(uri)?.front.board).toBe(one.set.board.id);
      expect(found.filter(({ severity }) => severity === "error")).toEqual([]);
      expect(one.scene.symptoms).toEqual([]);
    },
  );

  test("scenes are alike where no reading tells them apart, and not where one does", () => {
    const drop = (value: number): Scene => ({
      symptoms: [],
      tables: [
        {
          heading: "Diode check",
          columns: ["Ref", "Pin", "Reading"],
          rows: [["U1", "1", { value, kind: "drop" }]],
        },
      ],
    });
    expect(alike(meter, drop(0.55), drop(0.56))).toBe(true);
    expect(alike(meter, drop(0.55), drop(0.65))).toBe(false);
    expect(alike(meter, drop(3.2), drop(3.1))).toBe(true);
    expect(alike(meter, drop(3.2), drop(0.55))).toBe(false);
  });
});
