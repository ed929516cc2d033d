// What is read of a controller: reset, memory supply, tone and rails with the meter, the logic with a probe while the
// exerciser works. Which chips are read follows from the circuit that was complained of and never from the fault.

import { type Board, pinsOf } from "./board";
import { exercise, type MemoryLine, type Seen, switches } from "./exercise";
import { type Fault, leg } from "./fault";
import { type Cell, hertz, type Scene, seconds, type Table, volts } from "./log";
import { type Later, type Recipe, Unplugged } from "./plan";
import { backup, reset, tone } from "./reset";

const RAILS = { "+5V": "vcc", "+12V": "v12" } as const;

export const railsRecipe: Recipe = (board, fault) => (session) => {
  const ground = new Unplugged(session, board, fault).rails({ ...RAILS, VMEM: leg(board, fault, "TP3.1") });
  return () => ({ symptoms: [], tables: [ground()] });
};

export const resetRecipe: Recipe = (board, fault) => (session) => {
  const unplugged = new Unplugged(session, board, fault);
  const parts = [
    unplugged.junctions(["Q1", "Q2"]),
    unplugged.rectifiers(["D1"]),
    unplugged.resistors(["R1", "R2", "R3", "R4", "R5"]),
    unplugged.capacitors(["C1"]),
    unplugged.diodes(["U14"]),
  ];
  const ground = unplugged.rails(RAILS);
  const powered = session.run(reset(board, fault));
  return () => {
    const { at, delay } = powered();
    const level = (pin: string): Cell[] => [...pin.split("."), volts(at(pin))];
    const timing: Table = {
      heading: "Reset timing",
      columns: ["Ref", "Pin", "Reading"],
      rows: delay === undefined ? [] : [["U1", "40", seconds(delay)]],
    };
    return {
      symptoms: delay === undefined || delay < 0.005 ? ["blank-display"] : [],
      tables: [
        ground(),
        { heading: "Supply rails, loaded", columns: ["Rail", "Reading"], rows: [["+5V", volts(5)]] },
        {
          heading: "Logic levels",
          columns: ["Ref", "Pin", "Reading"],
          rows: ["U1.40", "Q1.2", "Q1.3", "Q2.2", "Q2.3", "U14.5", "U14.6"].map(level),
        },
        timing,
        ...parts.map((table) => table()),
      ],
    };
  };
};

/** Volts that the memory keeps its contents at (5101 data sheet, from memory). */
const RETAINS = 2;

export const backupRecipe: Recipe = (board, fault) => (session) => {
  const unplugged = new Unplugged(session, board, fault);
  const parts = [
    unplugged.rails({ ...RAILS, VMEM: leg(board, fault, "TP3.1") }),
    unplugged.rectifiers(["D2"]),
    unplugged.resistors(["R8", "R9", "R10"]),
    unplugged.diodes(["U9"]),
  ];
  const powered = session.run(backup(board, fault));
  const enable = session.run(reset(board, fault));
  return () => {
    const { on, pin, off } = powered();
    const keeps = off > RETAINS;
    const works = pin > 3;
    const lost = !works ? "fail" : keeps ? "pass" : "fail";
    return {
      symptoms: keeps ? [] : ["counters-lost"],
      tables: [
        {
          heading: "Supply rails, loaded",
          columns: ["Rail", "Reading", "Note"],
          rows: [
            ["+5V", volts(5), "TP1"],
            ["VMEM", volts(on), "TP3"],
          ],
        },
        {
          heading: "Logic levels",
          columns: ["Ref", "Pin", "Reading"],
          rows: [
            ["U9", "17", volts(enable().at("R8.2"))],
            ["U9", "22", volts(pin)],
          ],
        },
        {
          heading: "Memory test, written, an hour switched off, read back",
          columns: ["Ref", "Result", "Note"],
          rows: [["U9", lost, keeps ? "held" : "forgotten after an hour without power"]],
        },
        ...parts.map((table) => table()),
      ],
    };
  };
};

/** What a probe says nothing of: a crystal's pins, which the exerciser leaves alone, and a timing capacitor's. */
const ANALOGUE = ["XTAL", "EXTAL", "WD_C", "WD_RC"];

/** A table with a column for each chip. */
function states(seen: Seen, board: Board, refs: readonly string[]): Table {
  const most = Math.max(...refs.map((ref) => Math.max(...pinsOf(board, ref))));
  return {
    heading: "Logic states",
    columns: ["Pin", ...refs],
    rows: Array.from({ length: most }, (_, i) => [
      String(i + 1),
      ...refs.map((ref) => (probed(board, `${ref}.${i + 1}`) ? seen.state(`${ref}.${i + 1}`) : "-")),
    ]),
  };
}

function probed(board: Board, pin: string): boolean {
  const net = board.netOf.get(pin);
  return net !== undefined && !ANALOGUE.includes(net);
}

function memory(lines: readonly MemoryLine[]): Table {
  const hex = (value: number) => value.toString(16).toUpperCase();
  return {
    heading: "Memory test",
    columns: ["Ref", "Address", "Wrote", "Read", "Failing bits", "Result"],
    rows: lines.map(({ ref, wrote, got, address }) => {
      const wrong = [0, 1, 2, 3].filter((bit) => ((wrote ^ got) >> bit) & 1);
      return [
        ref,
        address.toString(16).toUpperCase().padStart(4, "0"),
        hex(wrote),
        hex(got),
        wrong.join(", "),
        wrong.length > 0 ? "fail" : "pass",
      ];
    }),
  };
}

const EIGHT = [1, 2, 3, 4, 5, 6, 7, 8];

interface Circuit {
  readonly chips: readonly string[];
  readonly diodes: readonly string[];
  readonly more?: (seen: Seen, board: Board, fault: Fault) => { symptoms: string[]; tables: Table[] };
}

const bare = (seen: Seen) => {
  const lines = seen.memory();
  const tables = [memory(lines)];
  const failed = lines.filter(({ wrote, got }) => wrote !== got).map(({ ref }) => ref);
  const symptoms = failed.some((ref) => ref !== "U9") ? ["error-3"] : failed.length > 0 ? ["error-4"] : [];
  return { symptoms, tables };
};

export const CIRCUITS: Readonly<Record<string, Circuit>> = {
  decode: { chips: ["U4", "U5", "U6", "U28", "U29"], diodes: ["U4", "U5", "U6", "U28", "U29"], more: bare },
  bus: { chips: ["U1", "U2", "U3", "U7", "U8", "U9"], diodes: ["U2", "U3", "U7", "U8", "U9"], more: bare },
  switches: {
    chips: ["U10", "U12", "U13", "U14"],
    diodes: ["U12", "U13", "U14"],
    more(_, board, fault) {
      const answers = switches(board, fault);
      const row = EIGHT.some((r) => answers[r - 1]!.every((one) => !one));
      const column = EIGHT.some((c) => answers.every((line) => !line[c - 1]));
      return {
        symptoms: [...(row ? ["row-dead"] : []), ...(column ? ["column-dead"] : [])],
        tables: [
          {
            heading: "Switch matrix",
            columns: ["Row / column", ...EIGHT.map(String)],
            rows: EIGHT.map((r) => [
              String(r),
              ...EIGHT.map((c) => (r === 8 && c === 8 ? "-" : answers[r - 1]![c - 1] ? "ok" : "dead")),
            ]),
          },
        ],
      };
    },
  },
  lamps: {
    chips: ["U15", "U16"],
    diodes: ["U15", "U16"],
    more(seen) {
      const moves = (pin: string) => seen.state(pin) === "pulse";
      const dark = EIGHT.map((r) => EIGHT.map((c) => !moves(`J4.${c}`) || !moves(`J4.${r + 10}`)));
      return {
        symptoms: dark.flat().some((one) => one) ? ["error-7"] : [],
        tables: [
          {
            heading: "Lamp matrix",
            columns: ["Row / column", ...EIGHT.map(String)],
            rows: EIGHT.map((r) => [
              String(r),
              ...EIGHT.map((c) => (r === 8 && c > 6 ? "-" : dark[r - 1]![c - 1] ? "dark" : "ok")),
            ]),
          },
        ],
      };
    },
  },
  display: {
    chips: ["U17", "U18", "U19", "U20"],
    diodes: ["U17", "U18", "U19", "U20"],
    more(seen) {
      const segments = ["A", "B", "C", "D", "E", "F", "G", "point"];
      const out = segments.filter((_, i) => seen.state(`U18.${18 - i}`) !== "pulse");
      const digit = (n: number) => seen.state(`J5.${9 + n}`) === "pulse";
      return {
        symptoms: out.length === 8 || [1, 2, 3, 4, 5, 6].every((n) => !digit(n)) ? ["blank-display"] : [],
        tables: [
          {
            heading: "Display",
            columns: ["Item", "Result", "Note"],
            rows: [1, 2, 3, 4, 5, 6].map((n) =>
              !digit(n)
                ? [`Digit ${n}`, "fail", "dark"]
                : [
                    `Digit ${n}`,
                    out.length > 0 ? "fail" : "ok",
                    out.map((name) => `${name} dark`).join(", "),
                  ],
            ),
          },
        ],
      };
    },
  },
  settings: { chips: ["U25", "U26"], diodes: ["U25", "U26"] },
  watchdog: { chips: ["U27", "U11"], diodes: ["U27", "U11"] },
};

export const logicRecipe =
  (name: string): Recipe =>
  (board, fault) =>
  (session) => {
    const { chips, diodes, more } = CIRCUITS[name]!;
    const unplugged = new Unplugged(session, board, fault);
    const table = unplugged.diodes(diodes);
    return () => {
      const seen = exercise(board, fault);
      const extra = more?.(seen, board, fault) ?? { symptoms: [], tables: [] };
      return {
        symptoms: extra.symptoms,
        tables: [...extra.tables, states(seen, board, chips), table()],
      };
    };
  };

export const soundRecipe: Recipe = (board, fault) => (session) => {
  const unplugged = new Unplugged(session, board, fault);
  const parts: Later<Table>[] = [
    unplugged.resistors(["R18", "R19"]),
    unplugged.diodes(["U21", "U22", "U23"]),
  ];
  const running = session.run(tone(board, fault));
  return (): Scene => {
    const at = running();
    const seen = exercise(board, fault, at > 0);
    const heard = seen.state("U23.5") === "pulse";
    return {
      symptoms: heard ? [] : ["no-sound"],
      tables: [
        { heading: "Frequency", columns: ["Ref", "Pin", "Reading"], rows: [["U21", "3", hertz(at)]] },
        states(seen, board, ["U22", "U23"]),
        ...parts.map((table) => table()),
      ],
    };
  };
};
