// The owner's report as plain data: what every form of it is written from. Texts are as they are read, not escaped
// for any format.
import type { LogContext } from "../../judge/context";
import type { FrontMatter } from "../../knowledge/load-front-matter";
import type { LogDocument } from "../../log/document";
import type { ProvingState } from "../../review/proving";

/** What a report is made from: a log with all that is known around it. */
export interface ReportSource {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
  readonly ctx: LogContext;
  /** Name of the board's file, where there is no log and the sheet is of a board. */
  readonly ofBoard?: string;
  /** The job's other boards, each with its own log. */
  readonly others?: readonly ReportSource[];
}

/** A label and what stands beside it: "Serial number", "01873". */
export interface Fact {
  readonly label: string;
  readonly text: string;
}

export interface FoundItem {
  /** "U14 (hex Schmitt inverter, switch matrix)", or what was looked at. */
  readonly where: string;
  /** Full sentences or clauses, one an observation. */
  readonly said: readonly string[];
  /** What the work done says of that place: "replaced". */
  readonly outcome?: string;
}

export interface DoneItem {
  readonly date?: string;
  readonly where: string;
  readonly action: string;
  readonly part?: string;
  readonly note?: string;
}

/** Amounts as decimal text in the shop's currency. */
export interface QuoteTable {
  readonly currency: string;
  readonly lines: readonly {
    readonly what: string;
    readonly count: string;
    readonly each: string;
    readonly total: string;
  }[];
  readonly sums: readonly Fact[];
  readonly notes: readonly string[];
}

export interface FittedItem {
  readonly part: string;
  readonly quantity: string;
  readonly where: string;
  readonly note?: string;
  /** What the library says of that part in this place, where it is a substitute. */
  readonly caution?: string;
}

/** A reading as it is drawn: a number, or off one end of the scale. */
export interface ChartMark {
  /** "reading" where nothing was repaired. */
  readonly label: "before the repair" | "after the repair" | "reading";
  /** As typed, with its unit: "1.487 V", "OL". */
  readonly text: string;
  /** SI base unit; absent for open, which lies beyond the upper end. */
  readonly value?: number;
  readonly inside: boolean;
}

export interface ReadingChart {
  /** "U14 pin 1, diode check". */
  readonly title: string;
  readonly before?: ChartMark;
  readonly after?: ChartMark;
  /** Limits in the SI base unit; either end may be open. */
  readonly low?: number;
  readonly high?: number;
  /** "0.4 V to 0.7 V". */
  readonly limits: string;
  /** Both ends of the limits, where there are two. */
  readonly ends?: readonly [low: string, high: string];
  readonly source: string;
}

export interface ProvingLine {
  readonly item: string;
  readonly state: ProvingState | "recorded";
  /** What bears it out, or is still open, with the log's reason. */
  readonly said: string;
}

/** A picture of the log: inlined where its bytes could be had, else left out with the reason. */
export interface ReportImage {
  readonly alt: string;
  /** As written in the log. */
  readonly source: string;
  /** A `data:` uri. */
  readonly data?: string;
  /** Why it is left out, as a clause: "it is not in the workspace". */
  readonly leftOut?: string;
  /** One of two of the same place; the one of after stands right behind the one of before. */
  readonly when?: "before" | "after";
}

export interface OwnerReport {
  readonly format: 1;
  readonly title: string;
  readonly shop?: string;
  /** Where the job is not returned: what the reader must know of that. */
  readonly draft?: string;
  readonly facts: readonly Fact[];
  /** What the owner said, in their words. */
  readonly complaint?: string;
  readonly symptoms: readonly string[];
  readonly found: readonly FoundItem[];
  readonly done: readonly DoneItem[];
  readonly fitted: readonly FittedItem[];
  /** Only where the shop file asks for it. */
  readonly quote?: QuoteTable;
  readonly charts: readonly ReadingChart[];
  /** What the readings cannot say. */
  readonly chartsNote: string;
  readonly proving: readonly ProvingLine[];
  /** What the owner must check before powering, the most urgent first. */
  readonly beforePower: readonly string[];
  readonly cautions: readonly string[];
  /** The log's own words to the owner: sections headed so, a paragraph each. */
  readonly notes: readonly string[];
  readonly images: readonly ReportImage[];
  /** The shop file's texts: the warranty first. */
  readonly closing: readonly Fact[];
}
