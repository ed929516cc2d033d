import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import type { LogSummary } from "../../log/summary";
/** A place on a board that readings of several jobs can be compared at, in the board's own names. */
export interface BaselinePlace {
  readonly procedure: string;
  readonly measure: string;
  /** Unloaded and loaded rails are two things. */
  readonly load?: "unloaded" | "loaded";
  readonly at:
    | { readonly rail: string }
    /** The pin's number, or its letters where it has none; absent for a part with one reading. */
    | { readonly ref: string; readonly pin?: string };
}

/** One job's reading at a place. */
export interface BaselineReading {
  readonly uri: string;
  /** The job number, or the file's name where it has none. */
  readonly job: string;
  readonly revision?: string;
  /** In `unit`, SI base; infinite for a place that read open. */
  readonly value: number;
  /** One step of the last digit typed, in `unit`; 0 where no number was. */
  readonly resolution: number;
  readonly unit: string;
}

/** Share of sound boards that limits made of the shop's readings are to hold. Common practice, no source. */
export const COVERAGE = 0.95;
/** How sure it is to be that they hold that many, 0 to 1. Common practice, no source. */
export const CONFIDENCE = 0.95;
/**
 * Fewest boards that make limits. With five the modified z-score can tell an odd one out, and the factor has come
 * down to 5.08; below it one odd board would set the limits. Common practice, no source.
 */
export const FEWEST_BOARDS = 5;
/**
 * Most boards of one revision that make limits, those returned last: parts and meters of ten years ago say less of the
 * next board than those of today, the tolerance factor hardly falls any more (2.14 for 200, 1.96 for all), and what a log
 * costs does not grow with the shop's years. Common practice, no source.
 */
export const MOST_BOARDS = 200;

/** Limits made from `n` boards; `centre ± factor × spread`. All values in `unit`. */
export interface Baseline {
  readonly n: number;
  /** Mean of what was kept. */
  readonly centre: number;
  /** Standard deviation with divisor n-1, at least what the digits typed leave open. */
  readonly spread: number;
  /** Two-sided tolerance factor for normal readings, exact, for 95 % of all boards with 95 % confidence. */
  readonly factor: number;
  readonly method: "two-sided normal tolerance interval";
  /** Absent where it lies on the other side of zero from every reading, and so says nothing. */
  readonly low?: number;
  readonly high?: number;
  readonly unit: string;
  /** The one revision the boards are of, where enough of it were read; absent where all were taken. */
  readonly revision?: string;
  /** The readings that count, the last job returned first. */
  readonly jobs: readonly BaselineReading[];
  /** Readings left out as outliers. */
  readonly leftOut: readonly BaselineReading[];
  /** "this shop's own readings: 7 returned boards, 95 %/95 % tolerance interval; jobs ..." */
  readonly source: string;
}

/** One job's reading together with the place it was taken at. */
export interface PlaceReading extends BaselineReading {
  readonly place: BaselinePlace;
}

/** What one job read: each reading with the key of its place, which is the same string for all jobs of the board. */
export interface JobReadings {
  readonly keys: readonly string[];
  readonly readings: readonly PlaceReading[];
}

/** All that a board's returned jobs read, by place; the last job returned first at each. */
export interface BoardHistory {
  readonly board: Board;
  readonly library: Library;
  readonly jobs: readonly LogSummary[];
  readonly at: ReadonlyMap<string, readonly PlaceReading[]>;
  /** What they read was gathered, and is held in memory. */
  isAtHand(): boolean;
  /** What one of them read, where that is so. */
  readBy(job: LogSummary): JobReadings | undefined;
}

/** The shop's limits as they are for one log: without its own readings. */
export interface Baselines {
  readonly history: BoardHistory;
  /** Uri of the log whose own readings do not count, where it is among the jobs. */
  readonly except: string | undefined;
  readonly revision: string | undefined;
  /** Undefined where too few boards were read, or too few of them agree. Computed when first asked for. */
  at(place: BaselinePlace): Baseline | undefined;
}
