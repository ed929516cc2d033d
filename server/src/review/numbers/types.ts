// What a shop's jobs add up to, as rows: the same rows, under the same names, that the questions in server/data/questions
// give of the exported tables. Days are ISO 8601 days, values SI base units; `null` is what a column has nothing for.

import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import type { Logs } from "../../log/job-index";

export interface NumbersInput {
  /** Every log that counts, in the order of their uris. */
  readonly logs: Logs;
  readonly library: Library;
  /** What is known of a board that logs name: its file with what its logs say, or what they say alone. */
  boardOf(id: string): Board | undefined;
}

/** A place on a board that readings of several jobs are compared at. */
export interface PlaceColumns {
  readonly board: string;
  readonly procedure: string;
  readonly measure: string;
  readonly load: "unloaded" | "loaded" | null;
  /** "U14.3", "U14" or "rail +5V". */
  readonly place: string;
}

/** The shop's own limits at one place, from its boards' readings. */
export interface LimitsRow extends PlaceColumns {
  /** Boards of this revision only; null for those of all. */
  readonly revision: string | null;
  readonly boards: number;
  readonly leftOut: number;
  readonly median: number;
  readonly centre: number;
  readonly spread: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly unit: string;
}

/** How what boards read at one place has changed over the years. */
export interface DriftRow extends PlaceColumns {
  readonly boards: number;
  /** Change in a year of 365.25 days. */
  readonly slope: number;
  readonly rising: number;
  readonly falling: number;
  readonly unit: string;
  /** See `Trend`. Not a column of the question: no standard SQL has the normal distribution. */
  readonly chance: number;
}

/** One year's readings of a place; open circuits left out. */
export interface YearRow extends PlaceColumns {
  readonly inYear: number;
  readonly boards: number;
  readonly median: number;
  readonly unit: string;
}

/** One meter's readings of a place that two meters or more have read. */
export interface MeterRow extends PlaceColumns {
  /** Null for logs that name none. */
  readonly meter: string | null;
  readonly boards: number;
  readonly median: number;
  readonly unit: string;
}

/** How often another part at a place cured a symptom. */
export interface CureRow {
  readonly board: string;
  readonly symptom: string;
  readonly ref: string;
  /** Returned jobs with the symptom that put another part there and did not come back with it. */
  readonly cured: number;
  /** All returned jobs with the symptom that did not come back with it. */
  readonly jobs: number;
}

export interface FailureRow {
  /** Null where the row counts a part's number on all boards. */
  readonly board: string | null;
  /** The place's designator, or the number of the part that was put in. */
  readonly part: string;
  readonly inYear: number | null;
  readonly jobs: number;
  /** Jobs of that year on that board, or on all. */
  readonly ofJobs: number;
}

export interface ComebackRow {
  readonly board: string | null;
  readonly job: string | null;
  readonly earlier: string | null;
  /** From the day the earlier one went back to the day this one came. */
  readonly days: number | null;
  /** The log names the earlier job, or the board's serial number was here before. */
  readonly told: "named" | "same board";
  readonly sameSymptom: boolean;
}

export interface HoursRow {
  readonly board: string;
  /** Null for all jobs on the board. */
  readonly symptom: string | null;
  readonly jobs: number;
  readonly shortest: number;
  readonly median: number;
  readonly longest: number;
  readonly total: number;
}

/** All figures of a shop: how many jobs there are, and the rows of each question. */
export interface ShopNumbers {
  /** Boards that came: a log about several has one job for each. */
  readonly jobs: number;
  readonly returned: number;
  readonly limits: readonly LimitsRow[];
  readonly drift: readonly DriftRow[];
  readonly years: readonly YearRow[];
  readonly meters: readonly MeterRow[];
  readonly cures: readonly CureRow[];
  readonly failures: readonly FailureRow[];
  readonly comebacks: readonly ComebackRow[];
  readonly hours: readonly HoursRow[];
}
