// Jobs on the very same board: which of them came before another.
import { defined } from "../../base/defined";
import { jobIndex, type Logs, spelt } from "../../log/job-index";
import type { LogSummary } from "../../log/summary";
import { nearest } from "../../text/nearest";

/** What tells which board a job is about, and when it was here. */
export type JobOnBoard = Pick<
  LogSummary,
  "uri" | "job" | "board" | "serial" | "received" | "returned" | "stage" | "warrantyUntil"
>;

const sameText = (a: string | undefined, b: string | undefined): boolean =>
  a !== undefined && b !== undefined && spelt(a) !== "" && spelt(a) === spelt(b);

/** True where type and serial number are the same; false where a log leaves one of them out. */
export const isSameBoard = (
  a: Pick<JobOnBoard, "board" | "serial">,
  b: Pick<JobOnBoard, "board" | "serial">,
): boolean => sameText(a.board, b.board) && sameText(a.serial, b.serial);

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

/** What other logs say that bears on which job this one is a comeback of. */
export interface RelatedJobs {
  /** Logs of other files with the number that `comeback-of` names, each once: of one about several boards the one that is like the own. */
  readonly named: readonly JobOnBoard[];
  /** A number like the one named, where no log has that one. */
  readonly near?: string;
  /** The last job on the very same board, where no other is named. */
  readonly earlier?: JobOnBoard;
}

/** Which other jobs a log's `comeback-of` or serial number leads to; the log's own file is never among them. */
export function relatedJobs(
  own: Pick<LogSummary, "uri" | "board" | "serial" | "received" | "comebackOf">,
  logs: Logs,
): RelatedJobs {
  const index = jobIndex(logs);
  const wanted = own.comebackOf;
  if (wanted === undefined) {
    const { board, serial } = own;
    const same = board === undefined || serial === undefined ? [] : index.ofSerial(board, serial);
    const [earlier] = earlierJobs(own, same);
    return defined({ named: [], earlier: earlier ? plain(earlier) : undefined });
  }
  const named = index.numbered(wanted).filter(({ uri }) => uri !== own.uri);
  if (named.length > 0) return { named: onePerLog(named, own).map(plain) };
  const numbers = new Set(index.numbers);
  const itself = logs.get(own.uri)?.job;
  if (itself !== undefined && index.numbered(itself).every(({ uri }) => uri === own.uri))
    numbers.delete(itself);
  return defined({ named: [], near: nearest(wanted, numbers) });
}

/** Of each log the very same board, else one of the same type, else the first. */
function onePerLog(jobs: readonly LogSummary[], own: Pick<LogSummary, "board" | "serial">): LogSummary[] {
  const likeness = (job: LogSummary): number =>
    isSameBoard(own, job) ? 2 : own.board !== undefined && job.board === own.board ? 1 : 0;
  const best = new Map<string, LogSummary>();
  for (const job of jobs) {
    const before = best.get(job.uri);
    if (!before || likeness(job) > likeness(before)) best.set(job.uri, job);
  }
  return [...best.values()];
}

const plain = ({
  uri,
  job,
  board,
  serial,
  received,
  returned,
  stage,
  warrantyUntil,
}: LogSummary): JobOnBoard =>
  defined({
    uri,
    job,
    board,
    serial,
    received,
    returned,
    stage,
    warrantyUntil,
  });
