// Like pins of like chips read alike, whatever the usual window says: one that stands out is worth a look. The
// middle and the spread are robust, so that the odd one does not hide itself.

import { formatValue } from "../../quantity/format-value";
import { MODIFIED_Z_LIMIT, modifiedZ } from "../measurement/robust";
import { notNegative, type Result, readable, refused } from "../result";

export interface LikeReading<T> {
  /** Whatever the caller wants back for an outlier. */
  readonly what: T;
  /** SI base unit, zero or more; infinity for open. */
  readonly value: number;
}

export interface Outlier<T> {
  readonly what: T;
  readonly value: number;
  readonly side: "low" | "high";
  /** Distance from the median in robust standard deviations; infinity for an open among readings. */
  readonly score: number;
  /** "(1.42 V - 0.58 V) / 10 mV = 84, above 3.5". */
  readonly formula: string;
}

export interface OutlierResult<T> {
  readonly ok: true;
  /** Farthest first. */
  readonly outliers: readonly Outlier<T>[];
  readonly median: number;
  readonly source: string;
}

export interface LikePinOptions {
  readonly unit: string;
  /** Spread below which readings are not told apart, same unit: the meter's step or its standard uncertainty. */
  readonly leastSpread: number;
}

const SOURCE = "modified z-score after Iglewicz and Hoaglin (e-Handbook 1.3.5.17), from memory";

/**
 * Readings of the same role on the same device type that stand out among each other. Refuses fewer than five
 * closed readings, and a set of which half or more reads open: there is no middle to compare with.
 */
export function likePinOutliers<T>(
  readings: readonly LikeReading<T>[],
  { unit, leastSpread }: LikePinOptions,
): Result<OutlierResult<T>> {
  const bad = refused(
    ...readings.map(({ value }) => readable("reading", value, unit)),
    notNegative("least spread", leastSpread, unit),
  );
  if (bad) return bad;
  const result = modifiedZ(
    readings.map(({ value }) => value),
    { leastSpread },
  );
  if (!result.ok) return { ok: false, reason: `The like pins cannot be compared. ${result.reason}` };
  const { centre, spread, z, outliers } = result.value;
  const found = outliers.map((index): Outlier<T> => {
    const { what, value } = readings[index]!;
    const score = Math.abs(z[index]!);
    const side = value < centre ? "low" : "high";
    return { what, value, side, score, formula: formula(value, score) };
  });
  return { ok: true, outliers: found.sort((a, b) => b.score - a.score || 0), median: centre, source: SOURCE };

  function formula(value: number, score: number): string {
    if (!Number.isFinite(score)) {
      const read = Number.isFinite(value) ? formatValue(value, unit) : "open";
      return `${read} where the others read ${formatValue(centre, unit)}`;
    }
    const difference =
      value < centre
        ? `${formatValue(centre, unit)} - ${formatValue(value, unit)}`
        : `${formatValue(value, unit)} - ${formatValue(centre, unit)}`;
    return `(${difference}) / ${formatValue(spread, unit)} = ${Number(score.toPrecision(3))}, above ${MODIFIED_Z_LIMIT}`;
  }
}
