// A look at a log's front matter and title, without reading the rest: what is enough to know which job it is of.
import { defined } from "../base/defined";
import { loadFrontMatter, type Stage } from "../knowledge/load-front-matter";
import { findFrontMatter } from "../syntax/boundaries";
import { slice } from "../text/span";

/** What a log's summary says of it too. */
export interface JobLog {
  readonly uri: string;
  readonly title?: string;
  readonly job?: string;
  readonly board?: string;
  /** Ids of all of a set; it has no `board` then. */
  readonly boards?: readonly string[];
  readonly stage?: Stage;
}

/**
 * What the front matter and the first heading tell of a job, without reading the rest.
 * @param text of a log
 */
export function peekLog(uri: string, text: string): JobLog {
  const at = findFrontMatter(text, text.startsWith("\uFEFF") ? 1 : 0);
  const front = at && loadFrontMatter(slice(text, at.content), at.content.start).value;
  const title = /^#[ \t]+([^\r\n]*?)[ \t#]*$/m.exec(text.slice(at?.span.end ?? 0))?.[1];
  return defined({
    uri,
    title,
    job: front?.job === undefined ? undefined : front.job,
    board: front?.boards ? undefined : front?.board,
    boards: front?.boards?.map(({ board }) => board),
    stage: front?.stage === undefined ? undefined : front.stage,
  });
}
