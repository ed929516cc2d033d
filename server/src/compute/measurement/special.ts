// Regularised incomplete gamma and beta functions. Formulas: NIST Digital Library of Mathematical Functions,
// 5.11 (Stirling's series), 8.7, 8.9 and 8.17 (series and continued fractions); clause numbers from memory.

const MAX_TERMS = 100_000;
const TINY = 1e-300;
const CLOSE = 1e-16;

/** Denominators of Stirling's series, from the Bernoulli numbers: 1/(12 a) - 1/(360 a^3) + ... */
const STIRLING: readonly number[] = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188];
/** From here on five terms of the series leave less than 3e-16. */
const LARGE = 15;

function stirling(a: number): number {
  const square = 1 / (a * a);
  return STIRLING.reduceRight((sum, factor) => sum * square + factor, 0) / a;
}

/** ln of the gamma function for a > 0; relative error below 1e-14. */
export function lnGamma(a: number): number {
  let shifted = a;
  let product = 1;
  while (shifted < LARGE) {
    product *= shifted;
    shifted += 1;
  }
  const large = (shifted - 0.5) * Math.log(shifted) - shifted + 0.5 * Math.log(2 * Math.PI);
  return large + stirling(shifted) - Math.log(product);
}

/** x^a e^-x / gamma(a), without the cancellation of two large logarithms. */
function gammaFactor(a: number, x: number): number {
  if (a < LARGE) return Math.exp(a * Math.log(x) - x - lnGamma(a));
  const d = (x - a) / a;
  return Math.sqrt(a / (2 * Math.PI)) * Math.exp(a * (Math.log1p(d) - d) - stirling(a));
}

/**
 * Both regularised incomplete gamma functions for a > 0 and x >= 0: `lower` is P(a, x), `upper` Q(a, x). The
 * smaller of the two keeps its relative precision; they sum to 1.
 */
export function incompleteGamma(a: number, x: number): { readonly lower: number; readonly upper: number } {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < MAX_TERMS && term > sum * CLOSE; n += 1) {
      term *= x / (a + n);
      sum += term;
    }
    const lower = gammaFactor(a, x) * sum;
    return { lower, upper: 1 - lower };
  }
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let value = d;
  for (let n = 1; n < MAX_TERMS; n += 1) {
    const factor = n * (a - n);
    b += 2;
    d = 1 / away(factor * d + b);
    c = away(b + factor / c);
    value *= c * d;
    if (Math.abs(c * d - 1) < CLOSE) break;
  }
  const upper = gammaFactor(a, x) * value;
  return { lower: 1 - upper, upper };
}

/** Keeps Lentz's method from dividing by zero. */
const away = (x: number): number => (Math.abs(x) < TINY ? TINY : x);

/**
 * Regularised incomplete beta function I_x(a, b) for a, b > 0. `rest` is 1 - x, handed over because the caller
 * often knows it without the rounding that subtracting would bring.
 */
export function incompleteBeta(a: number, b: number, x: number, rest = 1 - x): number {
  if (x <= 0) return 0;
  if (rest <= 0) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - betaFraction(b, a, rest, x);
  return betaFraction(a, b, x, rest);
}

/** ln of gamma(a + b) / gamma(a), without the cancellation of two large logarithms. */
function lnGammaRatio(a: number, b: number): number {
  if (a < LARGE) return lnGamma(a + b) - lnGamma(a);
  return (a - 0.5) * Math.log1p(b / a) + b * Math.log(a + b) - b + stirling(a + b) - stirling(a);
}

/** ln x, from 1 - x where x is near 1. */
const lnOf = (x: number, rest: number): number => (rest < 0.5 ? Math.log1p(-rest) : Math.log(x));

function betaFraction(a: number, b: number, x: number, rest: number): number {
  const lnBeta = a > b ? lnGamma(b) - lnGammaRatio(a, b) : lnGamma(a) - lnGammaRatio(b, a);
  const front = Math.exp(a * lnOf(x, rest) + b * lnOf(rest, x) - lnBeta);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m < MAX_TERMS; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    value *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    value *= c * d;
    if (Math.abs(c * d - 1) < CLOSE) break;
  }
  return (front * value) / a;
}
