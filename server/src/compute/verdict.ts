import type { Saying } from "../text/saying";
import type { Side } from "./limits/compare";

/** What a reading comes to; see each judge for when it gives which. */
export type Verdict =
  | "impossible"
  | "out-of-limits"
  | "suspect"
  | "within-limits"
  | "unjudged"
  | "not-measured";

/** A verdict with the words that explain it, the comparison with its numbers and whose rule it is. */
export interface Assessment {
  readonly ok: true;
  readonly verdict: Verdict;
  /** Which way it left its limits; absent within them, and where there are none to leave. */
  readonly side?: Side | undefined;
  /** What was found, against what, what it may mean and what to do. */
  readonly says: Saying;
  readonly formula: string;
  readonly source: string;
  /** They say that nothing was proved, so that nobody need say it behind. */
  readonly saysUnproven?: boolean;
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
