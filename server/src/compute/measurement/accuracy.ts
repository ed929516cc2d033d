// From what a meter's maker promises to the standard uncertainty of one reading typed from its display.
import { err, type Ok, ok, type Result } from "../result";

/** "0.5 % + 2" of a data sheet: a ratio of the reading (0.005) and counts of the range's last digit. */
export interface Accuracy {
  readonly reading: number;
  readonly counts: number;
}

export interface ReadingOnMeter {
  /** As displayed, base unit. */
  readonly value: number;
  /** The maker's specification of the range used; without it only rounding is known. */
  readonly accuracy?: Accuracy;
  /** One count of the range's last digit, base unit; where it is not known the digit typed stands in. */
  readonly digit?: number;
  /** One step of the last digit typed, base unit: 0.1 for "5.0 V", 0 where the value is exact. */
  readonly resolutionTyped: number;
}

/**
 * How the values are taken to spread between the limits -a and +a: evenly, heaped in the middle, or normally
 * with 95 % of them between the limits. JCGM 100:2008 4.3.7, and from memory 4.3.9 and 4.3.4.
 */
export type Spread = "rectangular" | "triangular" | "normal-95";

const DIVISOR: Readonly<Record<Spread, number>> = {
  rectangular: Math.sqrt(3),
  triangular: Math.sqrt(6),
  "normal-95": 1.959963984540054,
};

/** Each of them in the base unit of the reading. */
export interface ReadingUncertainty {
  /** a: half-width of what the maker allows, |value| * reading + counts * digit. A limit, not a deviation. */
  readonly limit: number;
  /** Standard uncertainty the maker's limit amounts to: a / sqrt(3) where rectangular. */
  readonly meter: number;
  /** Standard uncertainty of stopping at the digit typed: half a step / sqrt(3). */
  readonly rounding: number;
  /** u: the two in quadrature. */
  readonly standard: number;
  /** U = k u. */
  readonly expanded: number;
  /** k, 2 where nothing else is asked for: about 95 % where normal. */
  readonly coverageFactor: number;
  /** Whose digit the counts were multiplied by. */
  readonly digitFrom: "range" | "typed";
}

export interface AccuracyOptions {
  /** Of the maker's limit. Rectangular where nothing is said, as when a sheet gives limits and no confidence. */
  readonly spread?: Spread;
  readonly coverageFactor?: number;
}

/**
 * Uncertainty of one reading by JCGM 100:2008: type B from the maker's limits (4.3.7: u = a / sqrt(3)), rounding
 * of a digital display as half a digit, rectangular (F.2.2.1, from memory), combined in quadrature (5.1.2),
 * expanded by k = 2 (6.2.1, from memory). Counts usually allow for the display's own rounding already; it is
 * added all the same, since sheets do not say, and widens u by less than 13 % at one count and 4 % at two.
 * Refuses an overload, NaN and negative specifications with a message.
 */
export function readingUncertainty(
  input: ReadingOnMeter,
  options: AccuracyOptions = {},
): Result<Ok<ReadingUncertainty>> {
  const { value, accuracy, resolutionTyped } = input;
  if (!Number.isFinite(value)) return err("Only a finite reading has an uncertainty.");
  const digit = input.digit ?? resolutionTyped;
  const k = options.coverageFactor ?? 2;
  for (const [name, number] of [
    ["resolution typed", resolutionTyped],
    ["meter's last digit", digit],
    ["accuracy's share of the reading", accuracy?.reading ?? 0],
    ["accuracy's counts", accuracy?.counts ?? 0],
    ["coverage factor", k],
  ] as const) {
    if (!(number >= 0 && Number.isFinite(number))) {
      return err(`The ${name} must be a finite number not below 0, not ${number}.`);
    }
  }
  const limit = accuracy ? Math.abs(value) * accuracy.reading + accuracy.counts * digit : 0;
  const meter = limit / DIVISOR[options.spread ?? "rectangular"];
  const rounding = resolutionTyped / 2 / Math.sqrt(3);
  const standard = Math.hypot(meter, rounding);
  return ok({
    limit,
    meter,
    rounding,
    standard,
    expanded: k * standard,
    coverageFactor: k,
    digitFrom: input.digit === undefined ? "typed" : "range",
  });
}
