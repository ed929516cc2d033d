import type { Root } from "mdast";
import { type Span, slice } from "../text/span";
import { nodeSpan } from "./node-span";

/** An HTML comment, which may hold words for a check or mark a section of the log. */
export interface Comment {
  /** From `<!--` to `-->`, or to the end of the HTML block where it is never closed. */
  readonly span: Span;
  /** Between the two marks. */
  readonly inner: Span;
  /** The source of `inner`, without white space at its ends. */
  readonly text: string;
  readonly closed: boolean;
}

// `<!-->` and `<!--->` are whole, empty comments (CommonMark 0.31.2, section 6.6).
const COMMENT = /<!--(?:(-?>)|([\s\S]*?)(-->|$))/g;

/** The comments in HTML blocks at root level that begin with one. */
export function commentsIn(text: string, tree: Root): readonly Comment[] {
  const comments: Comment[] = [];
  for (const node of tree.children) {
    if (node.type !== "html") continue;
    const span = nodeSpan(text, node);
    if (span === undefined) continue;
    const source = slice(text, span);
    if (!/^[ \t]*<!--/.test(source)) continue;
    for (const match of source.matchAll(COMMENT)) {
      const start = span.start + match.index;
      const innerStart = start + 4;
      const inner = { start: innerStart, end: innerStart + (match[2]?.length ?? 0) };
      comments.push({
        span: { start, end: start + match[0].length },
        inner,
        text: slice(text, inner).trim(),
        closed: match[1] !== undefined || match[3] === "-->",
      });
    }
  }
  return comments;
}
