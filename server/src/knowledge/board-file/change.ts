// What can be asked of a board file that is there, and what is answered. Plain data, so that a quick fix, a command
// and a program without an editor ask for the same.
import type { TextEdit } from "../../text/edits";
import type {
  BoardDraft,
  DraftCircuit,
  DraftExpected,
  DraftMatrix,
  DraftNet,
  DraftPart,
  DraftRail,
  DraftSymptom,
} from "./draft";

/** The top-level keys that entries are written under. */
export type BoardSection =
  | "grounds"
  | "rails"
  | "circuits"
  | "parts"
  | "nets"
  | "matrices"
  | "expected"
  | "symptoms";

/** One change of a board file. Those with an entry add what of it is not there; what is there stays as it is. */
export type BoardChange =
  | { readonly kind: "ground"; readonly name: string }
  | { readonly kind: "rail"; readonly entry: DraftRail }
  | { readonly kind: "circuit"; readonly entry: DraftCircuit }
  | { readonly kind: "part"; readonly entry: DraftPart }
  /** A new net, or the pins that an existing one lacks. */
  | { readonly kind: "net"; readonly entry: DraftNet }
  | { readonly kind: "matrix"; readonly entry: DraftMatrix }
  | { readonly kind: "symptom"; readonly entry: DraftSymptom }
  /** With `replace`, the limits and the source of an entry for the same place are replaced. */
  | { readonly kind: "expected"; readonly entry: DraftExpected; readonly replace?: true }
  /** The device of a part that is there. */
  | { readonly kind: "device"; readonly ref: string; readonly device: string }
  /** One more part number that may be fitted in the place of a part that is there. */
  | { readonly kind: "fits"; readonly ref: string; readonly part: string };

/** Where in the file: `{ section: "parts", key: "U5" }`. An expected reading's key is its procedure and place. */
export interface BoardPlace {
  readonly section: BoardSection;
  readonly key: string;
}

export interface Added extends BoardPlace {
  /** What an entry that was there got: fields of a part, pins of a net. Absent where the whole entry is new. */
  readonly to?: readonly string[];
  /** Written as a comment only. */
  readonly guess?: true;
}

/** An entry left as it stands, because a person may have typed it. */
export interface KeptEntry extends BoardPlace {
  readonly differs: readonly {
    /** "device"; of a net, the pin that another net has: `file` and `draft` are then the two nets. */
    readonly field: string;
    /** As the file has it. */
    readonly file: string;
    /** As it was to be. */
    readonly draft: string;
  }[];
}

/** An entry that no board file can hold as it was given, with the sentence that says why. */
export interface LeftOut extends BoardPlace {
  readonly reason: string;
}

/**
 * What became of changes to a board file that could be read: what is written, what was there already and stays, and
 * what was left out and why.
 */
export interface BoardEdited {
  readonly ok: true;
  /** Of the text given; empty where all of it was there already. */
  readonly edits: readonly TextEdit[];
  /** The text after the edits. */
  readonly text: string;
  readonly added: readonly Added[];
  readonly kept: readonly KeptEntry[];
  readonly leftOut: readonly LeftOut[];
}

export interface NotEdited {
  readonly ok: false;
  /** Why nothing was changed, with the line where the file is at fault. */
  readonly reason: string;
}

export type BoardEdit = BoardEdited | NotEdited;

/** Changes that add all of a draft, in the order of its entries. */
export const changesOf = (draft: BoardDraft): BoardChange[] => [
  ...draft.grounds.map((name) => ({ kind: "ground", name }) as const),
  ...draft.rails.map((entry) => ({ kind: "rail", entry }) as const),
  ...draft.circuits.map((entry) => ({ kind: "circuit", entry }) as const),
  ...draft.parts.map((entry) => ({ kind: "part", entry }) as const),
  ...draft.nets.map((entry) => ({ kind: "net", entry }) as const),
  ...draft.matrices.map((entry) => ({ kind: "matrix", entry }) as const),
  ...draft.symptoms.map((entry) => ({ kind: "symptom", entry }) as const),
  ...draft.expected.map((entry) => ({ kind: "expected", entry }) as const),
];
