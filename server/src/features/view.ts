import type { Knowledge, LogContext } from "../judge/context";
import type { FrontMatter } from "../knowledge/load-front-matter";
import type { LogDocument } from "../log/document";
import type { LogSummary } from "../log/summary";

/** A log with all that is known around it: what every log feature works from. */
export interface LogView {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
  readonly ctx: LogContext;
  /** All that the workspace's files say, of other boards too. */
  readonly knowledge: Knowledge;
  /** What is remembered of the workspace's logs as they stand on disk, this one among them, by uri. */
  readonly earlier?: ReadonlyMap<string, LogSummary>;
  /** Where the log is about several boards, what it says of each: the same text, and only that board's sections. */
  readonly set?: readonly LogView[];
}

/** One view for each board that a log is about; the view itself where it is about one. */
export const boardsOf = (view: LogView): readonly LogView[] => view.set ?? [view];

export { boardAt } from "../log/boards-of-set";
