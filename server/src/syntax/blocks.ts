import { defined } from "../base/defined";
import { finish, type Steps, type Waiting } from "../base/steps";
import type { Span } from "../text/span";
import type { SyntaxBlock } from "./block";
import type { BlockCache, BlockPlace, BlockReading } from "./block-cache";
import { endOfIndentedFence, type FrontMatterSpans, findFrontMatter, headingStarts } from "./boundaries";
import { type Elsewhere, received, type SentReading, type ToRead } from "./elsewhere";
import { NO_NAMES } from "./markdown";
import { elsewhereFor, gatherNames } from "./names";

export type { ReadingBound, SyntaxBlock } from "./block";
export { type BlockCache, createBlockCache } from "./block-cache";
export type { FrontMatterSpans } from "./boundaries";

export interface Block {
  /** Offset in the document of the block's first character. */
  readonly start: number;
  /** The very same object for as long as the text of the block, and what it refers to elsewhere, stay the same. */
  readonly source: SyntaxBlock;
}

/** A text cut into blocks at its headings; equal to what the parser makes of the whole. */
export interface ParsedDocument {
  readonly text: string;
  /** 1 where the text begins with a byte order mark, which belongs to no block. */
  readonly bom: 0 | 1;
  /** In order and without a gap: together they are the text behind the byte order mark. */
  readonly blocks: readonly Block[];
  /** Spans in the document; the first block is then the front matter. */
  readonly frontMatter?: FrontMatterSpans;
}

/**
 * Reads a document block by block; what the cache holds is not read again. The blocks' trees, one after another
 * with their starts added, are the tree of the whole document. Never throws: a block that is too long or that the
 * parser fails on is kept unread (`tooLarge`), the others are not touched by it.
 */
export function parseBlocks(text: string, cache: BlockCache): ParsedDocument {
  return finish(parseBlocksGradually(text, cache));
}

/**
 * `parseBlocks` with a step after every block. One left unfinished has still filled the cache with what it read.
 * @param other takes the blocks that nobody should have to wait for; what it does not read is read here
 */
export function* parseBlocksGradually(
  text: string,
  cache: BlockCache,
  other?: Elsewhere,
): Steps<ParsedDocument, Waiting> {
  const bom = text.startsWith("\uFEFF") ? 1 : 0;
  const cuts: Cut[] = [];
  let at: number = bom;

  const fence = findFrontMatter(text, at);
  const front = fence && cache.read(text.slice(at, fence.span.end), "front");
  const frontMatter = front?.block && fence;
  if (front?.block && fence) {
    cuts.push({ start: at, place: "front", reading: front });
    at = fence.span.end;
    yield;
  }

  const headings = headingStarts(text, at);
  let next = 0;
  while (at < text.length) {
    // The text up to the next heading is a block if the parser says that it leaves nothing open. If not, the
    // heading was none: an indented fence has it, and the next one to be tried is behind that fence. Otherwise a quarter
    // more are skipped each time, so an indented `<pre>` full of `#` lines costs a few times its own reading, not the square of it.
    let skip = 0;
    for (let tries = 0; ; tries++) {
      const end = headings[next + skip] ?? text.length;
      const place: BlockPlace = end === text.length ? "last" : "inner";
      const reading = yield* readGradually(text.slice(at, end), place, cache, other);
      yield;
      if (reading.block === undefined) {
        const behind = tries < MOST_FENCES ? endOfIndentedFence(text, at, end) : undefined;
        skip += behind === undefined ? 1 + (skip >> 2) : 1;
        while (behind !== undefined && (headings[next + skip] ?? behind) < behind) skip++;
        continue;
      }
      cuts.push({ start: at, place, reading });
      next += skip + 1;
      at = end;
      break;
    }
  }

  const names = gatherNames(cuts.map(({ reading }) => reading.names));
  const blocks: Block[] = [];
  for (const cut of cuts) {
    const { start, reading } = cut;
    const elsewhere = names === undefined || cut.place === "front" ? undefined : elsewhereFor(names, reading);
    if (elsewhere === undefined) {
      blocks.push({ start, source: reading.block! });
    } else {
      if (other && !cache.knowsAmong(reading, elsewhere)) {
        const among = yield* readElsewhere(
          { text: reading.block!.text, place: cut.place, among: elsewhere },
          other,
        );
        if (among) cache.takeAmong(reading, elsewhere, among);
      }
      blocks.push({ start, source: cache.readAmong(reading, cut.place, elsewhere) });
      yield;
    }
  }
  cache.sweep();
  return defined({ text, bom, blocks, frontMatter });
}

function* readGradually(
  text: string,
  place: BlockPlace,
  cache: BlockCache,
  other: Elsewhere | undefined,
): Steps<BlockReading, Waiting> {
  if (!other) return cache.read(text, place);
  const soon = cache.readSoon(text, place);
  if (soon) return soon;
  const reading = yield* readElsewhere({ text, place, among: NO_NAMES }, other);
  return reading ? cache.take(text, place, reading) : cache.read(text, place);
}

function* readElsewhere(block: ToRead, other: Elsewhere): Steps<BlockReading | undefined, Waiting> {
  const asked = other.read(block);
  let sent: SentReading | undefined;
  try {
    yield asked.answer.then((answer) => {
      sent = answer;
    });
  } finally {
    asked.drop();
  }
  return sent && (yield* received(block.text, sent));
}

/** Fences that are gone by, for one block: those in a list, or in HTML, swallow no heading. */
const MOST_FENCES = 2;

interface Cut {
  readonly start: number;
  readonly place: BlockPlace;
  readonly reading: BlockReading;
}

/** The block that holds the offset; at the end of the text the last one. Undefined in a document without blocks. */
export function syntaxBlockAt(document: ParsedDocument, offset: number): Block | undefined {
  const { blocks } = document;
  let low = 0;
  let high = blocks.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (blocks[middle]!.start <= offset) low = middle;
    else high = middle - 1;
  }
  return blocks[low];
}

/** Where a block stands in its document. */
export const blockSpan = ({ start, source }: Block): Span => ({ start, end: start + source.text.length });
