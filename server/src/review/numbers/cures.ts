// What cured each symptom of each board before.
import type { LogSummary } from "../../log/summary";
import { curesOf } from "../diagnosis/history";
import { boardsIn, groupBy, sortedBy } from "./order";
import type { CureRow } from "./types";

/** Most often cured first, within a board's symptom. */
export function cureRows(jobs: readonly LogSummary[]): CureRow[] {
  const byBoard = groupBy(jobs, ({ board }) => board);
  return boardsIn(jobs).flatMap((board) => {
    const own = byBoard.get(board) ?? [];
    const symptoms = [...new Set(own.flatMap(({ symptoms }) => symptoms))];
    return sortedBy(symptoms, (symptom) => symptom).flatMap((symptom) => curesFor(own, board, symptom));
  });
}

/** Those of one symptom; `except` is the log that asks. */
export function curesFor(
  jobs: readonly LogSummary[],
  board: string,
  symptom: string,
  except = "",
): CureRow[] {
  const cures = curesOf({ uri: except, board, symptoms: [symptom] }, jobs);
  const all = jobsWithout(jobs, board, symptom).filter(({ uri }) => uri !== except).length;
  return sortedBy(
    cures.map(({ ref, count }) => ({ board, symptom, ref, cured: count, jobs: all })),
    ({ cured }) => -cured,
    ({ ref }) => ref,
  );
}

/** Returned jobs with the symptom of which none came back with it. */
function jobsWithout(jobs: readonly LogSummary[], board: string, symptom: string): LogSummary[] {
  const own = jobs.filter((job) => job.board === board && job.symptoms.includes(symptom));
  const cameBack = new Set(own.flatMap(({ comebackOf }) => comebackOf ?? []));
  return own.filter(({ job, stage }) => stage === "returned" && (job === undefined || !cameBack.has(job)));
}
