import { defined } from "../../base/defined";
import type { LogSummary } from "../../log/summary";
import { earlierJobs } from "../../review/comeback";

/** A job this very board was here for. */
export interface EarlierJob {
  readonly job: string;
  readonly title?: string;
  /** ISO 8601 day. */
  readonly returned?: string;
}

/** The latest comes first. @param received ISO 8601 day the board came in now */
export const earlierOf = (
  own: { readonly board: string; readonly serial: string; readonly received: string },
  logs: readonly LogSummary[],
): EarlierJob[] =>
  earlierJobs(own, logs).map(({ job, title, returned }) =>
    defined({
      job: job ?? "",
      title,
      returned,
    }),
  );
