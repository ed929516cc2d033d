// Chi-square and Student's t: the two distributions that a spread estimated from few readings brings in.
import { rootNear } from "./root";
import { incompleteBeta, incompleteGamma } from "./special";

/** Stands for the logarithm of a probability too small for a double, so that a root can still be bracketed. */
const LEAST_LN = -800;
const ln = (p: number): number => (p > 0 ? Math.log(p) : LEAST_LN);

/** Probability that chi-square with `freedom` > 0 degrees of freedom exceeds `x`. */
export const chiSquareTail = (x: number, freedom: number): number =>
  incompleteGamma(freedom / 2, x / 2).upper;

/**
 * Value below which a share `p` of chi-square with `freedom` > 0 degrees of freedom lies. 0 at 0, Infinity at 1,
 * NaN for a `p` outside or a freedom not above 0. Relative error below 2e-14 up to 10,000 degrees of
 * freedom, as compared in the tests.
 */
export function chiSquareQuantile(p: number, freedom: number): number {
  if (!(p >= 0 && p <= 1 && freedom > 0 && Number.isFinite(freedom))) return Number.NaN;
  if (p === 0 || p === 1) return p === 0 ? 0 : Number.POSITIVE_INFINITY;
  const a = freedom / 2;
  const f =
    p <= 0.5
      ? (u: number) => ln(incompleteGamma(a, Math.exp(u) / 2).lower) - Math.log(p)
      : (u: number) => Math.log1p(-p) - ln(incompleteGamma(a, Math.exp(u) / 2).upper);
  return Math.exp(rootNear(f, Math.log(freedom), 1 / Math.sqrt(freedom)));
}

/** Probability that Student's t with `freedom` > 0 degrees of freedom exceeds `t`. */
export function tTail(t: number, freedom: number): number {
  if (t < 0) return 1 - tTail(-t, freedom);
  const square = t * t;
  if (square === Number.POSITIVE_INFINITY) return 0;
  const both = incompleteBeta(freedom / 2, 0.5, freedom / (freedom + square), square / (freedom + square));
  return both / 2;
}

/**
 * Value below which a share `p` of Student's t with `freedom` > 0 degrees of freedom lies; infinite at 0 and 1,
 * NaN for a `p` outside or a freedom not above 0. Relative error below 2e-14 for tails down to 1e-12, as
 * compared in the tests.
 */
export function tQuantile(p: number, freedom: number): number {
  if (!(p >= 0 && p <= 1 && freedom > 0 && Number.isFinite(freedom))) return Number.NaN;
  if (p === 0 || p === 1) return p === 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  if (p === 0.5) return 0;
  if (p > 0.5) return -tQuantile(1 - p, freedom);
  // In the logarithm of t the logarithm of the tail is nearly a straight line far out, even with one degree.
  const wanted = Math.log(p);
  return -Math.exp(rootNear((u) => wanted - ln(tTail(Math.exp(u), freedom)), 0, 0.5));
}
