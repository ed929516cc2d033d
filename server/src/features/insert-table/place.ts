// Where a whole table may be put without becoming a part of what stands there, and without taking what stands there
// from its heading.
import { blockAt } from "../../log/document";
import type { Section } from "../../log/model";
import { nodeSpan } from "../../syntax/node-span";
import type { Span } from "../../text/span";
import { ownLine } from "../completion/own-line";
import { aheadOfOwnSection, isInOwnSection } from "../shared/diagnosis/own-section";
import { openAtEnd } from "../shared/tables/open-end";
import type { LogView } from "../view";

export interface TablePlace {
  /** What is replaced: an empty line, or nothing. */
  readonly span: Span;
  readonly before: string;
  readonly after: string;
  readonly section: Section;
  readonly eol: string;
}

/** The section an offset stands in; its block is that of the section's heading. */
function sectionAt({ doc }: LogView, offset: number): { section: Section; end: number } {
  const placed = blockAt(doc, offset);
  if (!placed) return { section: { qualifiers: {} }, end: doc.text.length };
  const at = offset - placed.start;
  const { sections, source } = placed.block;
  const index = Math.max(
    0,
    sections.findLastIndex(({ heading }) => !heading || heading.span.start <= at),
  );
  const next = sections.slice(index + 1).find(({ heading }) => heading)?.heading;
  return {
    section: sections[index] ?? { qualifiers: {} },
    end: placed.start + (next?.span.start ?? source.text.length),
  };
}

/** The empty line at the offset, if a table may stand on it; nothing else of the section then changes. */
export function emptyLineAt(view: LogView, offset: number): TablePlace | undefined {
  const { doc } = view;
  const { text } = doc;
  const front = doc.parsed.frontMatter;
  if (front && offset < front.span.end) return undefined;
  const start = text.lastIndexOf("\n", offset - 1) + 1;
  const line = ownLine(text, start, offset);
  if (line?.typed !== "" || line.lead.includes("|") || inNode(view, offset)) return undefined;
  if (isInOwnSection(doc, offset)) return undefined;
  const { section } = sectionAt(view, offset);
  const { eol } = line;
  const above = text.slice(0, start);
  // A heading, a comment or a fence stands right above: a blank line lets it breathe.
  const before = /(?:^|\n)[ \t]*\r?\n$/.test(above) || above === "" ? "" : eol;
  const below = /^\r?\n([^\r\n]*)/.exec(text.slice(line.span.end))?.[1];
  const after = below === undefined ? eol : below.trim() === "" ? "" : eol;
  return { span: line.span, before, after, section, eol };
}

/** True inside a listing, a comment, a list, a quote: everything but a gap between two of them. */
function inNode({ doc }: LogView, offset: number): boolean {
  const placed = blockAt(doc, offset);
  if (!placed) return false;
  const { text, tree } = placed.block.source;
  const at = offset - placed.start;
  const inside = tree.children.some((node) => {
    const span = nodeSpan(text, node);
    return span !== undefined && span.start < at && at <= span.end;
  });
  return (
    inside ||
    (openAtEnd(placed.block.source) && tree.children.every((node) => (nodeSpan(text, node)?.start ?? 0) < at))
  );
}

/** Behind all that stands in the section with the offset; undefined where something is left open there. */
export function sectionEnd(view: LogView, offset: number): TablePlace | undefined {
  const { doc } = view;
  const { text } = doc;
  const front = doc.parsed.frontMatter;
  // From the front matter, which is no place for a table, it goes to the end of the log.
  const { section, end: told } = sectionAt(view, front && offset < front.span.end ? text.length : offset);
  const end = aheadOfOwnSection(doc, told);
  const last = doc.blocks.at(-1);
  if (end === text.length && last && openAtEnd(last.block.source)) return undefined;
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  const above = text.slice(0, end);
  const before = /(?:^|\n)[ \t]*\r?\n$/.test(above) ? "" : above.endsWith("\n") ? eol : eol + eol;
  return { span: { start: end, end }, before, after: end === text.length ? eol : eol + eol, section, eol };
}

/** True where nothing but blanks follows in the section. */
export function isLastOfSection(view: LogView, { span }: TablePlace): boolean {
  const { end } = sectionAt(view, span.start);
  return view.doc.text.slice(span.end, end).trim() === "";
}
