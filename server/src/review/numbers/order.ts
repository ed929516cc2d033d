// Small things that all of the numbers need.
import type { LogSummary } from "../../log/summary";

/** Not by locale: the order must not hang on the machine. Null comes first. */
export const compareValues = (a: string | number | null, b: string | number | null): number => {
  if (a === b) return 0;
  if (a === null) return -1;
  if (b === null) return 1;
  return a < b ? -1 : 1;
};

/** The rows by the first key, those alike in it by the next, and so on. */
export const sortedBy = <T>(rows: readonly T[], ...keys: ((row: T) => string | number | null)[]): T[] =>
  [...rows].sort((a, b) => {
    for (const key of keys) {
      const order = compareValues(key(a), key(b));
      if (order !== 0) return order;
    }
    return 0;
  });

/** Returned, else received: ISO 8601. */
export const leftOn = ({ returned, received }: LogSummary): string | undefined => returned ?? received;

export const yearOf = (job: LogSummary): number | null => {
  const day = leftOn(job);
  return day === undefined ? null : Number(day.slice(0, 4));
};

const DAY_MS = 86_400_000;

/** Days from 1970-01-01. */
export const dayNumber = (day: string): number => Math.round(Date.parse(`${day}T00:00:00Z`) / DAY_MS);

/** Boards that logs name, in order. */
export const boardsIn = (jobs: readonly LogSummary[]): string[] =>
  [...new Set(jobs.flatMap(({ board }) => (board ? [board] : [])))].sort(compareValues);

/** Items by their key, the groups in the order of their first one. */
export function groupBy<T, K>(items: Iterable<T>, keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return groups;
}
