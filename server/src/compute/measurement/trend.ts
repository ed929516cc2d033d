// Whether values drift with time, by ranks and medians, which one wild value does not move.
import { normalTail } from "./normal";

/** One value with when it was read, in any unit of time. */
export interface Dated {
  readonly at: number;
  readonly value: number;
}

export interface Trend {
  /** Median of the slopes between any two values of different times, in the values' unit per unit of time. */
  readonly slope: number;
  /** Pairs of different times of which the later value is the higher, and the lower. */
  readonly rising: number;
  readonly falling: number;
  /**
   * How often values that do not drift would rise or fall at least as clearly: two-sided, by the normal approximation with
   * continuity correction and with ties in both taken into account. 1 where all values are alike.
   */
  readonly chance: number;
}

/** Fewer values show no drift: common practice, no source. */
export const FEWEST_FOR_TREND = 5;

/**
 * The Theil-Sen slope and Kendall's test of it (Theil 1950, Sen 1968, Kendall; from memory). Undefined for fewer than
 * five values, values that are not finite, and values that are all of one time. It looks at every pair.
 */
export function trendOf(values: readonly Dated[]): Trend | undefined {
  if (values.length < FEWEST_FOR_TREND) return undefined;
  if (!values.every(({ at, value }) => Number.isFinite(at) && Number.isFinite(value))) return undefined;
  const slopes = new Float64Array((values.length * (values.length - 1)) / 2);
  let count = 0;
  let rising = 0;
  let falling = 0;
  for (const [i, a] of values.entries())
    for (let j = i + 1; j < values.length; j++) {
      const b = values[j]!;
      const time = b.at - a.at;
      if (time === 0) continue;
      const slope = (b.value - a.value) / time;
      slopes[count++] = slope;
      if (slope > 0) rising++;
      else if (slope < 0) falling++;
    }
  // Numbers alone, so that they are put in order without a comparison of ours: there is one for every pair.
  const slope = middleOf(slopes.subarray(0, count).sort());
  return slope === undefined
    ? undefined
    : { slope, rising, falling, chance: chanceOf(values, rising - falling) };
}

function middleOf(sorted: Float64Array): number | undefined {
  if (sorted.length === 0) return undefined;
  const half = sorted.length >> 1;
  const upper = sorted[half]!;
  return sorted.length % 2 === 1 ? upper : sorted[half - 1]! / 2 + upper / 2;
}

function chanceOf(values: readonly Dated[], score: number): number {
  const n = values.length;
  const times = ties(values.map(({ at }) => at));
  const tied = ties(values.map(({ value }) => value));
  const sum = (groups: readonly number[], of: (t: number) => number): number =>
    groups.reduce((all, t) => all + of(t), 0);
  const steps = (t: number): number => t * (t - 1) * (2 * t + 5);
  const pairs = (t: number): number => t * (t - 1);
  const triples = (t: number): number => t * (t - 1) * (t - 2);
  const variance =
    (steps(n) - sum(times, steps) - sum(tied, steps)) / 18 +
    (sum(times, triples) * sum(tied, triples)) / (9 * triples(n)) +
    (sum(times, pairs) * sum(tied, pairs)) / (2 * pairs(n));
  if (!(variance > 0)) return 1;
  const z = Math.max(0, Math.abs(score) - 1) / Math.sqrt(variance);
  return Math.min(1, 2 * normalTail(z));
}

/** How many values each group of like ones has, those of one left out. */
function ties(values: readonly number[]): number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()].filter((count) => count > 1);
}
