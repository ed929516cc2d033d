import { defined } from "../base/defined";
import { finish, type Steps, type Waiting } from "../base/steps";
import type { Span } from "../text/span";
import type { SyntaxBlock } from "./block";
import type { BlockCache, Cut } from "./block-cache";
import {
  asAsked,
  endOfIndentedFence,
  type FrontMatterSpans,
  findFrontMatter,
  headingStarts,
} from "./boundaries";
import { cutsThatStay, startAfter, startOfLast } from "./cuts";
import { type Elsewhere, received, type SentReading, type ToRead } from "./elsewhere";
import { NO_NAMES } from "./markdown";
import { elsewhereFor, gatherNames } from "./names";
import type { BlockPlace, BlockReading } from "./parse-block";

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
  const { latest } = cache;
  const fence = findFrontMatter(text, bom);
  const { ahead, behind } = cutsThatStay(text, bom, fence?.span.end, latest);
  const cuts: Cut[] = latest ? latest.cuts.slice(0, ahead) : [];
  let at: number = ahead > 0 ? startAfter(latest!, ahead) : bom;

  let frontMatter = cuts[0]?.place === "front" ? fence : undefined;
  if (ahead === 0 && fence) {
    const reading = cache.read(text.slice(at, fence.span.end), "front");
    if (reading.block) {
      frontMatter = fence;
      cuts.push(cutOf(at, "front", reading));
      at = fence.span.end;
      yield;
    }
  }

  const headings = asAsked(headingStarts(text, at));
  let stays = behind;
  let next = 0;
  while (at < text.length) {
    while (stays > 0 && startOfLast(text, latest!, stays) < at) stays--;
    if (stays > 0 && startOfLast(text, latest!, stays) === at) break;
    // The text up to the next heading is a block if the parser says that it leaves nothing open. If not, the
    // heading was none: an indented fence has it, and the next one to be tried is behind that fence. Otherwise a quarter
    // more are skipped each time, so an indented `<pre>` full of `#` lines costs a few times its own reading, not the square of it.
    let skip = 0;
    for (let tries = 0; ; tries++) {
      const end = headings(next + skip) ?? text.length;
      const place: BlockPlace = end === text.length ? "last" : "inner";
      const reading = yield* readGradually(text.slice(at, end), place, cache, other);
      yield;
      if (reading.block === undefined) {
        const behind = tries < MOST_FENCES ? endOfIndentedFence(text, at, end) : undefined;
        skip += behind === undefined ? 1 + (skip >> 2) : 1;
        while (behind !== undefined && (headings(next + skip) ?? behind) < behind) skip++;
        continue;
      }
      cuts.push(cutOf(at, place, reading));
      next += skip + 1;
      at = end;
      break;
    }
  }
  if (at === text.length) stays = 0;
  const read = cuts.slice(ahead);
  if (latest && stays > 0) {
    const moved = text.length - latest.text.length;
    for (const cut of latest.cuts.slice(-stays))
      cuts.push(moved === 0 ? cut : { ...cut, start: cut.start + moved });
  }

  const mayHaveNames =
    (latest !== undefined && ahead + stays > 0 && latest.mayHaveNames) ||
    read.some(({ reading: { names } }) => names.links.length + names.footnotes.length > 0);
  const names = mayHaveNames ? gatherNames(cuts.map(({ reading }) => reading.names)) : undefined;
  const blocks: Block[] = names ? [] : cuts;
  for (const cut of names ? cuts : []) {
    const { start, reading } = cut;
    const elsewhere = cut.place === "front" ? undefined : elsewhereFor(names!, reading);
    if (elsewhere === undefined) {
      blocks.push(cut);
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
  const isNext = cache.latest === latest;
  cache.keep({ text, cuts, mayHaveNames: names !== undefined }, isNext ? ahead : 0, isNext ? stays : 0);
  return defined({ text, bom, blocks, frontMatter });
}

const cutOf = (start: number, place: BlockPlace, reading: BlockReading): Cut => ({
  start,
  source: reading.block!,
  place,
  reading,
});

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
