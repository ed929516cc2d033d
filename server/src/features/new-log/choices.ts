// What can be picked for a new log, so that as little as possible has to be typed.
import { defined } from "../../base/defined";
import type { Knowledge } from "../../judge/context";
import type { Board } from "../../knowledge/types";
import type { LogSummary } from "../../log/summary";
import { nextJob } from "../shared/next-job";
import { boardsAround } from "./board-named";

/** Something to pick from a list: what is written into the log, and what is shown. */
export interface Choice {
  readonly id: string;
  readonly title: string;
}

/** A board that a new log can be of, with the symptoms that can be picked for it. */
export interface BoardChoice extends Choice {
  /** False for one that only logs name. */
  readonly hasFile: boolean;
  readonly symptoms: readonly Choice[];
}

export interface NewLogChoices {
  /** The number after the last; absent where no job has one that can be counted on from. */
  readonly job?: string;
  /** Numbers that other jobs have. */
  readonly taken: readonly string[];
  /** Those with a file first. */
  readonly boards: readonly BoardChoice[];
  /** Owners of earlier jobs, the latest first. */
  readonly owners: readonly string[];
}

/**
 * What can be picked for a new log, of what the jobs and knowledge files have.
 * @param today ISO 8601 day
 */
export function newLogChoices(
  logs: readonly LogSummary[],
  { boards, library }: Knowledge,
  today: string,
): NewLogChoices {
  const latest = [...logs].sort(
    (a, b) =>
      (b.received ?? "").localeCompare(a.received ?? "") ||
      (b.job ?? "").localeCompare(a.job ?? "", "en", { numeric: true }),
  );
  const taken = logs.flatMap(({ job }) => job ?? []);
  return defined({
    job: nextJob(taken, today),
    taken,
    // What a log has by a slip is no board to choose.
    boards: boardsAround({ boards, library, logs }).flatMap(({ id, title, file, near }) =>
      near ? [] : { id, title, hasFile: file !== undefined, ...listedIn(file?.value) },
    ),
    owners: [...new Set(latest.flatMap(({ owner }) => owner ?? []))],
  });
}

const listedIn = (board: Board | undefined): Pick<BoardChoice, "symptoms"> => ({
  symptoms: [...(board?.symptoms.values() ?? [])].map(({ id, title }) => ({ id, title })),
});
