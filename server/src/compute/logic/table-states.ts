// What is recorded of a device's pins beside its truth tables, and what a contradiction with them is.

import type { PinDirection, PinRef, TruthTable } from "../../knowledge/types";
import type { LogicState } from "../../quantity/words";
import type { Contradiction } from "./contradictions";
import type { InputTechnology } from "./technology";

export interface TableStates {
  /** The chip's designator, for the sentences: "U14". */
  readonly ref: string;
  readonly tables: readonly TruthTable[];
  readonly technology: InputTechnology;
  /** Recorded state by pin number; pins not read are left out. */
  readonly states: ReadonlyMap<string, LogicState>;
  readonly direction: (pin: string) => PinDirection | undefined;
  /** The pin's name on the data sheet, for the sentences. */
  readonly pinName?: (pin: string) => string | undefined;
  /** The members of the pin's net, where the board file gives them. */
  readonly netMembers?: (pin: string) => readonly PinRef[];
  /** The name of the pin's net, for the sentences. */
  readonly netName?: (pin: string) => string | undefined;
}

/** `gate` holds the table's name and pins; `inputs` only those that matter, the rest being free to be anything. */
export interface TableContradiction extends Contradiction {
  /** Every output it takes, `output` first: each alone may be what it is, together they cannot. */
  readonly outputs: readonly string[];
}
