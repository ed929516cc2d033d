// What boards that somebody says work read at one place, and how wide that stands for other boards of the type.
import type { BaselinePlace, BaselineReading } from "../baseline/types";

/** How far another board may read from one, in the unit of the reading. */
export interface Width {
  /** Half of the window, never below `least`. */
  readonly half: number;
  /** What is allowed whatever else: common practice, no source. */
  readonly least: number;
  /** `least` as a share of the reading; absent where it is a figure of its own. */
  readonly share?: number;
  /** What the like pins in the same job made of it; absent where that is no more than `least`, or there are too few. */
  readonly spread?: { readonly pins: number; readonly sigma: number };
}

/** One board's reading at a place. */
export interface ReferenceReading extends BaselineReading, Width {}

/** Limits from the reference jobs at one place. All values in `unit`. */
export interface ReferenceLimits {
  /** Absent where it lies on the other side of zero from every reading, or where less is no fault. */
  readonly low?: number;
  readonly high?: number;
  /** Twice as far: what lies between is suspect only. */
  readonly beyond: { readonly low: number; readonly high: number };
  readonly unit: string;
  /** The last job first. */
  readonly readings: readonly ReferenceReading[];
  /** "the reference job 2026-003 read 0.58 V there; one board, at least ±50 mV by common practice, no source" */
  readonly source: string;
}

/** The reference jobs as they stand for one log: without its own readings. */
export interface References {
  /** Stands for the jobs, their board and their meters: another object where any of them changed. */
  readonly of: object;
  /** Uri of the log whose own readings do not count, where it is among the jobs. */
  readonly except: string | undefined;
  readonly revision: string | undefined;
  /**
   * Computed when first asked for.
   * @param family id of the logic family of the chip that is read, where it is known: one of another family is not compared
   */
  at(place: BaselinePlace, family?: string): ReferenceLimits | undefined;
}
