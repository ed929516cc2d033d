// What the code asks of a kind of table besides its procedure's words and columns: one record a kind, in the file of its
// id. Names stand for what the floors above do; each of them holds a map of those names that does not compile while one
// is missing.
import type { Board, DeviceKind, Matrix, Procedure } from "../../knowledge/types";
import type { ColumnLook } from "../content/look";
import type { TableContent } from "../content/table-content";

/** What the rows are. */
export type Holds =
  /** Measured, tried or tested, each with its place. */
  | "readings"
  /** Seen by eye. */
  | "inspection"
  /** Done to the board. */
  | "work"
  /** Known-good parts that were put in for a trial, and stayed or were taken out again. */
  | "swaps"
  /** Parts that were put in. */
  | "fitted"
  /** Parts that are on the board. */
  | "parts"
  /** Option switches as they stand. */
  | "settings"
  /** What a memory test wrote and read. */
  | "memory"
  /** Figures of program images. */
  | "images"
  /** Items of the board's proving list. */
  | "proving";

/** What a row names to say where it was read. */
export type PlaceBy =
  /** One pin a row. */
  | "pin"
  | "part"
  | "rail"
  /** One place, again and again. */
  | "time"
  /** Two points. */
  | "ends"
  | "crossing"
  | "switch"
  /** Words. */
  | "item"
  /** Whatever its columns are. */
  | "columns";

/** The judge of its readings; `expected` has only the board file and other boards to hold them against. */
export type JudgedBy =
  | "clock"
  | "code"
  | "coil"
  | "diode"
  | "ends"
  | "expected"
  | "limited-supply"
  | "ground"
  | "junction"
  | "level"
  | "passive"
  | "reset"
  | "soak"
  | "state"
  | "stress"
  | "supply"
  | "swap"
  | "tester"
  | "trial";

/** What the diagnosis takes a reading for. */
export type ObservedAs =
  | "code"
  | "coil"
  | "display"
  | "driver"
  | "ends"
  | "limited-supply"
  | "images"
  | "junctions"
  | "look"
  | "memory"
  | "nothing"
  | "part"
  | "pin-powered"
  | "pin-unpowered"
  | "rail-to-ground"
  | "rail"
  | "stress"
  | "swapped"
  | "tested";

/** What of the board its tables can show all of, for the proving list. */
export type Covers = "coils" | "images" | "matrix" | "memory" | "rails" | "resets" | "settings" | "soak";

/** What its readings are for other boards of the type; each holds the ones before it. */
export type AcrossJobs =
  /** A reading is of its own moment and of no place that another board has. */
  | "nothing"
  /** Told beside those of other jobs, and held against nothing: lifted at one end and in circuit, both stand there. */
  | "told"
  /** Limits for other boards. */
  | "limits"
  /** And proposed to the board file as what is to be expected. */
  | "expected";

/** What a new log has under this heading. */
export interface NewLogTable {
  /** What follows the title, a section each: "unloaded", "loaded". */
  readonly each?: readonly string[];
  /** Whether a board calls for it besides what its proving list names; every board does without this. */
  readonly fits?: (board: Board) => boolean;
  /** For a board that neither a file nor another log tells the parts of: what the log says of it is then all there is. */
  readonly untold?: true;
  /** Columns by role or measure, where the board does not lay the table out; without them only the work tells which. */
  readonly columns?: readonly string[];
  /** Rows that are known before anything was done. */
  readonly rows?: (board: BoardBefore) => readonly NewLogRow[];
}

/** What is known of the board of a new log; `file` is absent where only other logs tell. */
export interface BoardBefore {
  readonly known?: Board | undefined;
  readonly file?: Board | undefined;
}

export type NewLogRow = Readonly<Record<string, string | undefined>>;

/** What a heading that two kinds share leaves open. */
export interface ColumnClues {
  /** Of this kind. */
  readonly own: Procedure;
  /** Of the heading. */
  readonly other: Procedure;
  /** Over the columns, as header words. */
  readonly words: readonly string[];
  readonly heading: string | undefined;
}

/** What a cell may hold of a place, where neither its heading nor its column says which kind of table it stands in. */
export type PlacedReading =
  | "rail-volts"
  | "rail-ohms"
  | "part-ohms"
  | "pin-volts"
  | "pin-ohms"
  | "pin-drop"
  | "pin-state";

/** All that the code knows of one kind of table; absent traits do not hold for it. */
export interface TableKind {
  readonly holds: Holds;
  readonly place: PlaceBy;
  readonly judgedBy: JudgedBy;
  readonly observedAs: ObservedAs;
  readonly acrossJobs: AcrossJobs;
  readonly covers?: Covers;
  /** Its rows fire coils and lamps under power: they speak for those whatever the procedure of the item that is of them. */
  readonly fires?: true;
  /**
   * A row whose item is one of the board's proving list speaks for it and against it; or only against it, where what went
   * well reaches no further than its own test.
   */
  readonly speaksOfItems?: "both" | "against";
  /** Whatever it shows, no item is proven by it alone. */
  readonly provesNothing?: true;
  /** Pins of one net that were read in one table must agree. */
  readonly alongNets?: "drops" | "states";
  /** What was read at a gate's pins is held against its truth table. */
  readonly gates?: true;
  /** Readings that are of this kind where nothing but their place and their unit tells it; each of one kind only. */
  readonly placed?: readonly PlacedReading[];
  readonly matrix?: Matrix["kind"];
  /** What it measures is in the machine, and no part of the board. */
  readonly inMachine?: true;
  /** What it tries was off the board: it is no reading of the place, and none of what stands there since. */
  readonly outOfCircuit?: true;
  /** A row without a part of its own is not of the part above. */
  readonly rowsAlone?: true;
  /** Words for its results, each with what it means; offered in place of the usual ones. */
  readonly results?: readonly (readonly [word: string, meaning: string])[];
  /** Words for what was done after, each with what it means; offered in place of the usual ones. */
  readonly actions?: readonly (readonly [word: string, meaning: string])[];
  /** The first thing that is done to a chip: a table of its pins is one of these where no heading says otherwise. */
  readonly firstOfChip?: true;
  /** Parts that it is mostly about, by their device or by their designator; others are offered behind them. */
  readonly mostlyOf?: { readonly devices?: readonly DeviceKind[]; readonly designator?: RegExp };
  /** A table under a heading of one of these procedures is one of this kind where `claims` says so. */
  readonly insteadOf?: {
    readonly procedures: readonly string[];
    readonly claims: (told: ColumnClues) => boolean;
  };
  /**
   * How surely a table is one of these where no heading says what was measured, by what it holds and the words over it:
   * 0 for not at all, 1 where its cells allow it, more where words or units say so.
   */
  readonly byContent?: (told: TableContent) => number;
  /** True of a table that is none of these although its heading says so: what it holds tells better. */
  readonly refuses?: (told: TableContent) => boolean;
  /** A bench sheet of a whole board has such tables: where among them, and what each says behind the title. */
  readonly boardSheet?: { readonly order: number; readonly said?: readonly string[] };
  /** True of a column that is of this kind whatever the others of its table are: "Diode" beside "Level" and "State". */
  readonly claims?: (column: ColumnLook) => boolean;
  readonly newLog?: NewLogTable;
}

/** What was done to the board, and what was put in. */
export const isOfWork = ({ holds }: TableKind): boolean => holds === "work" || holds === "fitted";

export interface KindRecord extends TableKind {
  /** The procedure's. */
  readonly id: string;
  /** Its place in the order of the job, which a new log follows; by tens, so that another fits between two. */
  readonly inJob: number;
}

/** Devices with enough pins to be read one by one, and the letters they go by. */
export const CHIPS: NonNullable<TableKind["mostlyOf"]> = {
  devices: ["logic", "memory", "processor", "interface", "analog"],
  designator: /^(?:U|IC)\d/i,
};

export const hasMatrix =
  (kind: Matrix["kind"]) =>
  ({ matrices }: Board): boolean =>
    [...matrices.values()].some((matrix) => matrix.kind === kind);
