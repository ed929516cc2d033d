import type { Steps, Waiting } from "../base/steps";
import type { Library } from "../knowledge/library";
import { type FrontMatter, loadFrontMatter } from "../knowledge/load-front-matter";
import type { Loaded } from "../knowledge/loaded";
import { createBlockCache, type ParsedDocument, parseBlocks, parseBlocksGradually } from "../syntax/blocks";
import type { Elsewhere } from "../syntax/elsewhere";
import type { LocatedBlock, LogDocument } from "./model";
import { below, type OuterHeading } from "./outer-headings";
import { readBlock } from "./read-block";

/** What one document keeps between its snapshots, so that an edit costs the block it is in. */
export class LogReader {
  readonly #cache = createBlockCache();
  #blocks: ReadBlocks | undefined;
  #frontMatter: { yaml: string; start: number; loaded: Loaded<FrontMatter> } | undefined;

  constructor(readonly uri: string) {}

  /**
   * Reads the blocks of a text, a step each. What it has read, `read` will not read again.
   * @param other reads the long ones
   */
  *prepare(text: string, other?: Elsewhere): Steps<void, Waiting> {
    yield* parseBlocksGradually(text, this.#cache, other);
  }

  read(text: string, library: Library): LogDocument {
    const parsed = parseBlocks(text, this.#cache);
    this.#blocks = readBlocks(parsed, library, this.#blocks);
    return {
      uri: this.uri,
      text,
      parsed,
      frontMatter: this.#readFrontMatter(text, parsed),
      blocks: this.#blocks.located,
      library,
    };
  }

  #readFrontMatter(text: string, parsed: ParsedDocument): Loaded<FrontMatter> {
    const at = parsed.frontMatter?.content ?? { start: parsed.bom, end: parsed.bom };
    const yaml = text.slice(at.start, at.end);
    if (this.#frontMatter?.yaml !== yaml || this.#frontMatter.start !== at.start) {
      this.#frontMatter = { yaml, start: at.start, loaded: loadFrontMatter(yaml, at.start) };
    }
    return this.#frontMatter.loaded;
  }
}

/** The blocks of a text with their models, and what each of them stands under. */
interface ReadBlocks {
  readonly library: Library;
  readonly sources: ParsedDocument["blocks"];
  readonly located: readonly LocatedBlock[];
  readonly outers: readonly (OuterHeading | undefined)[];
}

/**
 * The blocks of a text. A model hangs on its text and on the headings that it stands under: those in front of a change are
 * taken over, and so are those behind it from the first on that stands under the same headings as before.
 */
function readBlocks({ blocks }: ParsedDocument, library: Library, last: ReadBlocks | undefined): ReadBlocks {
  const before = last?.library === library ? last : undefined;
  const { ahead, behind } = alike(blocks, before?.sources ?? []);
  const located = before ? before.located.slice(0, ahead) : [];
  const outers = before ? before.outers.slice(0, ahead + 1) : [];
  let outer = outers[ahead];
  for (let at = ahead; at < blocks.length; at++) {
    const { start, source } = blocks[at]!;
    outers[at] = outer;
    const was = before && at >= blocks.length - behind ? at - blocks.length + before.sources.length : -1;
    if (before && was >= 0 && before.outers[was] === outer) {
      const moved = start - before.sources[was]!.start;
      const rest = before.located.slice(was);
      for (const one of rest) located.push(moved === 0 ? one : { ...one, start: one.start + moved });
      for (const one of before.outers.slice(was + 1)) outers.push(one);
      break;
    }
    const block = readBlock(source, library, outer);
    located.push({ start, block });
    for (const section of block.sections) outer = below(section, outer);
    outers[at + 1] = outer;
  }
  return { library, sources: blocks, located, outers };
}

/** How many blocks at the beginning stand where they stood, and how many of the others at the end are the same. */
function alike(now: ParsedDocument["blocks"], before: ParsedDocument["blocks"]) {
  const most = Math.min(now.length, before.length);
  let ahead = 0;
  while (ahead < most && isSame(now[ahead]!, before[ahead]!) && now[ahead]!.start === before[ahead]!.start)
    ahead++;
  let behind = 0;
  while (behind < most - ahead && isSame(now.at(-1 - behind)!, before.at(-1 - behind)!)) behind++;
  return { ahead, behind };
}

const isSame = (a: ParsedDocument["blocks"][number], b: ParsedDocument["blocks"][number]): boolean =>
  a === b || a.source === b.source;

/** Every table of the document with the offset its block starts at. */
export function* tablesOf(doc: LogDocument) {
  for (const { start, block } of doc.blocks) for (const table of block.tables) yield { start, block, table };
}

/**
 * Every table with the offset its block starts at, a long one some rows at a time: for what is told by single rows. A piece
 * may come twice, so nothing is kept by its readings beyond it.
 */
export function* tablesInPieces(doc: LogDocument) {
  for (const placed of doc.blocks)
    for (const { start, block } of placed.block.pieces)
      for (const table of block.tables) yield { start: placed.start + start, block, table };
}

/** Where something is added at the end: of one board of a set, behind the last of its sections. */
export function endOf({ text, blocks, ofSet }: LogDocument): number {
  const last = blocks.at(-1);
  return ofSet && last ? last.start + last.block.source.text.length : text.length;
}

/** The block that an offset of the document is in; undefined in front of the first, as in the front matter. */
export function blockAt(doc: LogDocument, offset: number): LocatedBlock | undefined {
  const { blocks } = doc;
  let low = 0;
  let high = blocks.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (blocks[middle]!.start <= offset) low = middle + 1;
    else high = middle;
  }
  return blocks[low - 1];
}

export type { LogBlock, LogDocument } from "./model";
