// How wide one board's reading stands for other boards of its type.
import { defined } from "../../base/defined";
import { tQuantile } from "../../compute/measurement/distributions";
import { modifiedZ } from "../../compute/measurement/robust";
import type { Width } from "./types";

/** Two boards whose parts and makers differ hardly read a diode drop closer: common practice, no source. */
export const LEAST_DROP = 0.05;

/**
 * The same as a share of the reading for everything else, common practice, no source: regulators and their loads, the
 * RC of an oscillator, resistances through the junctions of a whole board, which differ most.
 */
export const LEAST_SHARE: Readonly<Record<string, number>> = { voltage: 0.05, frequency: 0.1 };
export const OTHER_SHARE = 0.2;

/** How many of all boards the width is to hold where the like pins speak for them. */
const COVERAGE = 0.95;

/** Spread of like pins on one board, with the median's outliers not counting for more than any other. */
export interface LikePins {
  readonly pins: number;
  /** Robust standard deviation, at least what the digits typed leave open. */
  readonly sigma: number;
}

/**
 * Undefined for fewer than five closed readings and where half of them read open: that shows no spread.
 * @param digits one step of the last digit typed of each
 */
export function likePins(values: readonly number[], digits: readonly number[]): LikePins | undefined {
  const square = digits.reduce((sum, digit) => sum + digit ** 2, 0) / Math.max(1, digits.length);
  const result = modifiedZ(values, { leastSpread: Math.sqrt(square / 12) });
  if (!result.ok) return undefined;
  return { pins: values.filter(Number.isFinite).length, sigma: result.value.spread };
}

/**
 * The larger of the least width and of what the like pins say. A pin of another board differs from this one as two like
 * pins differ, by the square root of two times their spread; the meter's standard uncertainty of this reading comes to
 * it in quadrature (JCGM 100:2008 5.1.2), that of the other reading where the two are compared. The factor is Student's
 * for one less than the pins (JCGM 100 G.3, from memory). Like pins differ by their nets too, so it is rather too wide.
 */
export function windowWidth(
  least: { readonly half: number; readonly share?: number },
  like: LikePins | undefined,
  standard: number,
): Width {
  const { half, share } = least;
  const base = defined<Pick<Width, "least" | "share">>({ least: half, share });
  if (!like) return { ...base, half };
  const factor = tQuantile((1 + COVERAGE) / 2, like.pins - 1);
  const own = factor * Math.hypot(Math.SQRT2 * like.sigma, standard);
  return own > half ? { ...base, half: own, spread: like } : { ...base, half };
}

/** Undefined where the least share of nothing is nothing, and so no width at all. */
export function leastWidth(
  value: number,
  quantity: string | undefined,
  isDrop: boolean,
): { half: number; share?: number } | undefined {
  if (isDrop) return { half: LEAST_DROP };
  const share = LEAST_SHARE[quantity ?? ""] ?? OTHER_SHARE;
  const half = share * Math.abs(value);
  return half > 0 ? { half, share } : undefined;
}
