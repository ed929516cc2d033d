// Jobs on the very same board: which of them came before another.
import type { LogSummary } from "../../log/summary";

/** What tells which board a job is about, and when it was here. */
export type JobOnBoard = Pick<
  LogSummary,
  "uri" | "job" | "board" | "serial" | "received" | "returned" | "stage"
>;

/** Spelt as one likes: "01873 " and "01873", "a-17" and "A-17". Leading zeros count. */
const sameText = (a: string | undefined, b: string | undefined): boolean =>
  a !== undefined && b !== undefined && a.trim() !== "" && a.trim().toLowerCase() === b.trim().toLowerCase();

export const isSameBoard = (
  a: Pick<JobOnBoard, "board" | "serial">,
  b: Pick<JobOnBoard, "board" | "serial">,
): boolean => sameText(a.board, b.board) && sameText(a.serial, b.serial);

export const hasNumber = ({ job }: Pick<JobOnBoard, "job">, number: string): boolean => sameText(job, number);

/**
 * Jobs of the same type of board and serial number that had left before this one came in, the latest first. One whose
 * dates do not say so is left out, except where the later job has no day of receipt.
 */
export function earlierJobs<T extends JobOnBoard>(
  own: Pick<JobOnBoard, "board" | "serial" | "received"> & { readonly uri?: string },
  jobs: Iterable<T>,
): T[] {
  return [...jobs]
    .filter(
      (job) =>
        job.uri !== own.uri &&
        job.job !== undefined &&
        job.stage === "returned" &&
        isSameBoard(own, job) &&
        isBefore(job, own.received),
    )
    .sort((a, b) => dayOf(b).localeCompare(dayOf(a)) || (b.job ?? "").localeCompare(a.job ?? ""));
}

const isBefore = (job: JobOnBoard, received: string | undefined): boolean =>
  received === undefined || (dayOf(job) !== "" && dayOf(job) <= received);

const dayOf = ({ returned, received }: JobOnBoard): string => returned ?? received ?? "";
