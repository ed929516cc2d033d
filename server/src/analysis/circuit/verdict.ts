import { compare } from "../judge/compare";
import type { Verdict } from "../judge/types";

/** A verdict with the sentence that explains it, the comparison with its numbers and whose rule it is. */
export interface Ruling {
  readonly ok: true;
  readonly verdict: Verdict;
  /** Full sentences: what was found, against what, what it may mean and what to do. */
  readonly sentence: string;
  readonly formula: string;
  readonly source: string;
}

export interface Limits {
  readonly low?: number;
  readonly high?: number;
  readonly unit: string;
}

/**
 * A value with its uncertainty against limits, all in `unit`. Straddling a limit is suspect, not out
 * (guard band of one uncertainty, JCGM 106 clause 8).
 */
export function hold(value: number, limits: Limits, uncertainty = 0) {
  return compare(
    { low: value, high: value },
    { ...limits, kind: "physics", of: "", source: "" },
    uncertainty,
  );
}

const WEIGHT: readonly Verdict[] = [
  "not-measured",
  "unjudged",
  "within-limits",
  "suspect",
  "out-of-limits",
  "impossible",
];

/** The gravest of several verdicts; "unjudged" where there are none. */
export const gravest = (verdicts: readonly Verdict[]): Verdict =>
  verdicts.reduce<Verdict>((a, b) => (WEIGHT.indexOf(b) > WEIGHT.indexOf(a) ? b : a), "unjudged");
