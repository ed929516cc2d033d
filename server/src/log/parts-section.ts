// The parts list that is kept up to date inside a log: what stands between two comments, and whether it is still as
// it was written.
import type { Comment } from "../syntax/comments";
import { applyEdits, type TextEdit } from "../text/edits";
import { type Span, shift } from "../text/span";
import type { LogDocument } from "./model";

const BEGIN = "mendlog-parts";
const END = "mendlog-parts-end";

export interface PartsSection {
  /** From the first comment to the end of the second; of the document. */
  readonly span: Span;
  /** Between the two. */
  readonly inner: Span;
  /** What stands between them is not what was written there last. */
  readonly edited: boolean;
  /** Line breaks that were put before its heading when it was written. */
  readonly gap: number;
}

export interface PartsSections {
  readonly sections: readonly PartsSection[];
  /** Comments without the other one, with what is wrong. */
  readonly loose: readonly { readonly span: Span; readonly missing: "begin" | "end" }[];
}

const wordOf = ({ text }: Comment): string | undefined => /^[\w-]+/.exec(text)?.[0];

/** Pairs of the two comments among those of one block, spans of the block. */
export function partsSpans(comments: readonly Comment[]): {
  readonly pairs: readonly { readonly begin: Comment; readonly end: Comment }[];
  readonly loose: readonly { readonly comment: Comment; readonly missing: "begin" | "end" }[];
} {
  const pairs: { begin: Comment; end: Comment }[] = [];
  const loose: { comment: Comment; missing: "begin" | "end" }[] = [];
  let begin: Comment | undefined;
  for (const comment of comments) {
    const word = wordOf(comment);
    if (word === BEGIN) {
      if (begin) loose.push({ comment: begin, missing: "end" });
      begin = comment;
    } else if (word === END && begin && comment.closed) {
      pairs.push({ begin, end: comment });
      begin = undefined;
    } else if (word === END) loose.push({ comment, missing: "begin" });
  }
  if (begin) loose.push({ comment: begin, missing: "end" });
  return { pairs, loose };
}

/** A heading written between the two comments parts them: they count as loose then. */
export function partsSections(doc: LogDocument): PartsSections {
  const sections: PartsSection[] = [];
  const loose: { span: Span; missing: "begin" | "end" }[] = [];
  for (const { start, block } of doc.blocks) {
    if (block.comments.length === 0) continue;
    const found = partsSpans(block.comments);
    for (const { begin, end } of found.pairs) {
      const inner = { start: start + begin.span.end, end: start + end.span.start };
      const [, hash, gap] = /^mendlog-parts\s+([0-9a-f]{8})(?:\+(\d))?/.exec(begin.text) ?? [];
      sections.push({
        span: { start: start + begin.span.start, end: start + end.span.end },
        inner,
        edited: hash !== hashOf(doc.text.slice(inner.start, inner.end)),
        gap: Number(gap ?? 0),
      });
    }
    for (const { comment, missing } of found.loose) loose.push({ span: shift(comment.span, start), missing });
  }
  return { sections, loose };
}

/** The two comments with text between them; lines are parted by `eol`. */
export function writePartsSection(inner: string, gap: number, eol: string): string {
  const between = `${eol}${eol}${inner}${eol}${eol}`;
  const note = "written by Mendlog; edits between these two comments are noticed before it is written again";
  return `<!-- ${BEGIN} ${hashOf(between)}+${gap}: ${note} -->${between}<!-- ${END} -->`;
}

/**
 * The edits that keep the comments true where edits change what stands between them, as a new name does. What was
 * changed there by hand stays changed.
 */
export function rehash(text: string, edits: readonly TextEdit[]): TextEdit[] {
  const found: TextEdit[] = [];
  for (const match of text.matchAll(/<!--\s*mendlog-parts\s+([0-9a-f]{8})[\s\S]*?-->/g)) {
    const start = match.index + match[0].length;
    const end = text.indexOf(`<!-- ${END}`, start);
    if (end < 0 || hashOf(text.slice(start, end)) !== match[1]) continue;
    const inner = edits
      .filter(({ span }) => span.start >= start && span.end <= end)
      .map(({ span, newText }) => ({ newText, span: shift(span, -start) }));
    if (inner.length === 0) continue;
    const at = match.index + match[0].indexOf(match[1]!);
    found.push({
      span: { start: at, end: at + 8 },
      newText: hashOf(applyEdits(text.slice(start, end), inner)),
    });
  }
  return found;
}

/**
 * FNV-1a, 32 bits, over the words: what a formatter does to line ends, padding and rulers is no edit.
 */
function hashOf(text: string): string {
  const words = text
    .replaceAll(/[ \t]*\r?\n[ \t]*/g, "\n")
    .replaceAll(/[ \t]+/g, " ")
    .replaceAll(/-{2,}/g, "--")
    .replaceAll(/\n{2,}/g, "\n\n")
    .trim();
  let hash = 0x811c9dc5;
  for (let at = 0; at < words.length; at++) {
    hash ^= words.charCodeAt(at);
    hash = Math.imul(hash, 0x01000193) >>> 0;
  }
  return hash.toString(16).padStart(8, "0");
}
