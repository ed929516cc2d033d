// What is read of a driver board: its supplies, then its coil and lamp channels.

import type { Board } from "./board";
import { type Drivers, drivers } from "./drivers";
import type { Fault } from "./fault";
import { type Cell, hertz, ripple, type Scene, type Table, volts } from "./log";
import { type Later, type Recipe, type Step, Unplugged } from "./plan";
import { type Supplies, supplies } from "./supplies";

const FUSE_AMPS: Readonly<Record<string, number>> = { F1: 5, F2: 1, F3: 1, F4: 4, F5: 8 };
const RAILS = { "+5V": "vcc", "+12V": "v12", "-12V": "vneg12", Coils: "vcoil", "+5V raw": "vraw5" } as const;
const MEASURED = [
  ["+5V", "vcc"],
  ["+12V", "v12"],
  ["-12V", "vneg12"],
  ["+5V raw", "vraw5"],
  ["Coils", "vcoil"],
  ["Lamps", "vlamp"],
] as const;

function symptomsOf({ rails, crossings }: Supplies, blown: readonly string[]): string[] {
  const five = rails.vcc!;
  return [
    ...(blown.includes("F1") ? ["fuse-f1"] : []),
    ...(blown.includes("F4") ? ["fuse-f4"] : []),
    ...(!blown.includes("F1") && (five.mean < 4.75 || five.ripple > 0.2) ? ["logic-supply-low"] : []),
    ...(five.mean > 4.75 && crossings === 0 ? ["no-zero-crossing"] : []),
    ...(rails.vcoil!.mean < 15 && !blown.includes("F4") ? ["all-coils-dead"] : []),
  ];
}

/** @param parts whether capacitors and rectifiers were read one by one besides */
export const supplyRecipe =
  (parts: boolean): Recipe =>
  (board, fault) =>
  (session) => {
    const unplugged = new Unplugged(session, board, fault);
    const ground = unplugged.rails(RAILS);
    const one = parts
      ? [
          unplugged.capacitors(["C1", "C2", "C3", "C4", "C5", "C6", "C7"]),
          unplugged.drops([
            "BR1.1",
            "BR1.2",
            "BR1.3",
            "BR3.1",
            "BR3.2",
            "BR3.3",
            "BR4.1",
            "BR4.2",
            "BR4.3",
            "Q51.2",
            "Q51.3",
          ]),
          unplugged.resistors(["R1", "R2", "R3", "R4"]),
        ]
      : [];
    const powered = session.run(supplies(board, fault));
    return () => {
      const tables = [ground(), ...one.map((table) => table())];
      if (ground.shorted()) return { symptoms: [], tables };
      const found = powered();
      const blown = Object.entries(FUSE_AMPS)
        .filter(([ref, amps]) => found.fuses[ref]! > 2 * amps)
        .map(([ref]) => ref);
      if (blown.length === 0) return supplyScene(found, blown, tables, board, fault);
      const again: Step = (next) => {
        const later = next.run(supplies(board, fault, blown));
        return () => supplyScene(later(), blown, tables, board, fault);
      };
      return again;
    };
  };

function supplyScene(
  found: Supplies,
  blown: readonly string[],
  before: readonly Table[],
  board: Board,
  fault: Fault,
): Scene {
  const burnt = (ref: string) => blown.includes(ref) || isOpen(board, fault, ref);
  const rows: Cell[][] = MEASURED.map(([name, node]) => {
    const { mean, ripple: size, hertz: at } = found.rails[node]!;
    const smooth = name === "Lamps";
    return [name, volts(mean), smooth ? "" : ripple(size), at === undefined || size < 0.1 ? "" : `${at} Hz`];
  });
  return {
    symptoms: symptomsOf(found, blown),
    tables: [
      {
        heading: "Inspection",
        columns: ["Item", "Result"],
        rows: Object.keys(FUSE_AMPS).map((ref) => [ref, burnt(ref) ? "burnt" : "ok"]),
      },
      ...before,
      { heading: "Supply rails, loaded", columns: ["Rail", "Reading", "Ripple", "Ripple frequency"], rows },
      {
        heading: "Frequency",
        columns: ["Ref", "Pin", "Reading"],
        rows: [["Q51", "3", hertz(found.crossings)]],
      },
    ],
  };
}

/** A fuse that has lost one of its ends is seen to be blown. */
const isOpen = (_: Board, fault: Fault, ref: string): boolean =>
  fault.edits.some((edit) => edit.kind === "bond" && edit.pin.startsWith(`${ref}.`));

// Coils and lamps.

type Block = "coil" | "row" | "column";
interface Channel {
  readonly block: Block;
  readonly n: number;
  readonly power: string;
  readonly small: string | undefined;
  readonly resistors: readonly string[];
  readonly diode: string | undefined;
  /** Pins of the buffer: in, out. */
  readonly buffer: readonly [string, string];
}

const buffered = (board: Board, net: string): string => board.nets.get(net)!.find((pin) => /^U\d/.test(pin))!;

function channels(board: Board): Channel[] {
  const eight = [1, 2, 3, 4, 5, 6, 7, 8];
  const buffer = (from: string, to: string) => [buffered(board, from), buffered(board, to)] as const;
  return [
    ...eight.map((n) => ({
      block: "coil" as const,
      n,
      power: `Q${n}`,
      small: `Q1${n}`,
      resistors: [`R1${n}`],
      diode: `D${n}`,
      buffer: buffer(`COIL_${n}`, `CP_${n}`),
    })),
    ...eight.map((n) => ({
      block: "row" as const,
      n,
      power: `Q2${n}`,
      small: undefined,
      resistors: [],
      diode: undefined,
      buffer: buffer(`LAMP_ROW_${n}`, `LR_${n}`),
    })),
    ...eight.map((n) => ({
      block: "column" as const,
      n,
      power: `Q4${n}`,
      small: `Q3${n}`,
      resistors: [`R3${n}`, `R4${n}`],
      diode: undefined,
      buffer: buffer(`LAMP_COL_${n}`, `LC_${n}`),
    })),
  ];
}

/** Where the load hangs on. */
const outputOf = ({ block, n }: Channel): string =>
  block === "coil" ? `J5.${n}` : block === "row" ? `J6.${n}` : `J6.${n + 10}`;

/** Dead with `on`, stuck with `off`: whether the load carries half of what it should. */
function conducts(channel: Channel, found: Drivers): boolean {
  const at = found.at(outputOf(channel));
  return channel.block === "coil" ? at < 16 : channel.block === "row" ? at < 6.5 : at > 6.5;
}

const SYMPTOMS: Readonly<Record<Block, readonly [dead: string, stuck: string]>> = {
  coil: ["coil-dead", "coil-stuck"],
  row: ["lamp-row-dead", "lamp-row-lit"],
  column: ["lamp-column-dead", "lamp-column-dead"],
};

export const driverRecipe: Recipe = (board, fault) => (session) => {
  const all = channels(board);
  const unplugged = new Unplugged(session, board, fault);
  const ground = unplugged.rails({ "+5V": "vcc", "+12V": "v12", Coils: "vcoil", Lamps: "vlamp" });
  const off = session.run(drivers(board, fault, false));
  const on = session.run(drivers(board, fault, true));
  return () => {
    if (ground.shorted()) return { symptoms: [], tables: [ground()] };
    const [rest, asked] = [off(), on()];
    const dead = all.filter((channel) => !conducts(channel, asked));
    const stuck = all.filter((channel) => conducts(channel, rest));
    return channelScene(board, fault, all, { dead, stuck }, rest, asked, [ground()]);
  };
};

function channelScene(
  board: Board,
  fault: Fault,
  all: readonly Channel[],
  { dead, stuck }: { readonly dead: readonly Channel[]; readonly stuck: readonly Channel[] },
  rest: Drivers,
  asked: Drivers,
  before: readonly Table[],
): Step {
  const wrong = [...new Set([...dead, ...stuck])];
  // A sister is read beside each that is wrong; where many are, what they share is read and one of each kind.
  const many = wrong.length > 2;
  const looked = many
    ? [...new Map(wrong.map((one) => [one.block, one])).values()]
    : wrong.length > 0
      ? wrong
      : all.slice(0, 1);
  const sisters = looked.flatMap((one) =>
    all.filter(({ block, n }) => block === one.block && (n === one.n || n === (one.n % 8) + 1)),
  );
  return (session) => {
    const unplugged = new Unplugged(session, board, fault);
    const shared = many ? ["Q52", "Q53", "Q54"] : [];
    const wanted = [...new Set(sisters)];
    const chips = [...new Set(wanted.map(({ buffer }) => buffer[0].split(".")[0]!))].sort();
    const parts: Later<Table>[] = [
      unplugged.junctions([
        ...wanted.flatMap(({ power, small }) => [power, ...(small ? [small] : [])]),
        ...shared,
      ]),
      unplugged.drops(wanted.filter(({ block }) => block !== "column").map(({ power }) => `${power}.2`)),
      unplugged.rectifiers([
        ...wanted.flatMap(({ diode }) => (diode ? [diode] : [])),
        ...(many ? ["D11"] : []),
      ]),
      unplugged.resistors([
        ...wanted.flatMap(({ resistors }) => resistors),
        ...(many ? ["R5", "R6", "R7", "R8", "R9", "R10"] : []),
        "R19",
      ]),
      unplugged.diodes(chips),
      ...(many ? [unplugged.coils([{ ref: "K1", from: "K1.1", to: "K1.2" }])] : []),
    ];
    return () => {
      const blocks = new Set(wrong.map(({ block }) => block));
      const level = (found: Drivers, pin: string): Cell[] => [...pin.split("."), volts(found.at(pin))];
      const pinsRead = [
        ...wanted.flatMap(({ power, buffer }) => [buffer[0], buffer[1], `${power}.1`, `${power}.2`]),
        ...(many ? ["Q53.3", "Q54.3", "Q52.3"] : []),
      ];
      const lines = (found: Drivers) => pinsRead.map((pin) => level(found, pin));
      const lamps = blocks.has("row") || blocks.has("column") ? [grid(all, dead, stuck)] : [];
      const symptoms = new Set([
        ...dead.map(({ block }) => SYMPTOMS[block][0]),
        ...stuck.map(({ block }) => SYMPTOMS[block][1]),
      ]);
      if (dead.filter(({ block }) => block === "coil").length > 4) {
        symptoms.delete("coil-dead");
        symptoms.add("all-coils-dead");
      }
      return {
        symptoms: [...symptoms],
        tables: [
          ...before,
          ...lamps,
          {
            heading: "Logic levels, nothing asked for",
            columns: ["Ref", "Pin", "Reading"],
            rows: lines(rest),
          },
          {
            heading: "Logic levels, everything asked for",
            columns: ["Ref", "Pin", "Reading"],
            rows: lines(asked),
          },
          ...parts.map((table) => table()),
        ],
      };
    };
  };
}

/** Rows and columns of the lamps, each lit in turn. */
function grid(all: readonly Channel[], dead: readonly Channel[], stuck: readonly Channel[]): Table {
  const has = (list: readonly Channel[], block: Block, n: number) =>
    list.some((one) => one.block === block && one.n === n);
  const eight = [1, 2, 3, 4, 5, 6, 7, 8];
  void all;
  return {
    heading: "Lamp matrix",
    columns: ["Row / column", ...eight.map(String)],
    rows: eight.map((row) => [
      String(row),
      ...eight.map((column) => {
        if (row === 8 && column > 6) return "-";
        if (has(dead, "row", row) || has(dead, "column", column)) return "dark";
        return has(stuck, "row", row) || has(stuck, "column", column) ? "always on" : "ok";
      }),
    ]),
  };
}
