// Which parts were replaced, by place and by number, year by year.
import type { LogSummary } from "../../log/summary";
import { groupBy, sortedBy, yearOf } from "./order";
import { numbersIn, replacedIn } from "./replaced";
import type { FailureRow } from "./types";

/** By place first, then by number; within each the latest year first, and in it what failed most often. */
export function failureRows(jobs: readonly LogSummary[]): FailureRow[] {
  const places = counted(
    jobs,
    (job) => (job.board ? [...replacedIn(job)].map((part) => ({ board: job.board!, part })) : []),
    (job) => job.board ?? null,
  );
  const numbers = counted(
    jobs,
    (job) => [...numbersIn(job)].map((part) => ({ board: null, part })),
    () => null,
  );
  return [...places, ...numbers];
}

/** In how many of the jobs, all of one board, the part at a place was replaced, the first year first. */
export function replacedAt(
  jobs: readonly LogSummary[],
  ref: string,
): { readonly inYear: number | null; readonly jobs: number }[] {
  const at = ref.toUpperCase();
  const years = groupBy(
    jobs.filter((job) => replacedIn(job).has(at)),
    yearOf,
  );
  return sortedBy(
    [...years].map(([inYear, of]) => ({ inYear, jobs: of.length })),
    ({ inYear }) => inYear,
  );
}

function counted(
  jobs: readonly LogSummary[],
  parts: (job: LogSummary) => readonly { readonly board: string | null; readonly part: string }[],
  within: (job: LogSummary) => string | null,
): FailureRow[] {
  const key = (board: string | null, year: number | null) => JSON.stringify([board, year]);
  const all = new Map(
    [...groupBy(jobs, (job) => key(within(job), yearOf(job)))].map(([k, of]) => [k, of.length]),
  );
  const counts = new Map<string, FailureRow>();
  for (const job of jobs) {
    const year = yearOf(job);
    for (const { board, part } of parts(job)) {
      const at = JSON.stringify([board, part, year]);
      const before = counts.get(at)?.jobs ?? 0;
      counts.set(at, { board, part, inYear: year, jobs: before + 1, ofJobs: all.get(key(board, year)) ?? 0 });
    }
  }
  return sortedBy(
    [...counts.values()],
    ({ board }) => board,
    ({ inYear }) => -(inYear ?? 0),
    ({ jobs: count }) => -count,
    ({ part }) => part,
  );
}
