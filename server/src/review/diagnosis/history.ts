// What cured the same symptom on boards of this type before, out of the shop's own returned jobs.

import type { HistoryCount } from "../../compute/diagnosis/types";
import { eachBoard, type LogSummary } from "../../log/summary";
import { replacedIn } from "../numbers/replaced";

export interface HistoryQuestion {
  /** The log that asks; it is no witness to itself. */
  readonly uri: string;
  readonly board: string;
  readonly symptoms: readonly string[];
}

/**
 * How many returned jobs on this board with one of the symptoms replaced each part. Jobs that came back with the same
 * symptom cured nothing and are left out; so is everything where no symptom is given.
 */
export function curesOf(
  { uri, board, symptoms }: HistoryQuestion,
  earlier: Iterable<LogSummary>,
): HistoryCount[] {
  const wanted = new Set(symptoms);
  const jobs = eachBoard(earlier).filter(
    (job) => job.board === board && job.symptoms.some((symptom) => wanted.has(symptom)),
  );
  const cameBack = new Set(jobs.flatMap(({ comebackOf }) => comebackOf ?? []));
  const counts = new Map<string, number>();
  for (const job of jobs) {
    if (job.uri === uri || job.stage !== "returned") continue;
    if (job.job !== undefined && cameBack.has(job.job)) continue;
    for (const ref of replacedIn(job)) counts.set(ref, (counts.get(ref) ?? 0) + 1);
  }
  return [...counts].map(([ref, count]) => ({ ref, count }));
}
