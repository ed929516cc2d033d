// The one comparison of a value with limits, for what was read as well as for what was worked out. It gives what was
// found and the numbers it was found from; the words are made from them in `text.ts`.

/** An end of a window. */
export type Side = "low" | "high";

/** What is held against limits, in their unit: one value, or the ends of a range; infinite where it is open. */
export interface Extent {
  readonly low: number;
  readonly high: number;
}

/** Both limits belong to the window; one left out is open. */
export interface Limits {
  readonly low?: number;
  readonly high?: number;
  readonly unit: string;
}

/** The half-width about the value, or the two ends where they lie unevenly. */
export type Uncertainty = number | readonly [lowest: number, highest: number];

/** How strictly a value is held to its limits; figures are in the value's own unit. */
export interface How {
  readonly uncertainty?: Uncertainty;
  /**
   * False for limits that are no specification: what lies inside them is not called into question for lying near
   * them. True where nothing is said.
   */
  readonly guardInside?: boolean;
  /** Limits further out: what lies between the two is suspect and not out. */
  readonly beyond?: Extent;
}

/** What came of comparing a value with limits, with the numbers that it came from. */
export interface Comparison {
  readonly verdict: "within-limits" | "suspect" | "out-of-limits";
  /** The limit that it lies outside of or reaches across; absent within limits. */
  readonly limit?: Side;
  /** Where it lies for the most part: the same as `limit` but for a range that reaches across both. */
  readonly side?: Side;
  /** Wholly outside the limits, though not beyond those further out. */
  readonly isBetween?: true;
  readonly extent: Extent;
  readonly limits: Limits;
  readonly uncertainty: Uncertainty;
}

/**
 * Outside by more than the uncertainty is out of limits. What straddles a limit with its uncertainty is suspect (guard
 * band of one uncertainty, JCGM 106 clause 8), and so is a range that only partly lies outside.
 */
export function compareToLimits(value: number | Extent, limits: Limits, how: How = {}): Comparison {
  const { uncertainty = 0, guardInside = true, beyond } = how;
  const extent = typeof value === "number" ? { low: value, high: value } : value;
  const low = limits.low ?? Number.NEGATIVE_INFINITY;
  const high = limits.high ?? Number.POSITIVE_INFINITY;
  const [lowest, highest] =
    typeof uncertainty === "number" ? [extent.low - uncertainty, extent.high + uncertainty] : uncertainty;
  const outside = (limit: Side, isBetween: boolean): Comparison =>
    isBetween
      ? { ...numbers, verdict: "suspect", limit, side: limit, isBetween }
      : { ...numbers, verdict: "out-of-limits", limit, side: limit };
  const across = (limit: Side): Comparison => ({
    ...numbers,
    verdict: "suspect",
    limit,
    side: mostly(extent, { low, high }),
  });
  const numbers = { extent, limits, uncertainty };
  if (lowest > high) return outside("high", lowest <= (beyond?.high ?? high));
  if (highest < low) return outside("low", highest >= (beyond?.low ?? low));
  if ((guardInside ? highest : extent.high) > high) return across("high");
  if ((guardInside ? lowest : extent.low) < low) return across("low");
  return { ...numbers, verdict: "within-limits" };
}

/** The limit that the middle lies outside of, or else the nearer one. */
function mostly(extent: Extent, { low, high }: Extent): Side {
  const middle = extent.low === extent.high ? extent.low : (extent.low + extent.high) / 2;
  if (middle > high) return "high";
  if (middle < low) return "low";
  return middle - low < high - middle ? "low" : "high";
}
