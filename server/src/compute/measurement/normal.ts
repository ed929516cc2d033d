// The standard normal distribution, from its power series and its continued fraction rather than from fitted
// coefficients, so that nothing here has to be taken on trust.
import { rootBetween } from "./root";

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
/** Below it the series, above it the continued fraction: both give full precision there in under 60 terms. */
const SPLIT = 2;
/** Beyond it the tail is smaller than the smallest double. */
const NO_TAIL = 39;
const MAX_TERMS = 500;

/**
 * Density at `x` standard deviations. The square is taken in two parts, the first of them exact, because the
 * rounding of x²/2 would otherwise be multiplied by the exponential.
 */
export function normalPdf(x: number): number {
  if (Math.abs(x) > NO_TAIL) return 0;
  const coarse = Math.trunc(x * 16) / 16;
  const rest = (x - coarse) * (x + coarse);
  return (Math.exp((-coarse * coarse) / 2) * Math.exp(-rest / 2)) / ROOT_TWO_PI;
}

/**
 * Probability of lying above `x` standard deviations. Relative error below 5e-15 where the result is a normal
 * double (x < 37.5), as compared with 40-digit arithmetic in the tests; 0 beyond 39. NaN for NaN.
 */
export function normalTail(x: number): number {
  if (x < 0) return 1 - normalTail(-x);
  if (x < SPLIT) return 0.5 - middle(x);
  return x > NO_TAIL ? 0 : normalPdf(x) / millsFraction(x);
}

/** Probability of lying below `x` standard deviations, with the accuracy of `normalTail`. */
export const normalCdf = (x: number): number => {
  if (x > 0 && x < SPLIT) return 0.5 + middle(x);
  return x > 0 ? 1 - normalTail(x) : normalTail(-x);
};

/** Probability between 0 and x: pdf(x) * (x + x^3/3 + x^5/(3*5) + ...), all terms of one sign. */
function middle(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 3; n < MAX_TERMS && term > sum * 1e-17; n += 2) {
    term *= (x * x) / n;
    sum += term;
  }
  return normalPdf(x) * sum;
}

/** Laplace's x + 1/(x + 2/(x + 3/...)), evaluated forwards by Lentz's method. */
function millsFraction(x: number): number {
  let value = x;
  let c = x;
  let d = 0;
  for (let n = 1; n < MAX_TERMS; n += 1) {
    d = 1 / (x + n * d);
    c = x + n / c;
    value *= c * d;
    if (Math.abs(c * d - 1) < 1e-16) break;
  }
  return value;
}

/**
 * Standard deviations below which a share `p` of the distribution lies; -Infinity at 0, Infinity at 1, NaN
 * outside. Relative error below 5e-15 from 1e-300 to 0.3, as compared with 40-digit arithmetic in the tests; towards
 * one half it is the absolute error that stays so small, above it the result is as exact as 1 - p.
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return Number.NaN;
  if (p === 0 || p === 1) return p === 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p === 0.5) return 0;
  // The logarithm of the tail is nearly a parabola, which the root finder likes better than the tail itself.
  const wanted = Math.log(p);
  return -rootBetween((x) => wanted - Math.log(normalTail(x)), 0, 38.4);
}
