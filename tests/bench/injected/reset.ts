// The controller's reset, memory supply and tone under power. How a Schmitt trigger and a timer behave is from memory of
// their data sheets.
import type { Board } from "./board";
import { elementsOf, leaks, line, MODELS, netlist } from "./elements";
import { type Experiment, value, within } from "./experiment";
import { die, type Fault, leg } from "./fault";

// The controller's reset.

/** Volts to which the bench supply comes up, and how long that takes. */
const SUPPLY = 5;
const RISE = 5e-3;
const RESET_END = 0.4;

export interface Reset {
  /** Seconds from 4.75 V on the rail to the release at the processor; undefined where it is never released. */
  readonly delay: number | undefined;
  /** Volts in the end, by pin. */
  at(pin: string): number;
}

export function reset(board: Board, fault: Fault): Experiment<Reset> {
  const pins = ["U1.40", "U14.5", "U14.6", "Q1.2", "Q1.3", "Q2.2", "Q2.3", "R8.1", "R8.2"];
  const memory = ["R8", "R9"].map((ref) => board.parts.get(ref)!);
  const elements = [
    ...netlist(board, fault, within("reset")),
    ...memory.flatMap((part) => elementsOf(board, fault, part)),
  ];
  const at = (pin: string) => die(board, fault, pin);
  const gate = (input: string, output: string, name: string) => {
    const frozen = fault.edits.find((edit) => edit.kind === "frozen" && edit.pin === output);
    const fixed = frozen?.kind === "frozen" ? frozen.level : undefined;
    return [
      // An LS input gives out 0.14 mA at its threshold and draws nothing above (SN74LS14 data sheet, from memory).
      `r${name}i h_${name} i_${name} 21k`,
      `d${name}i i_${name} ${at(input)} small`,
      `v${name}h h_${name} vcc 0`,
      `r${name}p t_${name} ${at(output)} 120`,
      fixed === undefined
        ? `s${name} ${at(output)} 0 ${at(input)} 0 schmitt off`
        : `s${name} ${at(output)} 0 ${fixed === 0 ? "vcc" : "0"} 0 schmitt off`,
      `b${name} t_${name} 0 v=max(0,v(vcc)-1.4)`,
      `rl${name} ${at(input)} 0 10meg`,
    ];
  };
  const lines = [
    ...MODELS,
    // Upper and lower threshold 1.6 V and 0.8 V (SN74LS14 data sheet, from memory).
    ".model schmitt sw(vt=1.2 vh=0.4 ron=15 roff=100meg)",
    ...leaks(elements),
    ...elements.map((element) => line(element)),
    `vs s 0 pwl(0 0 ${RISE} ${SUPPLY})`,
    "rs s vcc 0.05",
    ...gate("U14.5", "U14.6", "g1"),
    ...gate("U14.9", "U14.8", "g2"),
    ...burnt(board, fault, ["U14"]),
    `ru1 ${leg(board, fault, "U1.40")} 0 1meg`,
  ];
  const commands = [
    `tran 100u ${RESET_END} 0 200u uic`,
    "meas tran up when v(vcc)=4.75 rise=1",
    `meas tran released when v(${leg(board, fault, "U1.40")})=2 rise=last`,
  ];
  const node = new Map(pins.map((pin) => [pin, leg(board, fault, pin)]));
  for (const name of new Set(node.values()))
    if (name !== "0") commands.push(`meas tran e_${name} find v(${name}) at=${RESET_END * 0.99}`);
  return {
    deck: { lines: [...new Set(lines)], commands },
    read(results) {
      const at = (pin: string) => (node.get(pin) === "0" ? 0 : value(results, `e_${node.get(pin)}`));
      const released = results.get("released");
      return {
        at,
        delay:
          released === undefined || at("U1.40") < 2
            ? undefined
            : Math.max(0, released - value(results, "up")),
      };
    },
  };
}

const burnt = (board: Board, fault: Fault, refs: readonly string[]): string[] =>
  fault.edits.flatMap((edit, i) =>
    edit.kind === "burnt" && refs.includes(edit.pin.split(".")[0]!)
      ? [`rburnt${i} ${die(board, fault, edit.pin)} ${edit.level ? "vcc" : "0"} 4`]
      : [],
  );

// The memory's supply, on and an hour after switch-off.

export interface Backup {
  /** Volts at the rail's test point and at the memory's own pin while the board is on. */
  readonly on: number;
  readonly pin: number;
  /** Volts at the memory's pin in the end. */
  readonly off: number;
}

/** Amperes that the memory takes at rest (of the board file: 20 µA at most). */
const RETENTION = 10e-6;
const ON = 3600;
const OFF = 3600;

export function backup(board: Board, fault: Fault): Experiment<Backup> {
  // On revision B the capacitor stands where the battery was.
  const elements = netlist(
    board,
    fault,
    (part) => within("memory-backup")(part) && !["BT1", "R8", "R9"].includes(part.ref),
  );
  const supply = leg(board, fault, "U9.22");
  const lines = [
    ...MODELS,
    ...leaks(elements),
    ...elements.map((element) => line(element)),
    `vs s 0 pwl(0 0 0.1 5 ${ON} 5 ${ON + 1} 0)`,
    "rs s vcc 0.05",
    // Below a volt or so it takes next to nothing.
    `bu9 ${supply} 0 i=${RETENTION}*max(0,min(1,v(${supply})))`,
    `ru9 ${supply} 0 100meg`,
  ];
  const commands = [
    `tran 5 ${ON + OFF} 0 20 uic`,
    `meas tran on find v(${leg(board, fault, "TP3.1")}) at=${ON - 10}`,
    `meas tran pin find v(${supply}) at=${ON - 10}`,
    `meas tran off find v(${supply}) at=${ON + OFF - 10}`,
  ];
  return {
    deck: { lines, commands },
    read: (results) => ({
      on: value(results, "on"),
      pin: value(results, "pin"),
      off: value(results, "off"),
    }),
  };
}

// The tone.

/** Hertz at the output of U21; 0 where it stands still. */
export function tone(board: Board, fault: Fault): Experiment<number> {
  const wanted = ["R18", "R19", "C8", "C9"].map((ref) => board.parts.get(ref)!);
  const elements = [
    ...wanted.flatMap((part) => elementsOf(board, fault, part)),
    ...netlist(board, fault, () => false),
  ];
  const at = (n: number) => die(board, fault, `U21.${n}`);
  const lines = [
    ...MODELS,
    ...leaks(elements),
    ...elements.map((element) => line(element)),
    "vs vcc 0 5",
    // Thresholds at the control pin and half of it, by three resistors of 5 kohm (NE555 data sheet, from memory).
    `r5a vcc ${at(5)} 5k`,
    `r5b ${at(5)} mid 5k`,
    "r5c mid 0 5k",
    `be e 0 v=(v(${at(6)})-0.75*v(${at(5)}))/v(${at(5)})`,
    ".model flip sw(vt=0 vh=0.25 ron=10 roff=100meg)",
    `s5 ${at(7)} 0 e 0 flip off`,
    "rq vcc q 1k",
    "sq q 0 e 0 flip off",
    `rt ${at(6)} 0 100meg`,
  ];
  const commands = [
    "tran 1u 3m 0 2u uic",
    "meas tran t1 when v(q)=2.5 rise=4",
    "meas tran t2 when v(q)=2.5 rise=8",
  ];
  return {
    deck: { lines, commands },
    read(results) {
      const [t1, t2] = [results.get("t1"), results.get("t2")];
      return t1 === undefined || t2 === undefined ? 0 : 4 / (t2 - t1);
    },
  };
}
