// Jobs whose board had been here before.
import type { Logs } from "../../log/job-index";
import { eachBoard, type LogSummary } from "../../log/summary";
import { type JobOnBoard, relatedJobs } from "../comeback";
import { dayNumber } from "./order";
import type { ComebackRow } from "./types";

/**
 * Jobs that came back, each with the one it came back from, in the order of the logs. A log about several boards comes back
 * board by board; where it names a job on none of them, its first board stands for all.
 */
export const comebackRows = (logs: Logs): ComebackRow[] =>
  [...logs.values()].flatMap((log) => {
    const boards = eachBoard([log]);
    return boards.flatMap((job) => {
      const { named, earlier } = relatedJobs(job, logs);
      const told = job.comebackOf === undefined ? "same board" : "named";
      const before = [
        ...named.filter((each) => isOf(each, job) || (job === boards[0] && !hasBoardOf(logs, each, boards))),
        ...(earlier ? [earlier] : []),
      ];
      return before.map((each) => rowOf(job, each, told, logs));
    });
  });

const isOf = (before: JobOnBoard, { board }: LogSummary): boolean =>
  board !== undefined && before.board === board;

/** True where the log of the earlier job is about one of the boards, too. */
function hasBoardOf(logs: Logs, { uri }: JobOnBoard, boards: readonly LogSummary[]): boolean {
  const earlier = logs.get(uri);
  return (
    earlier !== undefined && eachBoard([earlier]).some((one) => boards.some((board) => isOf(one, board)))
  );
}

function rowOf(job: LogSummary, before: JobOnBoard, told: ComebackRow["told"], logs: Logs): ComebackRow {
  const symptoms = logs.get(before.uri)?.symptoms ?? [];
  return {
    board: job.board ?? null,
    job: job.job ?? null,
    earlier: before.job ?? null,
    days:
      before.returned === undefined || job.received === undefined
        ? null
        : dayNumber(job.received) - dayNumber(before.returned),
    told,
    sameSymptom: symptoms.some((symptom) => job.symptoms.includes(symptom)),
  };
}
