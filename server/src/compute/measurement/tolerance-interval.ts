// How far around the mean of a few readings the limits must lie to hold a stated share of all readings to come.

import { err, fraction, type Ok, ok, type Result } from "../result";
import { chiSquareQuantile, chiSquareTail } from "./distributions";
import { normalPdf, normalQuantile, normalTail } from "./normal";
import { integrate } from "./quadrature";
import { rootBetween, rootNear } from "./root";

export interface ToleranceDemand {
  /** Share of all readings the limits are to hold: 0.95. */
  readonly coverage: number;
  /** Probability that limits made this way hold it: 0.95. */
  readonly confidence: number;
}

/**
 * Two-sided factor by Howe's approximation, z sqrt((n-1)(1 + 1/n) / chi2): NIST/SEMATECH e-Handbook 7.2.6.3. Close
 * to the exact factor from about ten readings on, too small below. n from 2.
 */
export function howeFactor(n: number, demand: ToleranceDemand): Result<Ok<number>> {
  const bad = badDemand(n, demand);
  if (bad !== undefined) return err(bad);
  return ok(howe(n, demand));
}

function howe(n: number, { coverage, confidence }: ToleranceDemand): number {
  const z = -normalQuantile((1 - coverage) / 2);
  return z * Math.sqrt(((n - 1) * (1 + 1 / n)) / chiSquareQuantile(1 - confidence, n - 1));
}

/**
 * Two-sided factor k, exact for normal readings: mean ± k s holds the share `coverage` with probability
 * `confidence`, s with divisor n-1. The confidence for a given k is an integral over where the mean may have
 * fallen (as in ISO 16269-6, from memory), taken by the trapezoidal rule, which for a bell-shaped integrand is
 * as good as exact; k is then solved for. Relative error below 1e-12, as compared with another quadrature in the
 * tests. n from 2.
 */
export function twoSidedFactor(n: number, demand: ToleranceDemand): Result<Ok<number>> {
  const bad = badDemand(n, demand);
  if (bad !== undefined) return err(bad);
  const { coverage, confidence } = demand;
  const nodes = Array.from({ length: STEPS + 1 }, (_, i) => {
    const z = (i * REACH) / STEPS;
    const weight = ((i === 0 ? 1 : 2) * normalPdf(z) * REACH) / STEPS;
    return { weight, square: halfWidth(z / Math.sqrt(n), coverage) ** 2 };
  });
  const reached = (k: number): number =>
    nodes.reduce(
      (sum, { weight, square }) => sum + weight * chiSquareTail(((n - 1) * square) / (k * k), n - 1),
      0,
    );
  const start = Math.log(howe(n, demand));
  return solved(Math.exp(rootNear((lnK) => reached(Math.exp(lnK)) - confidence, start, 0.02)));
}

/** Standard deviations of the mean the integral reaches to, and steps on the way. */
const REACH = 8.4;
const STEPS = 60;

/** Half-width, in standard deviations, of an interval around `centre` that holds the share `coverage`. */
function halfWidth(centre: number, coverage: number): number {
  const missed = Math.log(1 - coverage);
  const f = (r: number): number => missed - Math.log(normalTail(r - centre) + normalTail(r + centre));
  return rootBetween(f, 0, centre + 38);
}

/**
 * One-sided factor k, exact for normal readings: at least `coverage` of all readings lie below mean + k s (or
 * above mean - k s) with probability `confidence`. It is the point of the noncentral t distribution over
 * sqrt(n) (e-Handbook 7.2.6.3, from memory), here from an integral over where the mean may have fallen. Below 0
 * where little is asked for. Relative error below 1e-12, as compared in the tests. n from 2.
 */
export function oneSidedFactor(n: number, demand: ToleranceDemand): Result<Ok<number>> {
  const bad = badDemand(n, demand);
  if (bad !== undefined) return err(bad);
  const { coverage, confidence } = demand;
  // The mean, in its own standard deviations, from which on it reaches the wanted point without any k s.
  const shift = normalQuantile(coverage) * Math.sqrt(n);
  const reached = (k: number): number => {
    const enough = normalTail(shift);
    if (k === 0) return enough;
    const part = (z: number): number =>
      normalPdf(z) * chiSquareTail(((n - 1) * (shift - z) ** 2) / (n * k * k), n - 1);
    // A positive k helps a mean that falls short where s is large enough; a negative one spoils a mean that does
    // not.
    return k > 0
      ? enough + integrate(part, -REACH, clampToReach(shift), PANELS)
      : enough - integrate(part, clampToReach(shift), REACH, PANELS);
  };
  return solved(rootNear((k) => reached(k) - confidence, normalQuantile(coverage), 0.1));
}

const PANELS = 10;
const clampToReach = (z: number): number => Math.max(-REACH, Math.min(REACH, z));

/** centre ± k spread; one side is open where the demand was one-sided. All in the unit of the readings. */
export function toleranceInterval(
  centre: number,
  spread: number,
  factor: number,
  side: "both" | "upper" | "lower" = "both",
): { readonly low: number; readonly high: number } {
  return {
    low: side === "upper" ? Number.NEGATIVE_INFINITY : centre - factor * spread,
    high: side === "lower" ? Number.POSITIVE_INFINITY : centre + factor * spread,
  };
}

/** Readings and demands beyond these say nothing at a bench and would cost long sums. */
const MOST_READINGS = 1_000_000;

function badDemand(n: number, { coverage, confidence }: ToleranceDemand): string | undefined {
  if (!Number.isInteger(n) || n < 2) return `Too few: ${n} readings, and a spread needs 2.`;
  if (n > MOST_READINGS) return `${n} readings are more than ${MOST_READINGS}.`;
  return fraction("coverage", coverage) ?? fraction("confidence", confidence);
}

const solved = (k: number): Result<Ok<number>> =>
  Number.isFinite(k) ? ok(k) : err("No factor was found for so extreme a demand.");
