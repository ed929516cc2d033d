// Jobs whose board had been here before.
import type { Logs } from "../../log/job-index";
import { relatedJobs } from "../comeback";
import { dayNumber } from "./order";
import type { ComebackRow } from "./types";

/** Jobs that came back, each with the one it came back from, in the order of the logs. */
export function comebackRows(logs: Logs): ComebackRow[] {
  return [...logs.values()].flatMap((job): ComebackRow[] => {
    const { named, earlier } = relatedJobs(job, logs);
    const told = job.comebackOf === undefined ? "same board" : "named";
    return [...named, ...(earlier ? [earlier] : [])].map((before) => {
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
    });
  });
}
