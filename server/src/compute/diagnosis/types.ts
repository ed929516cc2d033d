import type { Board, Device, PinRef } from "../../knowledge/types";
import type { AgainstId, SignId, WrongState } from "./strength";

/** Which way a reading left its window; absent where that is not known. An open reading is "high". */
export type DeviationSide = "high" | "low";

/** Something found wrong, in the form every source of findings can give. Refs, pins and nets as on the board. */
export type DiagnosisFinding =
  | {
      readonly kind: "pin";
      readonly ref: string;
      readonly pin: string;
      readonly verdict: "out-of-limits" | "suspect";
      readonly direction?: DeviationSide;
      /** Read with the supplies on: no drop to ground, which other pins of the net would show as well. */
      readonly powered?: boolean;
      /** Far outside, as a short or an open is; just outside, as a warm board or another meter is; its point one place off. */
      readonly how?: "far" | "just" | "point";
      /** The leg was read off its pad: nothing but the part is on it. */
      readonly alone?: boolean;
    }
  /** Something measured or seen of a part itself, not of a pin to ground: its value, its junctions, how it looks. */
  | {
      readonly kind: "part";
      readonly ref: string;
      readonly verdict: "out-of-limits" | "suspect";
      /** A reading that is too low may be what lies across the part; nothing across it can raise one. */
      readonly direction?: DeviationSide;
      /** What was looked at, "C1's capacitance", and what was found, as a sentence. */
      readonly of: string;
      readonly says: string;
      /** Something lies on it, leakage or dirt, that gets at legs and tracks first. */
      readonly surface?: boolean;
      /** And that on what holds it: its socket, pads, the board beneath. */
      readonly under?: boolean;
    }
  /** A gate whose recorded states contradict its truth table; `pins` are those the contradiction rests on. */
  | {
      readonly kind: "gate";
      readonly ref: string;
      readonly gate: string;
      readonly pins: readonly string[];
      /** None of the states moves, so that they belong together whenever they were read. */
      readonly steady?: boolean;
    }
  /** Pins of one net that read differently, so that the net is not one node. */
  | {
      readonly kind: "net";
      readonly net: string;
      readonly pins: readonly PinRef[];
      /** The one of them that stands apart from at least two that agree. */
      readonly apart?: PinRef;
    }
  /**
   * A function that fails, by the circuits that make it; `symptom` is the board file's id where it has one, else
   * the words for it.
   */
  | { readonly kind: "symptom"; readonly symptom?: string; readonly circuits: readonly string[] }
  /** A row or column of a matrix that never answers. */
  | { readonly kind: "matrix-line"; readonly net: string; readonly outside?: string }
  /** What a table's readings have in common and no fault of the board explains as well: how it was measured or written. */
  | {
      readonly kind: "table";
      /** Designators that were read so, or the rails that were. */
      readonly refs: readonly string[];
      /** "the pins of U5, U6". */
      readonly of: string;
      /** What was wrong with it: "the lead was off ground". */
      readonly mistake: string;
      /** What was found, as a sentence. */
      readonly says: string;
      /** What to do about it, without a full stop: "Put the lead on ground and read U5 again". */
      readonly again: string;
      /** The board may be at fault all the same: a chip out of its socket reads as a lead off ground does. */
      readonly orBoard?: boolean;
      /** The chip itself may sit in its socket the wrong way round: it gets hot as well. */
      readonly turned?: boolean;
    }
  /** Most signal pins of a chip read wrong together: it is not fed, not seated, or dead. */
  | {
      readonly kind: "chip";
      readonly ref: string;
      readonly pins: readonly string[];
      /** Its pins on ground and on its supply. */
      readonly power: readonly string[];
      readonly says: string;
    }
  /** A rail that reads wrong: what makes it, and what hangs on it. */
  | {
      readonly kind: "rail";
      readonly rail: string;
      readonly net: string;
      readonly direction?: DeviationSide;
      /** Read with the supplies on. */
      readonly powered: boolean;
      /** Designators of what makes it: regulator, reservoir, those of its input. */
      readonly makers: readonly string[];
      readonly says: string;
    }
  | SignFinding
  /** A chip pulled or a pin lifted off a net that read wrong, and whether the net came back. */
  | {
      readonly kind: "lift";
      readonly ref: string;
      readonly net: string;
      readonly cleared: boolean;
      /** Other parts that were off the net at the same time. */
      readonly also?: readonly string[];
      /** The lifted leg was read by itself, and not the net without it. */
      readonly leg?: boolean;
    };

/** Something seen whose strength is that of its kind, see `strength`; each kind says what may cause it, see `signs`. */
export interface SignFinding {
  readonly kind: "sign";
  readonly sign: SignId;
  /** The place in words: "U1 pin 37". */
  readonly of: string;
  /** What was found, as a sentence. */
  readonly says: string;
  readonly ref?: string;
  readonly pin?: string;
  /** What the pin wrongly stands at. */
  readonly state?: WrongState;
  readonly nets?: readonly string[];
  readonly refs?: readonly string[];
  /** Pins that read wrong, beside `others` that read right. */
  readonly pins?: readonly PinRef[];
  readonly others?: readonly PinRef[];
  /** Designators of what was out of its place while it was seen. */
  readonly off?: readonly string[];
  readonly rail?: string;
  /** The rail reads next to nothing, which is more than too little. */
  readonly dead?: true;
  /** What off the board may be to blame, in words: "the switch at row 3, column 4". */
  readonly outside?: string;
}

/** A pin whose state was seen with the power on. */
export interface SeenLevel {
  readonly ref: string;
  readonly pin: string;
  readonly state: "low" | "high" | "pulsing" | "floating";
  /** It stands as the board says it should. */
  readonly right?: boolean;
}

/** What speaks against a part being at fault. */
export interface Against {
  readonly ref: string;
  readonly by: AgainstId;
}

/** A reading that did not disprove anything. */
export interface WithinLimits {
  readonly ref: string;
  readonly pin: string;
  /** Measured across the part itself: that says nothing of what its net reads to ground. */
  readonly across?: boolean;
}

/** How often a part was what cured this symptom on boards of this type, out of the shop's own jobs. */
export interface HistoryCount {
  readonly ref: string;
  readonly count: number;
}

/** What was found on a board, wrong and right, to be explained. */
export interface DiagnosisInput {
  readonly board: Board;
  /** The device behind a part number, where the library knows it. */
  readonly deviceOf: (partNumber: string) => Device | undefined;
  readonly findings: readonly DiagnosisFinding[];
  readonly withinLimits?: readonly WithinLimits[];
  /** Gates read powered whose states agree with their truth tables. */
  readonly gatesAgreeing?: readonly { readonly ref: string; readonly gate: string }[];
  /** Designators of chips that passed a tester with nothing else on their pins. */
  readonly passedOutOfCircuit?: readonly string[];
  readonly levels?: readonly SeenLevel[];
  /** Collectors of transistors that were seen to be on: what drives them did so. */
  readonly conducting?: readonly PinRef[];
  readonly against?: readonly Against[];
  /** Names of rails that read right under power, and of those whose ripple is small. */
  readonly railsRight?: readonly string[];
  readonly railsCalm?: readonly string[];
  /** Rails whose resistance to ground was in its window. */
  readonly railsNotShort?: readonly string[];
  /** Designators of parts replaced since, without the symptom going away. */
  readonly replaced?: readonly string[];
  readonly history?: readonly HistoryCount[];
  /** The year the board is on the bench, for the age of what dries out; the board's era gives the other end. */
  readonly year?: number;
  /** What failed and is in none of the findings; absent where nothing did. */
  readonly notCounted?: NotCounted;
}

/** It was repaired or read right since, or what failed names no part of the board. */
export type NotCounted = "answered" | "no-part";
