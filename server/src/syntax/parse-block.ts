// One block of a text read by itself: without the parser where it is plain, else by it, as it stands in its document.

import type { Root } from "mdast";
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

/** True for a text that the parser has done with at once. */
export const isShort = (text: string): boolean =>
  text.length <= SHORT || (shortenedOf(text, "inner")?.text ?? text).length <= SHORT;

const OF_A_BLOCK: Most = { line: MAX_LINE, words: MAX_BLOCK };

/** What the parser never sees: plain text, and what it would be too long at; undefined for all else. */
export function readWithoutParser(text: string, place: BlockPlace): BlockReading | undefined {
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
