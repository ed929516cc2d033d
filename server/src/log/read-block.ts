import type { Library } from "../knowledge/library";
import type { SyntaxBlock } from "../syntax/block";
import type { Comment } from "../syntax/comments";
import type { Heading } from "../syntax/headings";
import { type Span, slice, span } from "../text/span";
import { type Apart, apartIn } from "./apart";
import type { CellText, LogBlock, LogTable, ProseTable, Section, Suppression } from "./model";
import { partsSpans } from "./parts-section";
import { readTable } from "./read-table";

const models = new WeakMap<SyntaxBlock, { library: Library; block: LogBlock }>();

/** The model of one block; made once for a block's text and a library. */
export function readBlock(source: SyntaxBlock, library: Library): LogBlock {
  const known = models.get(source);
  if (known && known.library === library) return known.block;
  const block = build(source, library);
  models.set(source, { library, block });
  return block;
}

function build(source: SyntaxBlock, library: Library): LogBlock {
  const sections: Section[] = [{ qualifiers: {} }];
  for (const heading of source.headings) {
    const found = library.procedureFor(heading.text);
    const apart = apartIn(heading.text);
    const ref = headingRef(heading, source.text, library, apart);
    sections.push({
      heading,
      qualifiers: found?.qualifiers ?? {},
      ...(found ? { procedure: found.procedure } : {}),
      ...(ref ? { ref } : {}),
      ...(apart.length > 0 ? { apart } : {}),
    });
  }
  const sectionAt = (offset: number): Section =>
    sections.findLast((s) => !s.heading || s.heading.span.start <= offset) ?? sections[0]!;

  // What is written there is made from the rest of the log and must not be read back into it.
  const written = partsSpans(source.comments).pairs;
  const isWritten = ({ start }: Span): boolean =>
    written.some(({ begin, end }) => start >= begin.span.end && start < end.span.start);

  const tables: LogTable[] = [];
  const proseTables: ProseTable[] = [];
  for (const table of source.tables) {
    if (isWritten(table.span)) continue;
    const section = sectionAt(table.span.start);
    if (section.procedure) tables.push(readTable(table, section, section.procedure));
    else proseTables.push({ source: table, section });
  }
  return {
    source,
    sections,
    tables,
    proseTables,
    almostTables: source.almostTables
      .filter((almost) => !isWritten(almost.span))
      .map((almost) => ({
        source: almost,
        section: sectionAt(almost.span.start),
      })),
    suppressions: source.comments.flatMap((comment) => readSuppression(comment, source.text)),
    comments: source.comments,
  };
}

/**
 * The designator in a heading stands for the rows that name none: "Diode check U14 (TIP102)". Of several it
 * cannot be told which is meant, so then none does; a part that is said to be out is not the one that was read.
 */
function headingRef(
  { contentSpan }: Heading,
  blockText: string,
  library: Library,
  apart: readonly Apart[],
): CellText | undefined {
  const content = slice(blockText, contentSpan);
  const refs = [...content.matchAll(/(?<![A-Za-z0-9-])(?:[A-Z]{1,3}|[uq])\d{1,4}(?![A-Za-z0-9-])/g)].filter(
    (match) =>
      !library.device(match[0]) && !apart.some(({ ref, pin }) => ref === match[0] && pin === undefined),
  );
  const [first] = refs;
  if (!first || refs.some((match) => match[0] !== first[0])) return undefined;
  const at = contentSpan.start + first.index;
  return { text: first[0], span: span(at, at + first[0].length) };
}

/**
 * `<!-- mendlog-allow diode-out-of-window: reason -->` on its own line turns the named checks off for the
 * block it stands in; several codes may be given, separated by commas or blanks.
 */
function readSuppression({ text, inner }: Comment, blockText: string): Suppression[] {
  const match = /^mendlog-allow\s+([^:]+?)\s*(?::[\s\S]*)?$/.exec(text);
  const list = match?.[1];
  if (list === undefined) return [];
  const base = blockText.indexOf(list, inner.start + "mendlog-allow".length);
  return [...list.matchAll(/[^\s,]+/g)].map((word) => ({
    code: word[0],
    span: span(base + word.index, base + word.index + word[0].length),
  }));
}
