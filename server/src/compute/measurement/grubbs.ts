// Grubbs' test for one outlier among values that are otherwise normal.
// NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.17.1, from memory.

import { err, fraction, type Ok, ok, type Result } from "../result";
import { tQuantile } from "./distributions";

/** Six or fewer: the test then tags most of the points (e-Handbook 1.3.5.17.1, from memory). */
export const FEWEST_FOR_GRUBBS = 7;

/** `both` where either end may be the odd one; `high` and `low` where only that end was in question beforehand. */
export type GrubbsSide = "both" | "high" | "low";

/**
 * Largest distance from the mean, in standard deviations, that `n` normal values exceed with probability
 * `alpha`: (n-1)/sqrt(n) * sqrt(t^2 / (n-2+t^2)), t the upper alpha/(2n) point (alpha/n for one end) of
 * Student's t with n-2 degrees of freedom. n from 3.
 */
export function grubbsCritical(n: number, alpha = 0.05, side: GrubbsSide = "both"): Result<Ok<number>> {
  const bad = fraction("significance level", alpha);
  if (bad !== undefined) return err(bad);
  if (!Number.isInteger(n) || n < 3) return err(`Too few: ${n} values, and Grubbs' test needs 3.`);
  const t = tQuantile(alpha / (side === "both" ? 2 * n : n), n - 2);
  return ok(((n - 1) / Math.sqrt(n)) * Math.sqrt((t * t) / (n - 2 + t * t)));
}

export interface GrubbsTest {
  /** Largest distance from the mean in standard deviations (divisor n-1). */
  readonly g: number;
  readonly critical: number;
  /** Position of the value that gave `g`. */
  readonly index: number;
  readonly outlier: boolean;
}

/**
 * Tests the farthest value. Finds one outlier at most and is blind to two that hide each other: the modified
 * z-score is not. Refuses fewer than 7 values, values that are not finite and values all alike, with a message.
 */
export function grubbs(
  values: readonly number[],
  alpha = 0.05,
  side: GrubbsSide = "both",
): Result<Ok<GrubbsTest>> {
  if (!values.every(Number.isFinite)) return err("Grubbs' test takes finite values only.");
  const n = values.length;
  if (n < FEWEST_FOR_GRUBBS) {
    return err(`Too few: ${n} values, and Grubbs' test says little below ${FEWEST_FOR_GRUBBS}.`);
  }
  const critical = grubbsCritical(n, alpha, side);
  if (!critical.ok) return critical;
  const mean = values.reduce((sum, x) => sum + x, 0) / n;
  const deviations = values.map((x) => x - mean);
  const s = Math.sqrt(deviations.reduce((sum, d) => sum + d * d, 0) / (n - 1));
  if (!(s > 0) || values.every((x) => x === values[0])) return err("All values are the same.");
  const sizes = deviations.map((d) => (side === "both" ? Math.abs(d) : side === "high" ? d : -d));
  const index = sizes.indexOf(Math.max(...sizes));
  const g = sizes[index]! / s;
  return ok({ g, critical: critical.value, index, outlier: g > critical.value });
}
