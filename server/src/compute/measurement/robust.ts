// Middle, spread and odd ones out of a few readings, some of which may be wrong by any amount.
// NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.17 and 1.3.5.6, from memory.
import { err, type Ok, ok, type Result } from "../result";

/** Middle of the sorted values; the mean of the two middle ones for an even number. Undefined for none or NaN. */
export function median(values: readonly number[]): number | undefined {
  // Typed arrays sort by number by themselves, several times as fast, and put NaN last.
  return middleOf(new Float64Array(values).sort());
}

/** The same of values in ascending order. */
function middleOf(sorted: Float64Array): number | undefined {
  if (sorted.length === 0 || Number.isNaN(sorted[sorted.length - 1])) return undefined;
  const half = sorted.length >> 1;
  const upper = sorted[half]!;
  const lower = sorted.length % 2 === 1 ? upper : sorted[half - 1]!;
  // Halving first would be safe from overflow but not from -Infinity + Infinity, which has no middle.
  const middle = lower === upper ? lower : lower / 2 + upper / 2;
  return Number.isNaN(middle) ? undefined : middle;
}

/** 1 / normalQuantile(3/4): what makes the MAD of normal values estimate their standard deviation. */
export const MAD_TO_SIGMA = 1.482602218505602;

/**
 * Median of the distances from the median; `scaled` multiplies it by 1.4826 to compare with a standard
 * deviation. Undefined for no values and for any that is not finite.
 */
export function mad(values: readonly number[], scaled = false): number | undefined {
  const centre = values.every(Number.isFinite) ? median(values) : undefined;
  if (centre === undefined) return undefined;
  const raw = median(values.map((value) => Math.abs(value - centre)));
  return raw === undefined || !scaled ? raw : raw * MAD_TO_SIGMA;
}

/** Below this the median of the distances hangs on one or two readings. Common practice, no source. */
export const FEWEST_FOR_MAD = 5;
/** Iglewicz and Hoaglin's cut-off for the modified z-score (e-Handbook 1.3.5.17). */
export const MODIFIED_Z_LIMIT = 3.5;
/** sqrt(pi / 2): the mean distance of normal values to their standard deviation. */
const MEAN_DEVIATION_TO_SIGMA = Math.sqrt(Math.PI / 2);

export interface OutlierOptions {
  /** |z| above it is an outlier; 3.5 where nothing is said. */
  readonly limit?: number;
  /**
   * Spread below which no two readings are told apart, in their unit: the meter's standard uncertainty or the digit
   * typed. Without it, ten readings of which nine are alike make the tenth an outlier over its last digit.
   */
  readonly leastSpread?: number;
}

export interface Outliers {
  readonly centre: number;
  /** What a standard deviation would be without the outliers, in the values' unit. 0 where all are alike. */
  readonly spread: number;
  readonly spreadFrom: "mad" | "mean-deviation" | "least-spread" | "all-alike";
  /** Modified z-score of each value, in the order given; infinite for an infinite value. */
  readonly z: readonly number[];
  /** Positions of the outliers, ascending. */
  readonly outliers: readonly number[];
}

/**
 * Modified z-scores (x - median) / (1.4826 MAD) and those beyond 3.5, after Iglewicz and Hoaglin (e-Handbook
 * 1.3.5.17 writes 0.6745 (x - median) / MAD, the same to four digits). Where more than half of the values are
 * alike the MAD is 0 and the mean distance, times 1.2533, stands in (from memory). An infinite value (an
 * overload) takes no part in centre and spread and is an outlier. Refuses NaN, fewer than 5 finite values
 * and sets of which half or more are infinite, with a message.
 */
export function modifiedZ(values: readonly number[], options: OutlierOptions = {}): Result<Ok<Outliers>> {
  const { limit = MODIFIED_Z_LIMIT, leastSpread = 0 } = options;
  if (!(limit > 0)) return err(`The limit of the z-score must be above 0, not ${limit}.`);
  if (!(leastSpread >= 0 && Number.isFinite(leastSpread))) {
    return err(`The least spread must be a finite number not below 0, not ${leastSpread}.`);
  }
  // Asked for each reading of each log, of all boards that were read there: no list is made that is not needed.
  let count = 0;
  for (const value of values) {
    if (Number.isNaN(value)) return err("A value is not a number.");
    if (Number.isFinite(value)) count++;
  }
  if (values.length > 0 && count * 2 <= values.length) {
    return err(
      `${values.length - count} of ${values.length} values are infinite: no middle to compare with.`,
    );
  }
  if (count < FEWEST_FOR_MAD) {
    return err(`Too few: ${count} values, and ${FEWEST_FOR_MAD} are the fewest that show an odd one out.`);
  }
  const sorted = new Float64Array(count);
  let next = 0;
  for (const value of values) if (Number.isFinite(value)) sorted[next++] = value;
  sorted.sort();
  const centre = middleOf(sorted)!;
  const byMad = middleDistance(sorted, centre) * MAD_TO_SIGMA;
  const own = byMad > 0 ? byMad : sigmaByMean(values, centre);
  const spread = Math.max(own, leastSpread);
  const spreadFrom =
    spread === 0 ? "all-alike" : spread > own ? "least-spread" : byMad > 0 ? "mad" : "mean-deviation";
  const z = new Array<number>(values.length);
  const outliers: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    const score = value === centre ? 0 : (value - centre) / spread;
    z[i] = score;
    if (Math.abs(score) > limit) outliers.push(i);
  }
  return ok({ centre, spread, spreadFrom, z, outliers });
}

/** Median of the distances of values in ascending order from a number among them: the nearest half is walked over outwards. */
function middleDistance(sorted: Float64Array, centre: number): number {
  const { length } = sorted;
  const half = length >> 1;
  let right = 0;
  while (right < length && sorted[right]! < centre) right++;
  let left = right - 1;
  let lower = 0;
  let upper = 0;
  for (let i = 0; i <= half; i++) {
    const below = left < 0 ? Number.POSITIVE_INFINITY : centre - sorted[left]!;
    const above = right === length ? Number.POSITIVE_INFINITY : sorted[right]! - centre;
    lower = upper;
    if (below < above) {
      upper = below;
      left--;
    } else {
      upper = above;
      right++;
    }
  }
  return length % 2 === 1 || lower === upper ? upper : lower / 2 + upper / 2;
}

/** What the mean distance of the finite values makes of their standard deviation. */
function sigmaByMean(values: readonly number[], centre: number): number {
  let sum = 0;
  let count = 0;
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    sum += Math.abs(value - centre);
    count++;
  }
  return (MEAN_DEVIATION_TO_SIGMA * sum) / count;
}
