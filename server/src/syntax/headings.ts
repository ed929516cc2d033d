import type { Root } from "mdast";
import { type Span, slice } from "../text/span";
import { nodeSpan } from "./node-span";
import { nodeText } from "./plain-text";

export interface Heading {
  /** 1 to 6. */
  readonly depth: number;
  /** As read: without emphasis marks, links' addresses and white space at the ends. */
  readonly text: string;
  /** From the first `#`, or the first line's first character, to the end of the marks or the underline. */
  readonly span: Span;
  /** The words in the source without `#` marks or underline; zero-width behind the marks where there are none. */
  readonly contentSpan: Span;
  /** True where it is made by an underline of `=` or `-`. */
  readonly setext: boolean;
}

/** Headings at root level, ATX and setext alike. */
export function headingsIn(text: string, tree: Root): readonly Heading[] {
  const headings: Heading[] = [];
  for (const node of tree.children) {
    if (node.type !== "heading") continue;
    const span = nodeSpan(text, node);
    if (span === undefined) continue;
    const source = slice(text, span);
    // Only a setext heading has a second line; its marks can be no `#` at the beginning.
    const setext = /[\r\n]/.test(source);
    const content = setext ? setextContent(source) : atxContent(source);
    // Reference definitions right above an underlined heading are counted to its node, but are not its words.
    const first = setext ? (node.children[0]?.position?.start.offset ?? span.start) : span.start;
    const start = Math.max(content.start, first - span.start);
    headings.push({
      depth: node.depth,
      text: nodeText(node).trim(),
      span,
      contentSpan: { start: span.start + start, end: span.start + content.end },
      setext,
    });
  }
  return headings;
}

function atxContent(source: string): Span {
  const opening = /^#{1,6}[ \t]*/.exec(source)?.[0].length ?? 0;
  // A closing run of `#` counts only behind white space, which may be the white space of the opening.
  const words = endBefore(source, source.length, " \t");
  const marks = endBefore(source, words, "#");
  const end =
    marks < words && /[ \t]/.test(source[marks - 1] ?? "") ? endBefore(source, marks, " \t") : words;
  return { start: opening, end: Math.max(opening, end) };
}

function setextContent(source: string): Span {
  const underline = Math.max(source.lastIndexOf("\n"), source.lastIndexOf("\r"));
  return { start: 0, end: endBefore(source, underline, " \t\r") };
}

/** Where what stands before the offset ends without those characters. An expression would try it from each of them. */
function endBefore(source: string, offset: number, without: string): number {
  let end = offset;
  while (end > 0 && without.includes(source[end - 1]!)) end--;
  return end;
}
