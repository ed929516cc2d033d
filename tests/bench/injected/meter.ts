// What a meter reads on the unpowered board: the circuit that can be reached from its leads, with the supplies standing
// for all that hangs on them. Each circuit is simulated once, with the meter at one place after the other.
import { type Board, type Part, pinsOf } from "./board";
import { amount, type Element, elementsOf, line, MODELS, shortsOf } from "./elements";
import type { Fault } from "./fault";
import type { Deck, Results } from "./spice";

/** The meter: 1 mA as long as that takes no more than its own voltage. */
const TEST_VOLTS = 3.2;
/** Ohms are measured at a voltage that no junction conducts at, behind this many ohms. */
const OHMS_VOLTS = 0.2;
const OHMS_SOURCE = 1000;
const CAPACITANCE_HERTZ = 100;
const ESR_HERTZ = 20e3;

export interface Probe {
  readonly kind: "diode" | "ohms" | "farads" | "esr";
  readonly red: string;
  readonly black: string;
}

/** Ohms to ground of all else that hangs on a supply, of either demo board. Invented, like the boards. */
const HUBS: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  "regatta-controller": { vcc: 320, v12: 11.8e3 },
  "regatta-driver": { vcc: 212, v12: 6.2e3, vneg12: 7.9e3 },
};

/** Nets that many alike channels hang on: what lies beyond them does not change what is read on this side. */
const COMMON: Readonly<Record<string, readonly string[]>> = {
  "regatta-driver": ["vcoil_sw", "pre_c", "pull_up", "vlamp"],
};

/** The netlist of one board with one fault, to be probed. */
export class Unpowered {
  readonly #elements: Element[];
  readonly #passive: Element[];
  readonly #shorts: Element[];
  readonly #byNode = new Map<string, Element[]>();
  readonly #hubs: Readonly<Record<string, number>>;
  readonly #common: readonly string[];

  constructor(board: Board, fault: Fault) {
    this.#hubs = HUBS[board.id] ?? {};
    this.#common = COMMON[board.id] ?? [];
    this.#shorts = shortsOf(board, fault);
    const of = (wanted: (part: Part) => boolean) => [
      ...[...board.parts.values()].filter(wanted).flatMap((part) => elementsOf(board, fault, part)),
      ...this.#shorts,
    ];
    this.#elements = of((part) => pinsOf(board, part.ref).length > 0);
    this.#passive = of(({ ref }) => /^(R|C|RN)\d/.test(ref));
    for (const element of this.#elements)
      for (const node of new Set(element.nodes)) {
        const on = this.#byNode.get(node);
        if (on) on.push(element);
        else this.#byNode.set(node, [element]);
      }
  }

  /** Lines of the circuit that a probe meets. */
  circuit({ kind, red, black }: Probe): Element[] {
    const steady = kind === "diode" || kind === "ohms";
    const found = new Set<Element>();
    const nodes = new Set([red, black]);
    const stop = (node: string) => node === "0" || node in this.#hubs;
    if (steady) {
      const queue = [red, black];
      for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
        if (stop(node)) continue;
        const beyond = this.#common.includes(node) && node !== red && node !== black;
        for (const element of this.#byNode.get(node) ?? []) {
          if (beyond && !this.#shorts.includes(element)) continue;
          // No direct current goes through a capacitor.
          if (element.name.startsWith("c")) continue;
          found.add(element);
          for (const next of element.nodes)
            if (!nodes.has(next)) {
              nodes.add(next);
              queue.push(next);
            }
        }
      }
    } else
      for (const element of this.#passive) {
        found.add(element);
        for (const node of element.nodes) nodes.add(node);
      }
    for (const short of this.#shorts)
      if (short.nodes.every((node) => node === "0" || nodes.has(node))) found.add(short);
    const hubs = [...nodes].filter((node) => node in this.#hubs);
    return [
      ...found,
      ...hubs.map((node) => ({ name: `rhub_${node}`, nodes: [node, "0"], tail: amount(this.#hubs[node]!) })),
      ...[...nodes]
        .filter((node) => node !== "0")
        .map((node) => ({ name: `rleak_${node}`, nodes: [node, "0"], tail: "1g" })),
    ];
  }
}

interface Circuit {
  readonly lines: readonly string[];
  readonly probes: Probe[];
  /** Numbers of the readings, beside the probes. */
  readonly numbers: number[];
  /** Whether its leads see alternating current. */
  readonly alternating: boolean;
}

/** Takes probes of any boards, each circuit once, and gives decks and what they read. */
export class Meter {
  readonly #circuits = new Map<string, Circuit>();
  #count = 0;

  /** A number by which the reading is found afterwards. */
  ask(board: Unpowered, probe: Probe): number {
    const lines = board
      .circuit(probe)
      .map((element) => line(element))
      .sort();
    const alternating = probe.kind === "farads" || probe.kind === "esr";
    const key = `${alternating}\n${lines.join("\n")}`;
    let circuit = this.#circuits.get(key);
    if (!circuit) {
      circuit = { lines, probes: [], numbers: [], alternating };
      this.#circuits.set(key, circuit);
    }
    const known = circuit.probes.findIndex(
      ({ kind, red, black }) => kind === probe.kind && red === probe.red && black === probe.black,
    );
    if (known >= 0) return circuit.numbers[known]!;
    circuit.probes.push(probe);
    circuit.numbers.push(this.#count);
    this.#count += 1;
    return this.#count - 1;
  }

  decks(): Deck[] {
    return [...this.#circuits.values()].map(({ lines, probes, alternating }) => ({
      lines: [...MODELS, ...lines, ...probes.map(alternating ? current : source)],
      commands: probes.flatMap(alternating ? measureAlternating : measureSteady),
    }));
  }

  /** Readings by number, of the decks' results: volts, ohms or farads; what the meter cannot show is infinite. */
  readings(results: readonly Results[]): number[] {
    const read = new Array<number>(this.#count).fill(Number.NaN);
    [...this.#circuits.values()].forEach(({ probes, numbers }, c) => {
      probes.forEach((probe, i) => {
        read[numbers[i]!] = reading(probe, i, results[c]!);
      });
    });
    return read;
  }
}

const between = ({ red, black }: Probe): string =>
  black === "0" ? `v(${red})` : red === "0" ? `-v(${black})` : `v(${red})-v(${black})`;

/** The meter at one place, let go until its turn: what `vz` switches on. */
function source(probe: Probe, i: number): string {
  const { kind, red, black } = probe;
  const across = `(${between(probe)})`;
  const amperes =
    kind === "diode"
      ? `0.5m*(1+tanh(8*(${TEST_VOLTS}-${across})))`
      : `(${OHMS_VOLTS}-${across})/${OHMS_SOURCE}`;
  return `vz${i} z${i} 0 0\nrz${i} z${i} 0 1\nbz${i} ${black} ${red} i=v(z${i})*${amperes}`;
}

const measureSteady = (probe: Probe, i: number): string[] => [
  `alter vz${i} dc=1`,
  "op",
  `let r${i}=${between(probe)}`,
  `print r${i}`,
  `alter vz${i} dc=0`,
];

/** One ampere of alternating current, so that the volts are ohms. */
const current = ({ red, black }: Probe, i: number): string => `iz${i} ${black} ${red} dc 0 ac 0`;

const measureAlternating = (probe: Probe, i: number): string[] => {
  const hertz = probe.kind === "farads" ? CAPACITANCE_HERTZ : ESR_HERTZ;
  return [
    `alter @iz${i}[acmag]=1`,
    `ac lin 1 ${hertz} ${hertz}`,
    `let re${i}=real(${between(probe)})`,
    `let im${i}=imag(${between(probe)})`,
    `print re${i}`,
    `print im${i}`,
    `alter @iz${i}[acmag]=0`,
  ];
};

function reading({ kind }: Probe, i: number, found: Results): number {
  const value = (name: string): number => {
    const result = found.get(`${name}${i}`);
    if (result === undefined) throw new Error(`ngspice gave no ${name}${i}`);
    return result;
  };
  if (kind === "diode") return value("r");
  if (kind === "ohms") {
    const across = value("r");
    return (OHMS_SOURCE * across) / Math.max(1e-12, OHMS_VOLTS - across);
  }
  return kind === "esr" ? value("re") : -1 / (2 * Math.PI * CAPACITANCE_HERTZ * value("im"));
}
