// What the uncertainty of measured inputs makes of a result computed from them.
import { err, type Ok, ok, type Result } from "../result";

/** A measured input: value and standard uncertainty in one unit. */
export interface Measured {
  readonly value: number;
  readonly u: number;
}

/** Correlation coefficient of two inputs, by their positions; pairs not named are independent. */
export type Correlation = readonly [first: number, second: number, coefficient: number];

/** Full correlations that cancel can leave this much of the sum of squares below zero. */
const ROUNDING = 1e-12;

/**
 * Standard uncertainty of `f` of the inputs by the law of propagation of uncertainty, JCGM 100:2008 5.1.2 and,
 * with correlations, 5.2.2. Sensitivities are numerical: half the change of `f` as an input goes from one
 * standard uncertainty below its value to one above (5.1.3 note 2), so `f` must be defined there. First order:
 * where `f` bends much within that span, the result is a rough one.
 */
export function propagate(
  f: (...values: readonly number[]) => number,
  inputs: readonly Measured[],
  correlations: readonly Correlation[] = [],
): Result<Ok<Measured>> {
  const odd = inputs.find(({ value, u }) => !(Number.isFinite(value) && u >= 0 && Number.isFinite(u)));
  if (odd) return err(`An input of ${odd.value} with an uncertainty of ${odd.u} cannot be propagated.`);
  const values = inputs.map(({ value }) => value);
  const value = f(...values);
  const parts = inputs.map(({ u }, i) => {
    const shifted = (by: number): number => f(...values.map((x, j) => (i === j ? x + by : x)));
    return (shifted(u) - shifted(-u)) / 2;
  });
  const squares = parts.reduce((sum, part) => sum + part * part, 0);
  let variance = squares;
  for (const [first, second, r] of correlations) {
    const a = parts[first];
    const b = parts[second];
    if (a === undefined || b === undefined || first === second || !(Math.abs(r) <= 1)) {
      return err(`A correlation of ${r} between inputs ${first} and ${second} makes no sense.`);
    }
    variance += 2 * r * a * b;
  }
  if (!Number.isFinite(value) || !Number.isFinite(variance)) {
    return err("The result is not finite somewhere within the inputs' uncertainties.");
  }
  if (variance < -ROUNDING * squares) {
    return err("The correlations contradict each other: no inputs can have them all.");
  }
  return ok({ value, u: Math.sqrt(Math.max(0, variance)) });
}
