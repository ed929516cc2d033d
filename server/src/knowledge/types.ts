// Long, because it is the one page to look up the shape of a knowledge file on; it holds no code. These are the shapes
// after loading. A quantity stays the text its author typed ("4.75 V"): the log layer's quantity parser turns it into a
// number with a unit where one is needed, so that board files and logs are read by one set of rules.
import type { TruthRow } from "./truth-row";

/** A quantity as typed, with its unit: "5 V", "4k7 ohm", "50 mV", "5 %". */
export type QuantityText = string;

/** Lower and upper end of a window, both as typed. */
export type WindowText = readonly [low: QuantityText, high: QuantityText];

export const PIN_DIRECTIONS = [
  "input",
  "output",
  "bidirectional",
  "three-state",
  "open-collector",
  "open-emitter",
  "supply",
  "ground",
  "passive",
  "not-connected",
] as const;
/** What a pin does: takes a level, drives one, supplies the chip, or none of these ("passive"). */
export type PinDirection = (typeof PIN_DIRECTIONS)[number];

export const PIN_SIGNALS = ["logic", "analogue", "line", "switching", "oscillator"] as const;
/**
 * What a pin's standing voltage means: a level of its family, any voltage between the supplies, a line of several volts
 * either side of ground (EIA-232), an output that stands near one supply or the other, a crystal's pin.
 */
export type PinSignal = (typeof PIN_SIGNALS)[number];

/** One pin of a device, by its data sheet. */
export interface DevicePin {
  /** The pin's number as printed, "1" to "40"; transistors too are numbered (1, 2, 3). */
  readonly number: string;
  readonly name: string;
  readonly direction: PinDirection;
  /** The gate or section of the chip the pin belongs to, where there are several: "A", "1". */
  readonly unit?: string;
  /** Where it is not what the kind of device makes it. */
  readonly signal?: PinSignal;
  /** Name of the supply pin whose voltage sets its levels, where it is not the logic supply. */
  readonly fed?: string;
  /** Where the pin stands by itself, as a share of the supply. */
  readonly share?: readonly [low: number, high: number];
  readonly note?: string;
}

export const DEVICE_KINDS = [
  "logic",
  "memory",
  "processor",
  "interface",
  "analog",
  "transistor",
  "regulator",
  "diode",
  "passive",
  "connector",
  "other",
] as const;
/** What sort of part a device is. Unless a pin says otherwise, it decides what a pin's voltage means. */
export type DeviceKind = (typeof DEVICE_KINDS)[number];

/** A function inside a chip that is one of the simple ones. Its pins are given by their numbers. */
export interface Gate {
  readonly name: string;
  /** Trade name of the function: "NOT", "NAND", "NOR", "AND", "OR", "XOR", "XNOR", "BUFFER". */
  readonly function: string;
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
}

/** What a section of the chip does, row by row, with the pins in the order of the rows' cells. */
export interface TruthTable {
  /** "decoder", "1": unique in the device. */
  readonly name: string;
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
  /** Every row holds wherever its inputs fit; inputs that fit no row are not judged. */
  readonly rows: readonly TruthRow[];
}

/** A part that may be fitted instead, with what is different about it. */
export interface Substitute {
  readonly part: string;
  readonly caution: string;
}

/** A part of the library or of the shop: what its pins are, what it does and within which limits it works. */
export interface Device {
  readonly id: string;
  readonly title: string;
  readonly kind: DeviceKind;
  /** Family ids this pinout is made in, the default first: ["TTL", "LS", "S"]. */
  readonly families: readonly string[];
  readonly aliases: readonly string[];
  readonly package: { readonly name: string; readonly pins: number };
  readonly pins: ReadonlyMap<string, DevicePin>;
  readonly gates: readonly Gate[];
  readonly truthTables: readonly TruthTable[];
  readonly limits: ReadonlyMap<string, WindowText>;
  readonly substitutes: readonly Substitute[];
  readonly cautions: readonly string[];
  readonly note?: string;
  readonly source: string;
}

/** Electrical defaults of a logic family or device technology; the reference of last resort. */
export interface Family {
  readonly id: string;
  readonly title: string;
  /** Letters between 74 and the number: "", "LS", "HC"; absent for families that are not 74xx. */
  readonly letters?: string;
  readonly supply?: WindowText;
  /** Drop to ground on the diode range, red lead on ground, by what the pin is. */
  readonly diode?: {
    readonly signal: WindowText;
    readonly supply?: WindowText;
    readonly source: string;
  };
  /** Logic levels in volts at the nominal supply. */
  readonly levels?: {
    readonly vih: QuantityText;
    readonly vil: QuantityText;
    readonly voh: QuantityText;
    readonly vol: QuantityText;
    readonly source: string;
  };
  readonly source: string;
}

/** A supply of a board with what it should read; the voltage of a negative one carries its sign. */
export interface Rail {
  readonly name: string;
  readonly nominal: QuantityText;
  /** Percent of nominal ("5 %") or an absolute half-width ("0.25 V"); "-30 % to +50 %" where the two ways differ. */
  readonly tolerance: QuantityText;
  readonly ripple?: QuantityText;
  readonly load?: QuantityText;
  /** Designator of the linear regulator that makes the rail, and the rail that feeds it. */
  readonly regulator?: string;
  readonly input?: string;
  /** What the regulator needs between input and output. */
  readonly dropout?: QuantityText;
  /** Designator of the capacitor behind the rectifier; of the rail before the regulator. */
  readonly reservoir?: string;
  readonly rectifier?: "full-wave" | "half-wave";
  /** Frequency of the mains, not of the ripple. */
  readonly mains?: QuantityText;
  readonly net?: string;
  readonly testPoint?: string;
  readonly source?: string;
  /** A log names it and no file lists it: its voltage is that of its name. Never in a file. */
  readonly byName?: true;
  /** The file gives no ripple limit: it is what is usual for a rail of its name. Never in a file. */
  readonly rippleIsUsual?: true;
  /** Volts, where the limits do not lie alike on both sides of the nominal voltage. In a file it is the tolerance that says so. */
  readonly window?: readonly [low: number, high: number];
  /** Its tolerance is what is usual, and some sound boards do not keep it. Never in a file. */
  readonly usual?: true;
}

/** A part of a board by its designator, as far as the board file knows it. */
export interface Part {
  readonly ref: string;
  /** A device number as printed on the part, for parts the library may know. */
  readonly device?: string;
  /** A value as printed in the parts list, for passives: "4k7", "10 uF 16 V". */
  readonly value?: string;
  readonly package?: string;
  readonly circuit?: string;
  /** Part numbers that may be fitted here instead. */
  readonly fits: readonly string[];
  readonly socketed: boolean;
  readonly location?: string;
  /** Revisions of the board that it is on; absent where it is on all. */
  readonly revisions?: readonly string[];
  readonly note?: string;
}

/** A pin of a board: the part's designator and the pin's number, or its letters where it has none. */
export interface PinRef {
  readonly ref: string;
  readonly pin: string;
}

/** Pins that the board's tracks join: one point of the circuit, with its name. */
export interface Net {
  readonly name: string;
  readonly pins: readonly PinRef[];
}

export interface Circuit {
  readonly id: string;
  readonly title: string;
  readonly note?: string;
}

/** Rows and columns of lines with a switch or a lamp at each crossing. */
export interface Matrix {
  readonly id: string;
  readonly kind: "switch" | "lamp";
  readonly title: string;
  /** Net names, in the order of the matrix's rows and columns. */
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  /** What stands at each crossing, row by row; absent or empty where nothing is named. */
  readonly cells: readonly (readonly (string | null)[])[];
  /** Crossings that must not be exercised: [row, column], counted from 1. */
  readonly reserved: readonly (readonly [row: number, column: number])[];
  readonly circuit?: string;
}

/** One thing that the owner can choose with one or several switches of a bank. */
export interface SwitchBankSetting {
  readonly title: string;
  /** Switch numbers that make up this setting, most significant first. */
  readonly switches: readonly number[];
  /** "on"/"off" pattern in that order, as 1 and 0, to its meaning: { "00": "1 coin 1 play" }. */
  readonly meaning: ReadonlyMap<string, string>;
}

/** A bank of small option switches, by its designator, and what can be set with it. */
export interface SwitchBank {
  readonly ref: string;
  readonly settings: readonly SwitchBankSetting[];
}

/** A chip of the working memory. */
export interface MemoryPart {
  readonly ref: string;
  /** The board's data line on each of its own bits, its lowest bit first. */
  readonly data: readonly number[];
  /** First and last address it answers to; absent where it is the only bank. */
  readonly range?: { readonly from: number; readonly to: number };
}

/** What a program memory should hold: its size in bytes, and the sums in hexadecimal by which it is told. */
export interface RomImage {
  readonly ref: string;
  readonly size?: number;
  readonly sum16?: string;
  readonly crc32?: string;
  readonly sha1?: string;
}

/** A release of the program: the contents of all its memories, which belong together. */
export interface RomSet {
  readonly id: string;
  readonly title: string;
  readonly revision?: string;
  readonly images: readonly RomImage[];
}

/** What a good board reads at one place, by this board's own documents or measurements. */
export interface Expected {
  /** A procedure id: "diode-check". */
  readonly procedure: string;
  readonly ref?: string;
  readonly pin?: string;
  readonly rail?: string;
  readonly low: QuantityText;
  readonly high: QuantityText;
  readonly source: string;
  /** Position in the file's `expected` list, for showing where it came from. */
  readonly index: number;
}

/** A place in one of the file's lists, for showing where a figure came from. */
interface Listed {
  readonly index: number;
  readonly source?: string;
}

/** A reset line whose delay a resistor and a capacitor set. */
export interface Reset extends Listed {
  readonly ref: string;
  readonly pin: string;
  readonly resistor: string;
  readonly capacitor: string;
  readonly rail: string;
  /** Voltage of the capacitor at which reset lets go. */
  readonly threshold: QuantityText;
}

/** A capacitor that keeps a memory's rail alive while the power is off. */
export interface Backup extends Listed {
  readonly rail: string;
  readonly capacitor: string;
  readonly resistor?: string;
  /** The rail that charges it, and what a diode on the way takes away. */
  readonly from?: string;
  readonly drop?: QuantityText;
  /** Lowest voltage that keeps the memory, and the most it draws then. */
  readonly minimum?: QuantityText;
  readonly current?: QuantityText;
}

/** A coil outside the board, with the transistor on the board that drives it. */
export interface Coil extends Listed {
  readonly title?: string;
  readonly driver: string;
  /** The driver's continuous current. */
  readonly limit?: QuantityText;
  readonly resistance?: QuantityText;
  readonly tolerance?: QuantityText;
  /** Name of the rail that feeds it. */
  readonly supply: string;
  readonly fuse?: string;
}

/** A frequency that the board makes. */
export interface Clock extends Listed {
  readonly ref: string;
  readonly pin: string;
  readonly nominal: QuantityText;
  /** A ratio either way: "100 ppm", "10 %". */
  readonly tolerance: QuantityText;
  /** Designator of the crystal or oscillator behind it. */
  readonly from?: string;
}

/** What a board does when something fails, with the circuits to look into, the likeliest first. */
export interface Symptom {
  readonly id: string;
  readonly title: string;
  /** What the display shows, or the flash code, where that is how it is seen. */
  readonly shows?: string;
  readonly circuits: readonly string[];
  /** Names of matrix crossings that all bring it about. */
  readonly inputs?: readonly string[];
  readonly note?: string;
}

/** A code that a test program or a fixture shows for this board. */
export interface TestCode {
  /** As it is shown: "E 3". */
  readonly code: string;
  readonly title: string;
  /** Designators that it points to, the likeliest first. */
  readonly parts: readonly string[];
  readonly circuits: readonly string[];
  /** It says that the program came to its end. */
  readonly pass?: true;
  readonly note?: string;
}

/**
 * A change that is made to boards of this type: what to do, what it takes, and what it must not be made together with.
 */
export interface Modification {
  readonly id: string;
  readonly title: string;
  readonly steps: readonly string[];
  readonly parts: readonly string[];
  /** Safety or slam inputs, or functions, that are out of action once it is made, by the names the owner knows. */
  readonly defeats: readonly string[];
  readonly requires: readonly string[];
  readonly conflicts: readonly string[];
  readonly revisions: readonly string[];
}

/** One thing that has to be seen to work before the board goes back. */
export interface ProvingItem {
  readonly id: string;
  readonly title: string;
  /** Procedure whose table proves it. */
  readonly procedure: string;
  readonly matrix?: string;
}

/**
 * A type of board as its file describes it. What the file leaves out is an empty list or map; all parts of it are
 * optional.
 */
export interface Board {
  readonly id: string;
  readonly title: string;
  readonly maker?: string;
  readonly era?: { readonly from: number; readonly to: number };
  readonly revisions: ReadonlyMap<string, string>;
  readonly rails: ReadonlyMap<string, Rail>;
  readonly parts: ReadonlyMap<string, Part>;
  readonly nets: ReadonlyMap<string, Net>;
  /** Names of the nets that are ground. */
  readonly grounds: readonly string[];
  readonly circuits: ReadonlyMap<string, Circuit>;
  readonly matrices: ReadonlyMap<string, Matrix>;
  readonly switchBanks: ReadonlyMap<string, SwitchBank>;
  readonly memory: readonly MemoryPart[];
  readonly romSets: ReadonlyMap<string, RomSet>;
  readonly expected: readonly Expected[];
  readonly resets: readonly Reset[];
  readonly backups: readonly Backup[];
  readonly coils: readonly Coil[];
  readonly clocks: readonly Clock[];
  readonly symptoms: ReadonlyMap<string, Symptom>;
  /** By the code as it is shown; absent where the file names none. */
  readonly codes?: ReadonlyMap<string, TestCode>;
  readonly modifications: ReadonlyMap<string, Modification>;
  readonly proving: readonly ProvingItem[];
  readonly cautions: readonly string[];
  readonly source?: string;
}

/** One range of a meter, with the figures of its manual. */
export interface MeterRange {
  /** "dc-volts", "ac-volts", "diode", "ohms", "capacitance", "esr", "frequency", "dc-amps". */
  readonly function: string;
  readonly range: QuantityText;
  readonly resolution?: QuantityText;
  /** Percent of reading plus counts of the last digit. */
  readonly accuracy?: { readonly reading: QuantityText; readonly counts: number };
  readonly testVoltage?: QuantityText;
  /** What the diode range drives through the part. */
  readonly testCurrent?: QuantityText;
}

/** A meter of the shop; its accuracy gives readings their uncertainty. */
export interface Meter {
  readonly id: string;
  readonly title: string;
  readonly ranges: readonly MeterRange[];
  readonly note?: string;
}

/** Pieces of one part that the shop has on its shelf. */
export interface StockItem {
  readonly part: string;
  readonly quantity: number;
  /** Of the entry in its file, from 0: one that could not be read is left out of the list. */
  readonly index: number;
  /** Decimal text, never a binary fraction: "0.65". */
  readonly price?: string;
  readonly location?: string;
  readonly note?: string;
}

/** How a job is priced, where the shop wants that written down. */
export interface QuoteRules {
  readonly show: boolean;
  /** What becomes of exactly half of the smallest coin. */
  readonly rounding: "half-away-from-zero" | "half-even";
  /** Each line is rounded, or only the sums. */
  readonly round: "line" | "total";
  /** The rate as typed: "20 %". */
  readonly tax?: { readonly title: string; readonly rate: QuantityText };
}

/** Parts that were ordered; ISO 8601 days. Absent `received`: on the way. */
export interface PartOrder {
  readonly part: string;
  readonly quantity: number;
  readonly ordered: string;
  readonly received?: string;
  /** Pieces that came, where it was not all of them. */
  readonly receivedQuantity?: number;
  /** Pieces that were added to the stock. */
  readonly stocked?: number;
  /** Of the entry in its file, from 0. */
  readonly index: number;
}

/** Pieces of an order that came. */
export const piecesReceived = ({ quantity, received, receivedQuantity }: PartOrder): number =>
  receivedQuantity ?? (received === undefined ? 0 : quantity);

/** What boards of a type read at one place in several shops. Values in SI base units. */
export interface PooledLimit {
  readonly board: string;
  /** Absent for limits of all revisions. */
  readonly revision?: string;
  readonly procedure: string;
  readonly measure: string;
  readonly load?: "unloaded" | "loaded";
  /** "U14.3", "U14" or "rail +5V". */
  readonly place: string;
  /** An end that is absent says nothing. */
  readonly low?: number;
  readonly middle: number;
  readonly high?: number;
  readonly unit: string;
  readonly boards: number;
  readonly shops: number;
  /** Of the entry in its file, from 0. */
  readonly index: number;
}

/** Limits that several shops made of their readings together, with where the file says they come from. */
export interface PooledLimits {
  readonly source: string;
  readonly limits: readonly PooledLimit[];
}

/** How the findings of a check weigh; "off" leaves them out. */
export type CheckLevel = "error" | "warning" | "information" | "hint" | "off";

/** What a shop file says of one check. */
export interface ShopCheck {
  readonly severity?: CheckLevel;
  /** By the option's name; only values within the option's bounds. */
  readonly options: ReadonlyMap<string, number>;
}

/** What one workshop has and how it works: its meters, stock, prices, and how it wants findings weighed. */
export interface Shop {
  readonly name: string;
  readonly currency?: string;
  readonly labour?: {
    /** Decimal text, never a binary fraction. */
    readonly rate: string;
    readonly per: string;
    /** Hours for each kind of work, as decimal text: "replace" to "0.25". */
    readonly actions: ReadonlyMap<string, string>;
  };
  readonly quote?: QuoteRules;
  readonly meters: ReadonlyMap<string, Meter>;
  readonly stock: readonly StockItem[];
  readonly report: ReadonlyMap<string, string>;
  /** Texts for the bill, by name: "payment" to what is to be paid where. */
  readonly bill?: ReadonlyMap<string, string>;
  readonly orders?: readonly PartOrder[];
  /** Quantities are kept up to date by what logs fit. */
  readonly countStock?: true;
  /** Days of warranty on a job that says nothing else. */
  readonly warrantyDays?: number;
  /** Path from the shop file of a file of pooled limits, "/" between folders. */
  readonly limitsFrom?: string;
  /** Front-matter fields of the shop's own, with what each is for. */
  readonly logFields?: ReadonlyMap<string, string>;
  /** By the check's code; absent where the file says nothing of any. */
  readonly checks?: ReadonlyMap<string, ShopCheck>;
}

/** What a column of a table holds; the procedure maps header words to one of these. */
export const COLUMN_ROLES = [
  "ref", // chip designator
  "pin",
  "rail",
  "signal", // a net or test point by name
  "reading", // a quantity measured
  "state", // H, L, pulsing, floating
  "result", // ok, dead, pass or fail words
  "expected",
  "row", // of a matrix
  "column", // of a matrix
  "cell", // a matrix crossing by name
  "switch", // of a switch bank
  "setting",
  "item", // what was looked at or proven
  "action",
  "part",
  "value", // of a passive part, as marked
  "package",
  "circuit",
  "from", // one end of a connection: a pin, or a net or rail by name
  "to",
  "quantity",
  "check", // a sum, CRC or hash as typed, or the image file it is of
  "unit",
  "date", // ISO 8601 day a thing was done
  "note",
] as const;
/**
 * What the cells of a column are to a row: what names the place ("ref", "pin"), what was read there, or words about it.
 */
export type ColumnRole = (typeof COLUMN_ROLES)[number];

/** A column that tables of a procedure may have: the headers by which it is known, and what stands in it. */
export interface ColumnSpec {
  readonly role: ColumnRole;
  /** Name of what is measured, unique in the procedure, for role "reading": "drop", "ripple". */
  readonly measure?: string;
  /** Header words, the first is the one written into new tables. Compared without case or unit. */
  readonly headers: readonly string[];
  readonly quantity?: string; // "voltage", "resistance", "capacitance", "frequency", "time", "current"
  /** Unit assumed where neither header nor cell gives one. */
  readonly unit?: string;
  /** True where readings may be below zero. */
  readonly signed?: boolean;
  readonly required: boolean;
}

/**
 * A kind of test or table: the headings and columns it is told by, and how the work is done. Cautions are shown before
 * its steps.
 */
export interface Procedure {
  readonly id: string;
  readonly title: string;
  readonly aliases: readonly string[];
  /** Words that name it only where they are the whole heading: "Probe", "Volts". */
  readonly alone: readonly string[];
  readonly powered: "unpowered" | "powered" | "either";
  readonly columns: readonly ColumnSpec[];
  /**
   * The wide form: what the first column and the other headers hold, and the measure in the cells.
   * `{ rows: "pin", columns: "ref", cells: "drop" }`; absent where only the long form makes sense.
   */
  readonly wide?: {
    readonly rows: ColumnRole;
    readonly columns: ColumnRole;
    /** `measure` of a reading column, or the role of a state or result column. */
    readonly cells: string;
  };
  readonly meter?: { readonly function: string; readonly testVoltage?: QuantityText };
  readonly purpose: string;
  readonly setup: readonly string[];
  readonly steps: readonly string[];
  readonly interpret: readonly string[];
  readonly cannotTell: readonly string[];
  readonly cautions: readonly string[];
  readonly source: string;
}
