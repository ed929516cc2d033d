// What is to stand in a board file, before it is text: made from logs, from a netlist or from a parts list. Every entry
// says where it was learned; what is only likely is marked as a guess, and is written as a comment that a person
// takes the mark off.

/** Where an entry was learned, and whether that is certain. */
export interface Learned {
  /** As it stands behind the entry: "log 2026-014, line 31", "netlist main.d356", "parts list bom.csv, line 4". */
  readonly from: string;
  /** Likely, and nobody said so. */
  readonly guess?: true;
}

/** A part for the `parts` of a board file, by its designator. */
export interface DraftPart extends Learned {
  readonly ref: string;
  readonly device?: string;
  readonly value?: string;
  readonly package?: string;
  readonly circuit?: string;
  readonly note?: string;
}

/** Quantities as the board file takes them: "5 V", "5 %". */
export interface DraftRail extends Learned {
  readonly name: string;
  readonly nominal: string;
  readonly tolerance: string;
  readonly ripple?: string;
  readonly net?: string;
  readonly source?: string;
}

/** Pins as the board file writes them: "U14.7". */
export interface DraftNet extends Learned {
  readonly name: string;
  readonly pins: readonly string[];
}

/** A switch or lamp matrix, of which only the lines are known and not what stands at the crossings. */
export interface DraftMatrix extends Learned {
  readonly id: string;
  readonly kind: "switch" | "lamp";
  readonly title: string;
  /** Net names of the lines. */
  readonly rows: readonly string[];
  readonly columns: readonly string[];
}

/** A fault as it is seen, for the `symptoms` of a board file. */
export interface DraftSymptom extends Learned {
  readonly id: string;
  readonly title: string;
}

/** A section of the board, for the `circuits` of a board file. */
export interface DraftCircuit extends Learned {
  readonly id: string;
  readonly title: string;
}

/** What a good board reads at one place. */
export interface DraftExpected extends Learned {
  readonly procedure: string;
  readonly ref?: string;
  readonly pin?: string;
  readonly rail?: string;
  readonly low: string;
  readonly high: string;
  readonly source: string;
}

/** Everything in the order it is to be written in. */
export interface BoardDraft {
  /** Absent where entries are only added to a file that is there. */
  readonly id?: string;
  readonly title?: string;
  readonly grounds: readonly string[];
  readonly rails: readonly DraftRail[];
  readonly circuits: readonly DraftCircuit[];
  readonly parts: readonly DraftPart[];
  readonly nets: readonly DraftNet[];
  readonly matrices: readonly DraftMatrix[];
  readonly symptoms: readonly DraftSymptom[];
  readonly expected: readonly DraftExpected[];
}

/** A draft in which nothing stands yet, to be spread and filled. */
export const EMPTY_DRAFT: BoardDraft = {
  grounds: [],
  rails: [],
  circuits: [],
  parts: [],
  nets: [],
  matrices: [],
  symptoms: [],
  expected: [],
};
