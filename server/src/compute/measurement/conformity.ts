// Whether a measured value conforms to limits, when it is only known to within its uncertainty.
// JCGM 106:2012: conformance probability (7), guard bands and acceptance intervals (8.3), risks (9.3). Clause
// numbers from memory; terms as in the guide.

import { defined } from "../../base/defined";
import { err, type Ok, ok, type Result } from "../result";
import { normalTail } from "./normal";

/** Tolerance limits in the unit of the value; an end left out or infinite is open. The limits themselves conform. */
export interface ToleranceLimits {
  readonly low?: number;
  readonly high?: number;
}

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * Probability that the true value lies within the limits and outside them, for a true value that is normal
 * around `value` with standard uncertainty `u`. Both are computed, since either may be too small to be one
 * minus the other. An infinite value (an overload) is beyond every finite limit; the caller sees to it that
 * the limit lies within the meter's range. With u = 0 the answer is 0 or 1.
 */
export function conformanceProbability(
  value: number,
  u: number,
  limits: ToleranceLimits,
): Result<Ok<{ readonly within: number; readonly outside: number }>> {
  const bounds = boundsOf(limits);
  if (!bounds.ok) return bounds;
  const bad = badMeasurement(value, u);
  return bad === undefined ? ok(probability(value, u, bounds.value)) : err(bad);
}

function probability(value: number, u: number, { low, high }: Interval) {
  if (u === 0 || !Number.isFinite(value)) {
    const inside = value >= low && value <= high;
    return { within: inside ? 1 : 0, outside: inside ? 0 : 1 };
  }
  // A quotient too large for a double is rightly infinite: its tail is 0 or 1.
  const toLow = (value - low) / u;
  const toHigh = (high - value) / u;
  const below = normalTail(toLow);
  const above = normalTail(toHigh);
  // The difference is taken on the side where the tails are small.
  const within =
    toHigh < 0
      ? normalTail(-toHigh) - normalTail(toLow)
      : toLow < 0
        ? normalTail(-toLow) - normalTail(toHigh)
        : 1 - below - above;
  return { within: Math.max(0, within), outside: Math.min(1, below + above) };
}

export interface GuardBand {
  /** r of w = r U: 1 where nothing is said, 0 for simple acceptance (no guard band). */
  readonly ratio?: number;
  /** k of U = k u: 2 where nothing is said. */
  readonly coverageFactor?: number;
}

export interface Conformity {
  /** `in-guard-band`: nearer to a limit than w on either side of it; neither can be said. */
  readonly decision: "conforming" | "non-conforming" | "in-guard-band";
  /** The limit in question, where the decision is not `conforming`; the nearer one where both are. */
  readonly side?: "low" | "high";
  /** Conformance probability of this value. */
  readonly probability: number;
  /** Specific risk of calling it conforming (consumer's) and of calling it non-conforming (producer's). */
  readonly ifAccepted: number;
  readonly ifRejected: number;
  /** U and w in the unit of the value. */
  readonly expanded: number;
  readonly guard: number;
  /** Values called conforming: the limits less w at each end. Undefined where nothing is left between. */
  readonly acceptance?: Interval;
  /** Values not called non-conforming: the limits and w more at each end. */
  readonly notRejected: Interval;
  /**
   * Risks at the edges, the largest this rule allows: the consumer's for a value just accepted, the producer's
   * for a value just rejected. 2.275 % each for a single limit and w = 2u. 0 where no value is accepted or rejected.
   */
  readonly consumersRisk: number;
  readonly producersRisk: number;
}

/**
 * Decides about one value by guarded acceptance on one side and guarded rejection on the other (JCGM 106:2012
 * 8.3.2, 8.3.3, from memory), so that neither is claimed within w = r U of a limit. Refuses NaN, a negative
 * or infinite uncertainty, limits the wrong way round and the absence of any limit, with a message.
 */
export function conformity(
  value: number,
  u: number,
  limits: ToleranceLimits,
  band: GuardBand = {},
): Result<Ok<Conformity>> {
  const bounds = boundsOf(limits);
  if (!bounds.ok) return bounds;
  const { ratio = 1, coverageFactor = 2 } = band;
  const bad =
    badMeasurement(value, u) ??
    notNegative("guard band's ratio", ratio) ??
    notNegative("coverage factor", coverageFactor);
  if (bad !== undefined) return err(bad);
  const tolerance = bounds.value;
  const expanded = coverageFactor * u;
  const guard = ratio * expanded;
  const inner = { low: tolerance.low + guard, high: tolerance.high - guard };
  const outer = { low: tolerance.low - guard, high: tolerance.high + guard };
  const acceptance = inner.low <= inner.high ? inner : undefined;
  const decision =
    acceptance && holds(acceptance, value)
      ? "conforming"
      : holds(outer, value)
        ? "in-guard-band"
        : "non-conforming";
  const side = value - tolerance.low < tolerance.high - value ? "low" : "high";
  const { within, outside } = probability(value, u, tolerance);
  const atEdges = (edges: Interval | undefined, of: "within" | "outside"): number =>
    Math.max(
      0,
      ...[edges?.low, edges?.high]
        .filter((edge) => edge !== undefined && Number.isFinite(edge))
        .map((edge) => (u === 0 ? 0 : probability(edge!, u, tolerance)[of])),
    );
  return ok(
    defined({
      decision,
      side: decision === "conforming" ? undefined : side,
      probability: within,
      ifAccepted: outside,
      ifRejected: within,
      expanded,
      guard,
      acceptance,
      notRejected: outer,
      consumersRisk: atEdges(acceptance, "outside"),
      producersRisk: atEdges(outer, "within"),
    }),
  );
}

const holds = ({ low, high }: Interval, value: number): boolean => value >= low && value <= high;

function boundsOf(limits: ToleranceLimits): Result<Ok<Interval>> {
  const { low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY } = limits;
  if (Number.isNaN(low) || Number.isNaN(high)) return err("A limit is not a number.");
  if (!Number.isFinite(low) && !Number.isFinite(high)) return err("There is no limit to conform to.");
  if (low > high) return err(`The lower limit ${low} is above the upper limit ${high}.`);
  return ok({ low, high });
}

function badMeasurement(value: number, u: number): string | undefined {
  if (Number.isNaN(value)) return "The measured value is not a number.";
  return notNegative("standard uncertainty", u);
}

const notNegative = (name: string, number: number): string | undefined =>
  number >= 0 && Number.isFinite(number)
    ? undefined
    : `The ${name} must be a finite number not below 0, not ${number}.`;
