import { defined } from "../base/defined";
import { withLater } from "../base/later";
import { memo } from "../base/memo";
import { once } from "../base/once";
import type { Library } from "../knowledge/library";
import type { ColumnSpec } from "../knowledge/types";
import type { SyntaxBlock } from "../syntax/block";
import type { Comment } from "../syntax/comments";
import type { Heading } from "../syntax/headings";
import { type Span, slice, span } from "../text/span";
import { viewsOf } from "./content/views";
import { type Disconnection, disconnectionsIn } from "./disconnections";
import { isMeasured } from "./headers";
import type { LocatedBlock, LogBlock, LogTable, ProseTable, Section, Suppression } from "./model";
import { above, below, inherit, type OuterHeading } from "./outer-headings";
import { numberOfAll, partsInHeading } from "./part-words";
import { partsSpans } from "./parts-section";
import { readTable, type TableView } from "./read-table";
import { nothingBeside } from "./table-pieces";

/** A text's models by the headings that it stands under, the oldest first. */
const models = memo((_source: SyntaxBlock, _library: Library) => new Map<string, LogBlock>());
const KEPT = 8;

/** The model of one block; made once for a block's text, a library and the headings it stands under. */
export function readBlock(source: SyntaxBlock, library: Library, outer?: OuterHeading): LogBlock {
  // Those beside its first heading lend it nothing, whatever they are.
  const depth = source.headings[0]?.depth;
  const under = (depth === undefined ? undefined : above(depth, outer))?.key ?? "";
  const known = models(source, library);
  let block = known.get(under);
  if (block === undefined) {
    block = build(source, library, outer);
    const [oldest] = known.keys();
    if (oldest !== undefined && known.size >= KEPT) known.delete(oldest);
    known.set(under, block);
  }
  return block;
}

function build(source: SyntaxBlock, library: Library, outer: OuterHeading | undefined): LogBlock {
  const sections: Section[] = [{ qualifiers: {} }];
  let standing = outer;
  for (const heading of source.headings) {
    const found = library.procedureFor(heading.text);
    const apart = disconnectionsIn(heading.text);
    const own: Section = defined({
      heading,
      qualifiers: found?.qualifiers ?? {},
      procedure: found?.procedure,
      ...headingParts(heading, source.text, library, apart),
      apart: apart.length > 0 ? apart : undefined,
    });
    sections.push(inherit(own, standing));
    standing = below(own, standing);
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
    const views = viewsOf(table, section, source, library);
    tables.push(...views.map((view) => readAnyhow(view, library)));
    if (views.length === 0) proseTables.push({ source: table, section });
  }
  const whole: Omit<LogBlock, "pieces"> = {
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
  const pieces = once(() => piecesOf(whole) ?? [{ start: 0, block }]);
  const block: LogBlock = withLater({ ...whole }, { pieces });
  return block;
}

/** What stands between long tables is one piece each, the first of them with all that is no table. */
function piecesOf(block: Omit<LogBlock, "pieces">): readonly LocatedBlock[] | undefined {
  if (!block.tables.some((table) => table.pieces)) return undefined;
  const nothing = nothingBeside(block.source.text);
  const found: LocatedBlock[] = [];
  let between: LogTable[] = [];
  const close = (): void => {
    if (between.length === 0 && found.length > 0) return;
    const piece: LogBlock = withLater(
      { ...(found.length === 0 ? block : nothing), tables: between },
      { pieces: () => [{ start: 0, block: piece }] },
    );
    found.push({ start: 0, block: piece });
    between = [];
  };
  for (const table of block.tables) {
    if (!table.pieces) between.push(table);
    else {
      close();
      found.push(...table.pieces);
    }
  }
  close();
  return found;
}

/** Where nothing is read of a table as its heading calls it, what it holds tells better. */
function readAnyhow(view: TableView, library: Library): LogTable {
  const read = readTable(view, library);
  if (hasReadings(read) || !view.byContent || !read.procedure.columns.some(isRequiredReading)) return read;
  const procedure = view.byContent();
  const other = procedure && procedure !== view.procedure ? readTable({ ...view, procedure }, library) : read;
  return hasReadings(other) ? other : read;
}

const hasReadings = (table: LogTable): boolean =>
  (table.pieces ?? [{ table }]).some((piece) => piece.table.readings.length > 0);

const isRequiredReading = ({ role, required }: ColumnSpec): boolean => required && isMeasured(role);

/**
 * The designator in a heading stands for the rows that name none: "Diode check U14 (TIP102)". Of several it
 * cannot be told which is meant, so then none does; a part that is said to be out is not the one that was read.
 */
function headingParts(
  { contentSpan }: Heading,
  blockText: string,
  library: Library,
  apart: readonly Disconnection[],
): Pick<Section, "ref" | "part" | "refs" | "partOfAll"> {
  const words = { text: slice(blockText, contentSpan), span: contentSpan };
  const parts = partsInHeading(words, library).filter(
    ({ ref }) => !apart.some((off) => off.ref === ref.text && off.pin === undefined),
  );
  const [first] = parts;
  const partOfAll = parts.length === 1 ? undefined : numberOfAll(words, library);
  if (!first) return defined({ partOfAll });
  if (parts.length > 1) return defined({ refs: parts.map(({ ref }) => ref), partOfAll });
  return defined({ ref: first.ref, part: first.part });
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
