// A bench with a broken board on it, to measure the diagnosis by. Not shipped, and written without the
// diagnosis's own figures. What is assumed, all of it without a source:
//
// - 86 % of the faults are in chips, each as likely as the next, whatever it is, where it sits, socketed or not;
//   6 % in transistors and diodes, 8 % in capacitors that stand on a signal.
// - A faulty chip shows 1 to 5 wrong signal pins, each number as likely. A fault has a main way of failing (a
//   short to ground 30 %, a leak to ground 20 %, an open or high pin 50 %); 7 of 10 of its pins fail that way, the
//   others in any. Capacitors short or leak. Faults that no reading shows are left out, as nothing could find them.
// - A short or leak pulls the whole net down. An open pin is seen on its own leg only; with `hidden` it is seen
//   only where no other chip or transistor stands on the net, since that one's clamp conducts for both.
// - Ground and the rails are sound: they were measured before anything else, as on any bench.
// - Sound pins drop 0.58 V, spread 0.03 V, the same on all pins of a net; the technician calls less than 0.4 V
//   low and more than 0.7 V high. One reading in a hundred is of the neighbouring pin.
// - One symptom is of the faulty part's circuit; one in twenty is of a circuit that only shares a net with it.
//   The technician reads the signal pins of the chips and transistors of the symptom's circuits, leaving out 1 in 10.
import type { Board, Net } from "../../../server/src/knowledge/types";
import { random } from "./random";

export type Mode = "short" | "leak" | "open";

export interface Fault {
  readonly ref: string;
  /** By pin number. */
  readonly pins: ReadonlyMap<string, Mode>;
}

export interface Read {
  readonly ref: string;
  readonly pin: string;
  /** Volts; infinity for open. */
  readonly value: number;
  readonly verdict: "low" | "high" | "within";
}

export interface Symptom {
  readonly symptom?: string;
  readonly circuits: readonly string[];
}

export interface Bench {
  readonly faults: readonly Fault[];
  readonly symptoms: readonly Symptom[];
  /** A diode check of one pin. */
  read(ref: string, pin: string): Read;
  /** The net's low reading is gone with the part off it. */
  clearedBy(ref: string, net: string): boolean;
  /** The readings a technician takes before thinking. */
  firstReadings(): Read[];
}

export interface SimOptions {
  readonly seed: number;
  readonly faults: 1 | 2;
  readonly hidden?: boolean;
}

interface Wiring {
  /** Signal pins by designator: pin number to net. */
  readonly pins: ReadonlyMap<string, ReadonlyMap<string, Net>>;
  readonly chips: readonly string[];
  readonly discretes: readonly string[];
  readonly capacitors: readonly string[];
}

export function wiringOf(board: Board): Wiring {
  const supplies = new Set([...board.grounds, ...[...board.rails.values()].flatMap(({ net }) => net ?? [])]);
  const pins = new Map<string, Map<string, Net>>();
  for (const net of board.nets.values()) {
    if (supplies.has(net.name)) continue;
    for (const { ref, pin } of net.pins)
      pins.set(ref, (pins.get(ref) ?? new Map<string, Net>()).set(pin, net));
  }
  const refs = [...board.parts.keys()].filter((ref) => pins.has(ref));
  return {
    pins,
    chips: refs.filter((ref) => /^U\d/.test(ref)),
    discretes: refs.filter((ref) => /^[QD]\d/.test(ref)),
    capacitors: refs.filter((ref) => /^C\d/.test(ref)),
  };
}

export function bench(board: Board, options: SimOptions): Bench {
  const rng = random(options.seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(rng() * list.length)]!;
  const wiring = wiringOf(board);
  const pinsOf = (ref: string): ReadonlyMap<string, Net> => wiring.pins.get(ref) ?? new Map();
  const semiconductors = new Set([...wiring.chips, ...wiring.discretes]);

  const visible = (ref: string, net: Net, mode: Mode): boolean => {
    const others = net.pins.filter((pin) => pin.ref !== ref && semiconductors.has(pin.ref));
    if (mode === "open") return semiconductors.has(ref) && (!options.hidden || others.length === 0);
    return semiconductors.has(ref) || others.length > 0;
  };

  const draw = (): Fault => {
    const kind = rng();
    const ref = pick(kind < 0.86 ? wiring.chips : kind < 0.92 ? wiring.discretes : wiring.capacitors);
    const mode = (): Mode => {
      const m = rng();
      if (/^C/.test(ref)) return m < 0.5 ? "short" : "leak";
      return m < 0.3 ? "short" : m < 0.5 ? "leak" : "open";
    };
    const main = mode();
    const left = [...pinsOf(ref).keys()];
    const count = Math.min(left.length, /^C/.test(ref) ? 1 : 1 + Math.floor(rng() * 5));
    const pins = new Map<string, Mode>();
    for (let i = 0; i < count; i += 1) {
      const [pin = ""] = left.splice(Math.floor(rng() * left.length), 1);
      pins.set(pin, rng() < 0.7 ? main : mode());
    }
    return [...pins].some(([pin, how]) => visible(ref, pinsOf(ref).get(pin)!, how)) ? { ref, pins } : draw();
  };

  const faults: Fault[] = [draw()];
  while (faults.length < options.faults) {
    const next = draw();
    if (next.ref !== faults[0]!.ref) faults.push(next);
  }

  /** The first designator's fault that pulls a net down, strongest first. */
  const pulls = (net: Net, without?: string): Mode | undefined => {
    const modes = faults.flatMap(({ ref, pins }) =>
      ref === without
        ? []
        : [...pins].filter(([pin]) => pinsOf(ref).get(pin) === net).map(([, mode]) => mode),
    );
    return modes.find((mode) => mode === "short") ?? modes.find((mode) => mode === "leak");
  };

  const drops = new Map<string, number>();
  const gauss = (): number => Math.sqrt(-2 * Math.log(1 - rng())) * Math.cos(2 * Math.PI * rng());
  const once = (key: string, value: () => number): number => {
    const known = drops.get(key) ?? value();
    drops.set(key, known);
    return known;
  };

  const valueAt = (ref: string, pin: string): number => {
    const net = pinsOf(ref).get(pin);
    // A slip may land on ground, a rail, or a pin that goes nowhere.
    if (!net) return once(`${ref}.${pin}`, () => pick([0, 0.45, Number.POSITIVE_INFINITY]));
    const low = pulls(net);
    if (low === "short") return once(`short ${net.name}`, () => 0.03 * rng());
    if (low === "leak") return once(`leak ${net.name}`, () => 0.12 + 0.23 * rng());
    const fault = faults.find((f) => f.ref === ref && f.pins.get(pin) === "open");
    if (fault && visible(ref, net, "open")) {
      return once(`open ${ref}.${pin}`, () => (rng() < 0.5 ? Number.POSITIVE_INFINITY : 0.85 + 0.75 * rng()));
    }
    return once(net.name, () => 0.58 + 0.03 * gauss());
  };

  const read = (ref: string, pin: string): Read => {
    const slip = rng() < 0.01 && /^\d+$/.test(pin) && Number(pin) > 1;
    const value = valueAt(ref, slip ? String(Number(pin) - 1) : pin);
    return { ref, pin, value, verdict: value < 0.4 ? "low" : value > 0.7 ? "high" : "within" };
  };

  const symptoms = faults.flatMap(({ ref }, i): Symptom[] => {
    // The second fault of a board is noticed by itself three times in five.
    if (i > 0 && rng() < 0.4) return [];
    const neighbours = [...pinsOf(ref).values()].flatMap((net) =>
      net.pins.flatMap((pin) => board.parts.get(pin.ref)?.circuit ?? []),
    );
    const misleading = rng() < 0.05 && neighbours.length > 0;
    const circuit = misleading ? pick(neighbours) : (board.parts.get(ref)?.circuit ?? "");
    const known = [...board.symptoms.values()].filter(({ circuits }) => circuits.includes(circuit));
    if (known.length === 0) return [{ circuits: [circuit] }];
    const symptom = pick(known);
    return [{ symptom: symptom.id, circuits: symptom.circuits }];
  });

  const firstReadings = (): Read[] => {
    const circuits = new Set(symptoms.flatMap((symptom) => symptom.circuits));
    return [...semiconductors]
      .filter((ref) => circuits.has(board.parts.get(ref)?.circuit ?? ""))
      .flatMap((ref) => [...pinsOf(ref).keys()].map((pin) => ({ ref, pin })))
      .filter(() => rng() >= 0.1)
      .map(({ ref, pin }) => read(ref, pin));
  };

  return {
    faults,
    symptoms,
    read,
    clearedBy: (ref, name) => {
      const net = board.nets.get(name);
      return net !== undefined && pulls(net) !== undefined && pulls(net, ref) === undefined;
    },
    firstReadings,
  };
}
