// Like pins of like chips read alike, whatever the usual window says: one that stands out is worth a look. The
// middle and the spread are taken robustly, so that the odd one does not hide itself.
import { notNegative, type Outcome, positive, readable, refused } from "../circuit/outcome";
import { say } from "../judge/say";

/** Middle of a list, and the median distance from it. Given lists are never empty. */
export interface RobustStatistics {
  readonly median: (values: readonly number[]) => number;
  readonly mad: (values: readonly number[]) => number;
}

export interface LikeReading<T> {
  /** Whatever the caller wants back for an outlier. */
  readonly what: T;
  /** SI base unit; infinity for open. */
  readonly value: number;
}

export interface Outlier<T> {
  readonly what: T;
  readonly value: number;
  readonly side: "low" | "high";
  /** Distance from the median in robust standard deviations; infinity for an open among readings. */
  readonly score: number;
  readonly formula: string;
}

export interface OutlierResult<T> {
  readonly ok: true;
  /** Farthest first. */
  readonly outliers: readonly Outlier<T>[];
  readonly median: number;
  readonly source: string;
}

export interface OutlierOptions {
  readonly unit: string;
  /** Least spread taken for real, same unit: agreement closer than the meter's own step proves nothing. */
  readonly floor: number;
  readonly threshold?: number;
}

/** Score above which a value counts as an outlier: 3.5, Iglewicz and Hoaglin, from memory. */
export const OUTLIER_THRESHOLD = 3.5;
/** Fewer like readings are not compared: common practice, no source. */
export const LEAST_LIKE_READINGS = 5;
/** Median distance of a normal distribution in standard deviations: the normal quantile at 3/4, computed. */
const NORMAL_MAD = 0.67449;

/**
 * Readings that stand out among like ones. Refuses fewer than five, and a set without a middle because half or more
 * of it reads open.
 */
export function likePinOutliers<T>(
  readings: readonly LikeReading<T>[],
  robust: RobustStatistics,
  options: OutlierOptions,
): Outcome<OutlierResult<T>> {
  const { unit, floor, threshold = OUTLIER_THRESHOLD } = options;
  const closed = readings.filter(({ value }) => value !== Number.POSITIVE_INFINITY);
  const bad = refused(
    ...readings.map(({ value }) => (value < 0 ? undefined : readable("reading", value, unit))),
    notNegative("least spread", floor, unit),
    positive("threshold", threshold, ""),
    readings.length < LEAST_LIKE_READINGS
      ? `Only ${readings.length} like readings: at least ${LEAST_LIKE_READINGS} are needed to say which stands out.`
      : undefined,
    closed.length * 2 <= readings.length
      ? `${readings.length - closed.length} of ${readings.length} like readings are open: there is no middle to compare with.`
      : undefined,
    ...closed.map(({ value }) => (Number.isFinite(value) ? undefined : "A reading is minus infinity.")),
  );
  if (bad) return bad;
  const values = closed.map(({ value }) => value);
  const median = robust.median(values);
  const spread = Math.max(robust.mad(values) / NORMAL_MAD, floor);
  const found = readings.flatMap(({ what, value }): Outlier<T>[] => {
    const distance = Math.abs(value - median);
    // No spread at all: anything else stands out.
    const score = distance === 0 ? 0 : distance / spread;
    if (!(score > threshold)) return [];
    const text =
      score === Number.POSITIVE_INFINITY
        ? `${say(value, unit)} against a median of ${say(median, unit)}`
        : `|${say(value, unit)} - ${say(median, unit)}| / ${say(spread, unit)} = ${score.toPrecision(3)} > ${threshold}`;
    return [{ what, value, side: value < median ? "low" : "high", score, formula: text }];
  });
  return {
    ok: true,
    outliers: found.sort((a, b) => b.score - a.score || 0),
    median,
    source: `median and median absolute deviation; threshold ${threshold}: ${threshold === OUTLIER_THRESHOLD ? "Iglewicz and Hoaglin, from memory" : "given by the caller"}`,
  };
}
