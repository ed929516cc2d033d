// Where the log's own list of suspects stands: between two comments, and written again as a whole.
import type { LogDocument } from "../../../log/document";
import { type Span, shift } from "../../../text/span";

export const BEGIN = "mendlog-suspects";
export const END = "mendlog-suspects-end";

/** From the first comment to the end of the second; undefined where either is missing. */
export function ownSection(doc: LogDocument): Span | undefined {
  let begin: number | undefined;
  for (const { start, block } of doc.blocks) {
    for (const comment of block.comments) {
      const word = /^[\w-]+/.exec(comment.text)?.[0];
      const span = shift(comment.span, start);
      if (word === BEGIN) begin = span.start;
      if (word === END && begin !== undefined && comment.closed) return { start: begin, end: span.end };
    }
  }
  return undefined;
}

/** True between the two comments, where whatever is put is lost when the suspects are written again. */
export function isInOwnSection(doc: LogDocument, offset: number): boolean {
  const own = ownSection(doc);
  return own !== undefined && own.start < offset && offset < own.end;
}

/** The offset itself, or the start of the list of suspects where it lies in there. */
export const aheadOfOwnSection = (doc: LogDocument, offset: number): number =>
  isInOwnSection(doc, offset) ? (ownSection(doc)?.start ?? offset) : offset;
