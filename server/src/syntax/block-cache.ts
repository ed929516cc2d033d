import type { Root } from "mdast";
import { withLater } from "../base/later";
import { brokenBound, MAX_BLOCK, MAX_LINE, type ReadingBound, type SyntaxBlock, syntaxBlock } from "./block";
import { type Names, NO_NAMES, readFrontMatter, readMarkdown } from "./markdown";
import { type Most, plainFront, plainOutline, plainTree } from "./plain-block";
import { putRowsBack, type Shortened, withoutPlainRows } from "./plain-rows";

/**
 * What stands around a block, which bears on its tree: `inner` has a heading right behind it, `last` the end of the
 * document, `front` is front matter.
 */
export type BlockPlace = "inner" | "last" | "front";

/** One text read in one place. */
export interface BlockReading {
  /** Undefined where the text cannot be a block there: it leaves something open that swallows what follows. */
  readonly block: SyntaxBlock | undefined;
  /** What the block defines for the whole document. */
  readonly names: Names;
  /** The same text read where names it mentions are defined elsewhere, by those names. */
  readonly variants: Map<string, SyntaxBlock>;
}

interface Entry {
  readonly places: Partial<Record<BlockPlace, BlockReading>>;
  /** When it was read last, and for how many texts. */
  used: number;
  times: number;
}

/**
 * Readings of blocks by their text. It never changes what is read, only whether it is read again; keep one for each
 * open document. What the latest text no longer holds is kept for undo, up to the length of that text.
 */
export interface BlockCache {
  /** The reading of the text, made now if need be. */
  read(text: string, place: BlockPlace): BlockReading;
  /** The same where it costs next to nothing; undefined for what had better be read elsewhere, if it can be. */
  readSoon(text: string, place: BlockPlace): BlockReading | undefined;
  /** Takes over what was read elsewhere, and gives it back for good. */
  take(text: string, place: BlockPlace, reading: BlockReading): BlockReading;
  /** The block as it reads where `elsewhere` is defined in other blocks too. */
  readAmong(reading: BlockReading, place: BlockPlace, elsewhere: Names): SyntaxBlock;
  /** True where that costs next to nothing. */
  knowsAmong(reading: BlockReading, elsewhere: Names): boolean;
  /** Takes over what was read elsewhere of the same block among these names. */
  takeAmong(reading: BlockReading, elsewhere: Names, among: BlockReading): void;
  /** To be called when a whole text has been read: forgets what has been out of use for longest. */
  sweep(): void;
  /** How many texts are held; for tests and measurements. */
  readonly size: number;
}

/** Kept for undo however short the document is, in UTF-16 code units. */
const LEAST_KEPT = 65_536;

/** An empty cache, for one document. */
export function createBlockCache(): BlockCache {
  // Insertion order is order of use: a text is put at the end again each time it is read.
  const entries = new Map<string, Entry>();
  let generation = 1;

  /** What is kept of a text, from now on among what is in use. */
  const entryOf = (text: string): { readonly key: string; readonly entry: Entry } => {
    let entry = entries.get(text);
    let key = text;
    if (entry === undefined) {
      key = detached(text);
      entry = { places: {}, used: generation, times: 1 };
    } else if (entry.used !== generation) {
      entries.delete(text);
      entry.times++;
    }
    entry.used = generation;
    entries.set(key, entry);
    return { key, entry };
  };
  const read = (text: string, place: BlockPlace): BlockReading => {
    const { key, entry } = entryOf(text);
    entry.places[place] ??= parseBlock(key, place);
    return entry.places[place];
  };
  const readSoon = (text: string, place: BlockPlace): BlockReading | undefined => {
    const { key, entry } = entryOf(text);
    const reading =
      entry.places[place] ??
      readWithoutParser(key, place) ??
      (isShort(key) ? parseBlock(key, place) : undefined);
    if (reading) entry.places[place] = reading;
    return reading;
  };
  const take = (text: string, place: BlockPlace, reading: BlockReading): BlockReading => {
    const { entry } = entryOf(text);
    entry.places[place] ??= reading;
    return entry.places[place];
  };

  const nameKey = ({ links, footnotes }: Names): string => JSON.stringify([links, footnotes]);
  const keepVariant = ({ variants }: BlockReading, elsewhere: Names, variant: SyntaxBlock): SyntaxBlock => {
    if (variants.size > 3) variants.clear();
    variants.set(nameKey(elsewhere), variant);
    return variant;
  };
  const readAmong = (reading: BlockReading, place: BlockPlace, elsewhere: Names): SyntaxBlock => {
    const block = reading.block!;
    const known = reading.variants.get(nameKey(elsewhere));
    return known ?? keepVariant(reading, elsewhere, parseBlock(block.text, place, elsewhere).block ?? block);
  };
  const knowsAmong = ({ block, variants }: BlockReading, elsewhere: Names): boolean =>
    block === undefined || isShort(block.text) || variants.has(nameKey(elsewhere));
  const takeAmong = (reading: BlockReading, elsewhere: Names, among: BlockReading): void => {
    const block = among.block ?? reading.block;
    if (block) keepVariant(reading, elsewhere, block);
  };

  const sweep = (): void => {
    let inUse = 0;
    let idle = 0;
    for (const [text, { used }] of entries) {
      if (used === generation) inUse += text.length;
      else idle += text.length;
    }
    const allowed = Math.max(LEAST_KEPT, inUse);
    // What stood for one key only goes first: under an open fence each key makes all of the log another block.
    for (const most of [1, Number.POSITIVE_INFINITY]) {
      for (const [text, { used, times }] of entries) {
        if (idle <= allowed || used === generation) break;
        if (times > most) continue;
        entries.delete(text);
        idle -= text.length;
      }
    }
    generation++;
  };

  return withLater(
    { read, readSoon, take, readAmong, knowsAmong, takeAmong, sweep },
    { size: () => entries.size },
  );
}

/** A heading that no text can end in, because it is appended to texts that end in a line end. */
const SENTINEL = "#";

/** A block that is kept unread. */
export const unreadBlock = (text: string, limit: ReadingBound): BlockReading => ({
  block: syntaxBlock(text, { type: "root", children: [] }, limit),
  names: NO_NAMES,
  variants: new Map(),
});

/** Characters that the parser has done with in some thirty milliseconds (measured, for lists and links). */
const SHORT = 3000;

const shortenedOf = (text: string, place: BlockPlace) =>
  place === "front" ? undefined : withoutPlainRows(text, MAX_BLOCK);

const isShort = (text: string): boolean =>
  text.length <= SHORT || (shortenedOf(text, "inner")?.text ?? text).length <= SHORT;

const OF_A_BLOCK: Most = { line: MAX_LINE, words: MAX_BLOCK };

/** What the parser never sees: plain text, and what it would be too long at. */
function readWithoutParser(text: string, place: BlockPlace): BlockReading | undefined {
  const plain = place === "front" ? undefined : plainOutline(text, OF_A_BLOCK);
  if (plain) {
    const block = syntaxBlock(text, plain, undefined, () => plainTree(text, OF_A_BLOCK) ?? plain);
    return { block, names: NO_NAMES, variants: new Map() };
  }
  const limit = brokenBound(shortenedOf(text, place)?.text ?? text);
  return limit && unreadBlock(text, limit);
}

/** Reads a block, among names that are defined elsewhere. Never throws. */
export function parseBlock(text: string, place: BlockPlace, elsewhere: Names = NO_NAMES): BlockReading {
  const without = readWithoutParser(text, place);
  if (without) return without;
  const shortened = shortenedOf(text, place);
  // The parser drops a byte order mark at the beginning of what it is given, and does not count it. The document's
  // own stands outside all blocks, so one here is a character, and a second one has to be dropped in its stead.
  const given = (piece: string): string =>
    (piece.startsWith("\uFEFF") ? "\uFEFF" : "") + piece + (place === "inner" ? SENTINEL : "");
  try {
    if (place === "front") {
      const tree = plainFront(text) ?? readFrontMatter(given(text));
      const block = tree.children[0]?.type === "yaml" ? syntaxBlock(text, tree) : undefined;
      return { block, names: NO_NAMES, variants: new Map() };
    }
    const read = (piece: string, rows?: Shortened): BlockReading | undefined => {
      const { tree, names } = readMarkdown(given(piece), elsewhere);
      const whole = place === "last" || dropSentinel(tree, piece.length);
      if (whole && rows && !putRowsBack(tree, text, rows)) return undefined;
      return { block: whole ? syntaxBlock(text, tree) : undefined, names, variants: new Map() };
    };
    const whole = shortened && read(shortened.text, shortened);
    if (whole) return whole;
    // What looked like a table was none.
    const wholeLimit = shortened && brokenBound(text);
    return wholeLimit === undefined ? read(text)! : unreadBlock(text, wholeLimit);
  } catch {
    return unreadBlock(text, "parser");
  }
}

/** Takes the sentinel off the tree; false where it was not read as a heading at root level. */
function dropSentinel(tree: Root, length: number): boolean {
  const sentinel = tree.children.at(-1);
  if (sentinel?.type !== "heading" || sentinel.position?.start.offset !== length) return false;
  tree.children.pop();
  if (tree.position !== undefined) tree.position.end = sentinel.position.start;
  return true;
}

/**
 * The same text in memory of its own. A slice refers to the text it was cut from, and a cache of slices would hold
 * every version of the document that ever had a block in it.
 */
const detached = (text: string): string => [text.slice(0, 1), text.slice(1)].join("");
