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
    return {
      uri: this.uri,
      text,
      parsed,
      frontMatter: this.#readFrontMatter(text, parsed),
      blocks: readBlocks(parsed, library),
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

function readBlocks({ blocks }: ParsedDocument, library: Library): LocatedBlock[] {
  let outer: OuterHeading | undefined;
  return blocks.map(({ start, source }) => {
    const block = readBlock(source, library, outer);
    for (const section of block.sections) outer = below(section, outer);
    return { start, block };
  });
}

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
