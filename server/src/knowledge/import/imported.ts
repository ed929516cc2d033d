// What a netlist, a board layout or a parts list says of a board, whichever of them it came from. Every reader of this
// folder gives this shape; everything behind the readers knows no file format.
import type { Steps } from "../../base/steps";
import type { PinRef } from "../types";

export type ImportFormat = "ipc-d-356" | "netlist" | "pcb" | "parts-list";

/** What a file of each kind is called where one speaks of it. */
export const FORMAT_WORDS: Readonly<Record<ImportFormat, string>> = {
  "ipc-d-356": "IPC-D-356 netlist",
  netlist: "netlist",
  pcb: "board layout",
  "parts-list": "parts list",
};

export interface ImportedPart {
  /** As the file has it; not always a designator that a board file can hold. */
  readonly ref: string;
  /** What stands as its value: "74LS04", "4k7", "CONN_8X2". */
  readonly value?: string;
  /** A maker's or dealer's number, where a parts list has a column for it. */
  readonly partNumber?: string;
  readonly package?: string;
  /** Where the file says that the place stays empty. */
  readonly unfitted?: true;
  /** Pin numbers in the file's order, each once; none where the file tells no pins. */
  readonly pins: readonly string[];
  /** Whether `pins` are all the pins it has; a netlist may leave out those that are not connected. */
  readonly allPins: boolean;
  /** From 1. */
  readonly line: number;
}

export interface ImportedNet {
  readonly name: string;
  readonly pins: readonly PinRef[];
  /** From 1. */
  readonly line: number;
}

export interface ImportProblem {
  /** From 1; absent where it is about the file as a whole. */
  readonly line?: number;
  /** "refused": nothing of the file is to be used. "lost": something in it was not read. "note": all was read, and it is odd. */
  readonly kind: "refused" | "lost" | "note";
  readonly message: string;
}

export interface ImportedBoard {
  readonly format: ImportFormat;
  /** The name the file gives the board. */
  readonly title?: string;
  readonly parts: readonly ImportedPart[];
  /** Those without a pin too, where the file lists them. */
  readonly nets: readonly ImportedNet[];
  readonly problems: readonly ImportProblem[];
  /** Problems that were left out because there were too many. */
  readonly moreProblems: number;
}

/** How far a reader has come, in characters. */
export interface ImportStep {
  readonly done: number;
  readonly total: number;
}

export type Importing<R> = Steps<R, ImportStep>;
