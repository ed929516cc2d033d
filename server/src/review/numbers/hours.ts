// How long a job of a kind takes: its board, and what was wrong with it.
import { median } from "../../compute/measurement/robust";
import type { LogSummary } from "../../log/summary";
import { groupBy, sortedBy } from "./order";
import type { HoursRow } from "./types";

/** Returned jobs whose log has hours: a job that is under way has not taken its time yet. */
export function hoursRows(jobs: readonly LogSummary[]): HoursRow[] {
  const kinds = jobs.flatMap(({ board, stage, hours, symptoms }) =>
    board && stage === "returned" && hours !== undefined
      ? [null, ...new Set(symptoms)].map((symptom) => ({ board, symptom, hours }))
      : [],
  );
  const rows = [...groupBy(kinds, ({ board, symptom }) => JSON.stringify([board, symptom])).values()].map(
    (of): HoursRow => {
      const hours = of.map((each) => each.hours);
      return {
        board: of[0]!.board,
        symptom: of[0]!.symptom,
        jobs: hours.length,
        shortest: Math.min(...hours),
        median: median(hours)!,
        longest: Math.max(...hours),
        total: Math.round(hours.reduce((sum, each) => sum + each, 0) * 1e4) / 1e4,
      };
    },
  );
  return sortedBy(
    rows,
    ({ board }) => board,
    ({ symptom }) => symptom,
  );
}
