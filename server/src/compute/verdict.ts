import { say } from "../quantity/say";

/** What a reading comes to; see each judge for when it gives which. */
export type Verdict =
  | "impossible"
  | "out-of-limits"
  | "suspect"
  | "within-limits"
  | "unjudged"
  | "not-measured";

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

export interface Held {
  readonly verdict: Extract<Verdict, "within-limits" | "suspect" | "out-of-limits">;
  readonly side?: "low" | "high";
  readonly formula: string;
}

/**
 * A value against limits, all in `unit`; both limits belong to the window. `uncertainty` is the half-width about the
 * value, or the two ends where they lie unevenly. A value that straddles a limit is suspect, not out (guard band of
 * one uncertainty, JCGM 106 clause 8).
 */
export function hold(
  value: number,
  limits: Limits,
  uncertainty: number | readonly [lowest: number, highest: number] = 0,
): Held {
  const { unit } = limits;
  const low = limits.low ?? Number.NEGATIVE_INFINITY;
  const high = limits.high ?? Number.POSITIVE_INFINITY;
  const even = typeof uncertainty === "number";
  const [lowest, highest] = even ? [value - uncertainty, value + uncertainty] : uncertainty;
  const read = `${say(value, unit)}${spread(uncertainty, unit)}`;
  if (lowest > high)
    return { verdict: "out-of-limits", side: "high", formula: `${read} > ${say(high, unit)}` };
  if (highest < low) return { verdict: "out-of-limits", side: "low", formula: `${read} < ${say(low, unit)}` };
  if (highest > high)
    return { verdict: "suspect", side: "high", formula: `${read} straddles ${say(high, unit)}` };
  if (lowest < low)
    return { verdict: "suspect", side: "low", formula: `${read} straddles ${say(low, unit)}` };
  const from = Number.isFinite(low) ? `${say(low, unit)} ≤ ` : "";
  const to = Number.isFinite(high) ? ` ≤ ${say(high, unit)}` : "";
  return { verdict: "within-limits", formula: `${from}${read}${to}` };
}

function spread(uncertainty: number | readonly [number, number], unit: string): string {
  if (typeof uncertainty === "number") return uncertainty > 0 ? ` ± ${say(uncertainty, unit)}` : "";
  const [lowest, highest] = uncertainty;
  return lowest === highest ? "" : ` (${say(lowest, unit)} to ${say(highest, unit)})`;
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
