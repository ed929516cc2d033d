// The parts of a board as elements of a netlist, each with the edits of a fault in it. Model parameters are from
// memory, of the size published for such parts; what a meter reads of a chip's pins is common practice, no source.
import { type Board, type Part, pinsOf, sizeOf } from "./board";
import { CHIPS } from "./chips";
import { die, type Fault, factorOf, leg } from "./fault";

/** One line of a netlist. The nodes are those that it joins; `tail` is its value or model. */
export interface Element {
  readonly name: string;
  readonly nodes: readonly string[];
  readonly tail: string;
}

export const MODELS: readonly string[] = [
  ".model small d(is=2.5n n=1.75 rs=0.6)",
  ".model power d(is=14n n=1.98 rs=0.03 cjo=50p)",
  ".model bridge d(is=30n n=1.9 rs=0.01 cjo=2n)",
  ".model zen39 d(is=2.5n n=1.75 rs=0.6 bv=3.9 ibv=5m nbv=3)",
  ".model led d(is=1e-18 n=1.9 rs=2)",
  ".model n3904 npn(is=6.7f bf=400 br=0.7 rb=10 rc=1 ise=6.7f ne=1.26)",
  ".model n4401 npn(is=26f bf=255 br=4 rb=1 rc=0.5 ise=82f ne=1.28)",
  ".model p4403 pnp(is=650e-18 bf=180 br=2.6 rb=10 rc=0.7)",
  ".model dn1 npn(is=5e-14 bf=60 br=1 rb=1)",
  ".model dn2 npn(is=1e-13 bf=40 br=1 rb=0.2)",
  ".model dp1 pnp(is=5e-14 bf=60 br=1 rb=1)",
  ".model dp2 pnp(is=1e-13 bf=40 br=1 rb=0.2)",
  // Ground to a pin, at 1 mA: 0.55 V of LS and bipolar inputs, 0.59 V of the big open collectors, 0.57 V of MOS.
  ".model jls d(is=5.5e-13 n=1 rs=5)",
  ".model joc d(is=1.2e-13 n=1 rs=5)",
  ".model jmos d(is=2.6e-13 n=1 rs=5)",
  // Ground to the supply pin of one chip: its substrate, a large area.
  ".model jsub d(is=5e-12 n=1 rs=3)",
];

/** Ohms of the meter's leakage where nothing else joins a node to ground. */
const LEAK = "1g";

/** Series resistance of a capacitor that is in order, ohms (common practice, no source). */
const esrOf = (farads: number): number =>
  farads >= 0.1 ? 25 : farads >= 1e-3 ? 0.05 : farads >= 5e-5 ? 0.35 : farads >= 5e-7 ? 1.5 : 0.05;

const DIODES: Readonly<Record<string, string>> = { "1N4148": "small", "1N4004": "power", zener: "zen39" };
const NPN: Readonly<Record<string, string>> = { "2N3904": "n3904", "2N4401": "n4401" };
/** Volts and dropout of regulators; the pins are input, output, ground. */
export const REGULATORS: Readonly<
  Record<string, { volts: number; drop: number; pins: [number, number, number] }>
> = {
  LM323K: { volts: 5, drop: 1.7, pins: [1, 2, 3] },
  "7812": { volts: 12, drop: 1.8, pins: [1, 3, 2] },
  "7912": { volts: -12, drop: 1.4, pins: [2, 3, 1] },
};

/** A part's elements, unpowered and as far as they are the same powered. Chips give their junctions. */
export function elementsOf(board: Board, fault: Fault, part: Part): Element[] {
  const { ref, device, value } = part;
  const at = (pin: number) => die(board, fault, `${ref}.${pin}`);
  const id = ref.toLowerCase();
  const name = (letter: string, n = "") => `${letter}${id}${n}`;
  if (device !== undefined) {
    const diode = DIODES[device];
    // Pin 1 is the banded end on both demo boards.
    if (diode) return [{ name: name("d"), nodes: [at(2), at(1)], tail: diode }];
    const npn = NPN[device];
    if (npn) return [{ name: name("q"), nodes: [at(3), at(2), at(1)], tail: npn }];
    if (device === "2N4403") return [{ name: name("q"), nodes: [at(3), at(2), at(1)], tail: "p4403" }];
    if (device === "TIP102" || device === "TIP107") return darlington(name, device === "TIP102", at);
    if (device === "bridge-rectifier") return bridge(fault, ref, at);
    const chip = CHIPS[device];
    if (chip) return junctions(board, fault, part);
    return [];
  }
  if (value === undefined) return [];
  const kind = /^[A-Z]+/.exec(ref)?.[0];
  if (kind === "R")
    return [{ name: name("r"), nodes: [at(1), at(2)], tail: amount(sizeOf(value) * factorOf(fault, ref)) }];
  if (kind === "C") return capacitor(fault, ref, value, at);
  if (kind === "RN") return network(ref, value, at);
  if (kind === "F") return [{ name: name("r"), nodes: [at(1), at(2)], tail: "0.03" }];
  if (kind === "K") return [{ name: name("r"), nodes: [at(1), at(2)], tail: "240" }];
  if (kind === "RV")
    return [
      { name: name("r", "a"), nodes: [at(1), at(2)], tail: "5k" },
      { name: name("r", "b"), nodes: [at(2), at(3)], tail: "5k" },
    ];
  if (kind === "LED") return [{ name: name("d"), nodes: [at(2), at(1)], tail: "led" }];
  return [];
}

function bridge(fault: Fault, ref: string, at: (pin: number) => string): Element[] {
  const ends = { a: [2, 1], b: [3, 1], c: [4, 2], d: [4, 3] } as const;
  return Object.entries(ends).flatMap(([leg, pins]) => {
    const edit = fault.edits.find((one) => one.kind === "leg" && one.ref === ref && one.leg === leg);
    const nodes = pins.map(at);
    const id = `${ref.toLowerCase()}${leg}`;
    if (edit?.kind !== "leg") return [{ name: `d${id}`, nodes, tail: "bridge" }];
    return edit.to === "open" ? [] : [{ name: `r${id}`, nodes, tail: "0.05" }];
  });
}

function darlington(
  name: (letter: string, n?: string) => string,
  npn: boolean,
  at: (pin: number) => string,
): Element[] {
  const [b, c, e] = [at(1), at(2), at(3)];
  const mid = name("m");
  const letter = npn ? "n" : "p";
  return [
    { name: name("q", "a"), nodes: [c, b, mid], tail: `d${letter}1` },
    { name: name("q", "b"), nodes: [c, mid, e], tail: `d${letter}2` },
    { name: name("r", "a"), nodes: [b, mid], tail: "8k" },
    { name: name("r", "b"), nodes: [mid, e], tail: "120" },
    { name: name("d", "a"), nodes: npn ? [e, c] : [c, e], tail: "power" },
  ];
}

function capacitor(fault: Fault, ref: string, value: string, at: (pin: number) => string): Element[] {
  const farads = sizeOf(value);
  const esr = fault.edits.find((edit) => edit.kind === "esr" && edit.ref === ref);
  const ohms = esr?.kind === "esr" ? esr.ohms : esrOf(farads);
  const id = ref.toLowerCase();
  // Aluminium electrolytics are made with more than is printed: -10 % to +50 % (common practice, no source).
  const made = farads >= 1e-6 && farads < 0.1 ? 1.15 : 1;
  return [
    { name: `c${id}`, nodes: [at(1), `m${id}`], tail: amount(farads * made * factorOf(fault, ref)) },
    { name: `re${id}`, nodes: [`m${id}`, at(2)], tail: amount(ohms) },
  ];
}

function network(ref: string, value: string, at: (pin: number) => string): Element[] {
  const found = /^(\d+) x (\S+?),/.exec(value);
  if (!found) throw new Error(`no network in "${value}"`);
  const [, count = "", each = ""] = found;
  const common = value.includes("common");
  const ends = (n: number) => (common ? [1, n + 1] : [n, 2 * Number(count) + 1 - n]);
  return Array.from({ length: Number(count) }, (_, i) => ({
    name: `r${ref.toLowerCase()}_${i + 1}`,
    nodes: ends(i + 1).map(at),
    tail: amount(sizeOf(each)),
  }));
}

/** What a meter meets between a chip's pins: clamps to its own ground, and its substrate to the supply. */
function junctions(board: Board, fault: Fault, { ref, device }: Part): Element[] {
  const chip = CHIPS[device!]!;
  const at = (pin: number) => die(board, fault, `${ref}.${pin}`);
  const id = ref.toLowerCase();
  const elements: Element[] = [];
  const [ground] = chip.ground;
  for (const other of chip.ground.slice(1))
    elements.push({ name: `r${id}_g${other}`, nodes: [at(ground!), at(other)], tail: "0.1" });
  for (const supply of chip.supply)
    elements.push(
      { name: `d${id}_s${supply}`, nodes: [at(ground!), at(supply)], tail: "jsub" },
      { name: `r${id}_s${supply}`, nodes: [at(supply), at(ground!)], tail: chip.mos ? "200k" : "9k" },
    );
  for (const number of pinsOf(board, ref)) {
    if (chip.ground.includes(number) || chip.supply.includes(number)) continue;
    const model = chip.open?.includes(number) ? "joc" : chip.mos ? "jmos" : "jls";
    elements.push({ name: `d${id}_${number}`, nodes: [at(ground!), at(number)], tail: model });
    for (const edit of fault.edits)
      if (edit.kind === "burnt" && edit.pin === `${ref}.${number}`)
        elements.push({
          name: `r${id}_b${number}`,
          nodes: [at(number), edit.level === 0 ? at(ground!) : at(chip.supply[0]!)],
          tail: "4",
        });
  }
  return elements;
}

/** Shorts between pins, as the fault has them. */
export const shortsOf = (board: Board, fault: Fault): Element[] =>
  fault.edits.flatMap((edit, i) =>
    edit.kind === "short"
      ? [
          {
            name: `rshort${i}`,
            nodes: [leg(board, fault, edit.from), leg(board, fault, edit.to)],
            tail: amount(edit.ohms ?? 0.3),
          },
        ]
      : [],
  );

export const amount = (value: number): string => String(Number(value.toPrecision(9)));

/** @param suffix put behind each name and node but ground, so that several copies can stand in one circuit */
export const line = ({ name, nodes, tail }: Element, suffix = ""): string =>
  [`${name}${suffix}`, ...nodes.map((node) => (node === "0" ? node : `${node}${suffix}`)), tail].join(" ");

/** Elements of all parts for which `wanted` says yes, with the shorts. */
export const netlist = (board: Board, fault: Fault, wanted: (part: Part) => boolean): Element[] => [
  ...[...board.parts.values()].filter(wanted).flatMap((part) => elementsOf(board, fault, part)),
  ...shortsOf(board, fault),
];

/** A leak to ground at each node, so that none hangs in the air. */
export const leaks = (elements: readonly Element[]): string[] =>
  [...new Set(elements.flatMap(({ nodes }) => nodes))]
    .filter((node) => node !== "0")
    .map((node) => `rleak_${node} ${node} 0 ${LEAK}`);
