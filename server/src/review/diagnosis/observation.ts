// What one row of a log tells the diagnosis, with the place it was read at.

import type { LiftFinding } from "../../compute/diagnosis/conflict";
import type { Against, DiagnosisFinding, SeenLevel, WithinLimits } from "../../compute/diagnosis/types";
import type { PinRef } from "../../knowledge/types";
import type { LogTable } from "../../log/model";
import type { Span } from "../../text/span";

/** One thing that was read. Either `finding` says what was found wrong, or the rest what was not disproved. */
export interface Observation {
  /** What a later reading of the same place takes the place of. */
  readonly key: string;
  /** The place in words, for people. */
  readonly what: string;
  readonly table: LogTable;
  readonly span: Span;
  /** Designators whose replacement makes it history, in capitals. */
  readonly refs: readonly string[];
  /** Net on which any replacement does. */
  readonly net?: string;
  /** Seen by eye, so that any work on the part answers it. */
  readonly look?: boolean;
  readonly finding?: DiagnosisFinding;
  /** Its finding counts only where nothing else was found. */
  readonly spare?: true;
  /** What was off the net while it was read, and whether it read right then. */
  readonly lifts?: readonly LiftFinding[];
  readonly within?: readonly WithinLimits[];
  /** The chip that passed a tester out of circuit. */
  readonly passed?: string;
  readonly agrees?: { readonly ref: string; readonly gate: string };
  /** Keys of the single readings that it stands for; where they were taken again later, it is history. */
  readonly covers?: readonly string[];
  /** Offsets in the block of the readings of its table that it takes the place of; of the whole table where absent. */
  readonly instead?: ReadonlySet<number>;
  /** A powered rail, for whether logic states may be taken. */
  readonly rail?: "within" | "out";
  /** Zero where a rail read next to nothing. */
  readonly reads?: 0;
  /** A reset delay: whose, whether it is as it should be, and whether the power was off only for a moment before. */
  readonly reset?: { readonly ref: string; readonly isRight: boolean; readonly isRestart: boolean };
  /** Net of a line of a matrix on which nothing answers, of which too little was tried to call it dead. */
  readonly silentLine?: string;
  /** Ohms that a rail reads to ground. */
  readonly toGround?: number;
  /** Name of the net of which all else stands lower than the pin that feeds it. */
  readonly dropped?: string;
  /** What a rail reads under power, as a share of what it should. */
  readonly share?: { readonly rail: string; readonly of: number };
  /** Names of rails that it shows to be right, calm, or not shorted. */
  readonly railRight?: string;
  readonly railCalm?: string;
  readonly railNotShort?: string;
  /** What a pin was seen at with the power on, right or wrong. */
  readonly level?: SeenLevel;
  /** Its note says that no more than a needle was seen there. */
  readonly needle?: true;
  /** Volts from peak to peak that were seen there. */
  readonly swing?: PinRef & { readonly volts: number };
  /** What a pin was seen at with a part of its net out of its place. */
  readonly without?: SeenLevel & { readonly off: string };
  /** Collector of a transistor that is on, and stands at its emitter. */
  readonly conducts?: PinRef;
  readonly against?: readonly Against[];
  /** Pins that were found joined, as they should be. */
  readonly joined?: readonly PinRef[];
}

/** An observation with its span in the document, after so many repairs. */
export type LocatedObservation = Omit<Observation, "table"> & {
  readonly table?: LogTable;
  readonly phase: number;
};
