// The number a shop would give its next job, by the numbers it has given.

import { defined } from "../../base/defined";

interface Numbered {
  /** What stands around the count, a year in it left open. */
  readonly shape: string;
  readonly year?: string;
  readonly count: number;
  readonly digits: number;
  readonly before: string;
  readonly after: string;
}

/**
 * The next number in the shape that most jobs have: "2026-021" is followed by "2026-022", and by "2027-001" in the year
 * after. Undefined where no job has a number: a shop that does not number its jobs is not made to.
 * @param today ISO 8601 day
 */
export function nextJob(jobs: readonly string[], today: string): string | undefined {
  const year = /^\d{4}/.exec(today)?.[0] ?? "";
  const shapes = new Map<string, Numbered[]>();
  for (const job of jobs) {
    const read = numbered(job);
    if (read) shapes.set(read.shape, [...(shapes.get(read.shape) ?? []), read]);
  }
  const [usual] = [...shapes.values()].sort((a, b) => b.length - a.length);
  const [model] = usual ?? [];
  if (!model) return undefined;
  const taken = new Set(jobs.map((job) => job.trim().toLowerCase()));
  const make = (count: number): string => {
    const before = model.year === undefined ? model.before : model.before.replace(model.year, year);
    return `${before}${String(count).padStart(model.digits, "0")}${model.after}`;
  };
  const counted = (usual ?? []).filter((job) => job.year === undefined || job.year === year);
  let count = counted.reduce((most, job) => Math.max(most, job.count), 0) + 1;
  while (taken.has(make(count).toLowerCase())) count++;
  return make(count);
}

/** The last run of digits counts; four digits before it that look like a year are one. */
function numbered(job: string): Numbered | undefined {
  const match = /^(.*?)(\d{1,9})(\D*)$/s.exec(job.trim());
  if (!match) return undefined;
  const [, before = "", count = "", after = ""] = match;
  const year = /(?<!\d)(?:19|20)\d\d(?!\d)/.exec(before)?.[0];
  return defined({
    shape: JSON.stringify([year === undefined ? before : before.replace(year, "0000"), after]),
    year,
    count: Number(count),
    digits: count.length,
    before,
    after,
  });
}
