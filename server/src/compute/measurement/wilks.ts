// Tolerance limits without any distribution: the smallest and the largest reading themselves (Wilks, 1941).
// Formulas from memory; they follow from the beta distribution of order statistics.

import { err, fraction, type Ok, ok, type Result } from "../result";
import type { ToleranceDemand } from "./tolerance-interval";

/** `both`: between the smallest and the largest reading; `one`: below the largest or above the smallest. */
export type WilksSides = "one" | "both";

/**
 * Probability that the extremes of `n` readings hold at least the share `coverage` of all readings: 1 - p^n one-sided,
 * 1 - p^(n-1) (n (1 - p) + p) two-sided.
 */
export function wilksConfidence(n: number, coverage: number, sides: WilksSides): Result<Ok<number>> {
  const bad = fraction("coverage", coverage);
  if (bad !== undefined) return err(bad);
  if (!Number.isInteger(n) || n < 1) return err(`Too few: ${n} readings.`);
  return ok(reached(n, coverage, sides));
}

function reached(n: number, p: number, sides: WilksSides): number {
  if (sides === "one") return -Math.expm1(n * Math.log(p));
  return 1 - p ** (n - 1) * (n * (1 - p) + p);
}

/** Beyond it no one goes on measuring; it bounds the search. */
const MOST = 2 ** 40;

/** Fewest readings whose extremes meet the demand: 59 one-sided and 93 two-sided for 95 % and 95 %. */
export function wilksSmallest(
  { coverage, confidence }: ToleranceDemand,
  sides: WilksSides,
): Result<Ok<number>> {
  const bad = fraction("coverage", coverage) ?? fraction("confidence", confidence);
  if (bad !== undefined) return err(bad);
  let enough = 1;
  while (reached(enough, coverage, sides) < confidence) {
    enough *= 2;
    if (enough > MOST) return err("No number of readings can show so much.");
  }
  let tooFew = enough / 2;
  while (enough - tooFew > 1) {
    const n = Math.floor((enough + tooFew) / 2);
    if (reached(n, coverage, sides) < confidence) tooFew = n;
    else enough = n;
  }
  return ok(enough);
}
