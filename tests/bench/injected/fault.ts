// What can be done to a board: edits of its netlist, the same for the analogue parts and for the logic.
import type { Board } from "./board";

export type Edit =
  /** The leg has lost the board; the part still hangs on its leg. */
  | { readonly kind: "joint"; readonly pin: string }
  /** The leg has lost what is inside the part. */
  | { readonly kind: "bond"; readonly pin: string }
  /** Between two pins. */
  | { readonly kind: "short"; readonly from: string; readonly to: string; readonly ohms?: number }
  /** Of a resistor or capacitor, times what it should be. */
  | { readonly kind: "value"; readonly ref: string; readonly factor: number }
  | { readonly kind: "esr"; readonly ref: string; readonly ohms: number }
  /** These pins of the net have lost the others. */
  | { readonly kind: "track"; readonly net: string; readonly pins: readonly string[] }
  /** One diode of a bridge: a and b lead to plus from pins 2 and 3, c and d from minus to them. */
  | {
      readonly kind: "leg";
      readonly ref: string;
      readonly leg: "a" | "b" | "c" | "d";
      readonly to: "open" | "short";
    }
  /** What a regulator makes, instead of what it should. */
  | { readonly kind: "output"; readonly ref: string; readonly volts: number }
  /** Burnt inside to ground (0) or to the supply (1), so that it shows unpowered too. */
  | { readonly kind: "burnt"; readonly pin: string; readonly level: 0 | 1 }
  /** The chip no longer works this output, and its junctions are whole. */
  | { readonly kind: "frozen"; readonly pin: string; readonly level: 0 | 1 }
  /** A bit of a memory chip that always reads so; the bit is the chip's own. */
  | { readonly kind: "cell"; readonly ref: string; readonly bit: number; readonly level: 0 | 1 };

/** What a suspect's name has to be about for it to be right. */
export type Truth =
  | { readonly kind: "part"; readonly ref: string }
  | { readonly kind: "pin"; readonly pin: string }
  | { readonly kind: "net"; readonly net: string };

export interface Fault {
  readonly id: string;
  /** The kind of part, for the counts. */
  readonly part: string;
  /** What happened to it, for the counts. */
  readonly what: string;
  readonly truth: readonly Truth[];
  readonly edits: readonly Edit[];
}

export const INTACT: Fault = { id: "intact", part: "none", what: "none", truth: [], edits: [] };

const lost = (fault: Fault, kind: "joint" | "bond", pin: string): boolean =>
  fault.edits.some((edit) => edit.kind === kind && edit.pin === pin);

/** A name that ngspice takes; ground is 0. */
export const nodeName = (net: string): string =>
  net === "GND" ? "0" : net.toLowerCase().replace(/[^a-z0-9]/g, "_");

const own = (pin: string): string => `x_${nodeName(pin)}`;

/** The node that a probe on the leg meets. A leg that is on no net has a node of its own. */
export function leg(board: Board, fault: Fault, pin: string): string {
  if (lost(fault, "joint", pin)) return own(pin);
  const net = board.netOf.get(pin);
  if (net === undefined) return own(pin);
  const cut = fault.edits.find((edit) => edit.kind === "track" && edit.pins.includes(pin));
  return cut ? `${nodeName(net)}_cut` : nodeName(net);
}

/** The node that what is inside the part meets. */
export const die = (board: Board, fault: Fault, pin: string): string =>
  lost(fault, "bond", pin) ? `${own(pin)}_in` : leg(board, fault, pin);

/** How many times its value a part has. */
export const factorOf = (fault: Fault, ref: string): number =>
  fault.edits.reduce((all, edit) => (edit.kind === "value" && edit.ref === ref ? all * edit.factor : all), 1);

export const part = (ref: string): Truth => ({ kind: "part", ref });
export const pin = (name: string): Truth => ({ kind: "pin", pin: name });
export const net = (name: string): Truth => ({ kind: "net", net: name });
