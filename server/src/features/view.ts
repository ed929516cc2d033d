import type { LogContext } from "../analysis/context";
import type { FrontMatter } from "../knowledge/load-front-matter";
import type { LogDocument } from "../log/document";

/** A log with all that is known around it: what every log feature works from. */
export interface LogView {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
  readonly ctx: LogContext;
}
