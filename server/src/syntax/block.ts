import type { Root } from "mdast";
import { withLater } from "../base/later";
import { once } from "../base/once";
import { type AlmostTable, almostTablesIn } from "./almost-tables";
import { type Comment, commentsIn } from "./comments";
import { type Heading, headingsIn } from "./headings";
import { growsTooFast } from "./parse-bounds";
import { type Table, tablesIn } from "./tables";

/**
 * Why a block was kept unread: its length, the length of one of its lines, how many lines it has, how deep it is nested, how many marks one of its
 * paragraphs has, or the parser gave up on it.
 */
export type ReadingBound = "block" | "line" | "lines" | "nesting" | "marks" | "parser";

/** Longest block that is parsed, in UTF-16 code units; a 250 kB table takes about 5 s (measured, 2 cores). */
export const MAX_BLOCK = 250_000;
/** Longest line in a block that is parsed, in UTF-16 code units. */
export const MAX_LINE = 100_000;

/**
 * One stretch of a document, from a heading to the next. It knows nothing of where it stands: every offset in it
 * counts from its own start, so one object serves as long as its text stays the same. Do not change the tree.
 * The lists hold what stands at root level (not in a quote or list), in order, and are computed when first asked.
 */
export interface SyntaxBlock {
  readonly text: string;
  /** Line numbers and columns count from the block's start too; empty where `tooLarge`. */
  readonly tree: Root;
  /** The same, where tables have no more than their headers: for what looks into none, since it costs less. */
  readonly outline: Root;
  readonly tooLarge: boolean;
  /** Set where `tooLarge` is true. */
  readonly limit?: ReadingBound;
  readonly headings: readonly Heading[];
  readonly tables: readonly Table[];
  readonly almostTables: readonly AlmostTable[];
  readonly comments: readonly Comment[];
}

/**
 * @param outline the tree, of which tables may be without their rows
 * @param whole makes all of it, where that is more
 */
export function syntaxBlock(
  text: string,
  outline: Root,
  limit?: ReadingBound,
  whole: () => Root = () => outline,
): SyntaxBlock {
  const tree = once(whole);
  const headings = once(() => headingsIn(text, outline));
  const tables = once(() => tablesIn(text, outline));
  const almostTables = once(() => almostTablesIn(text, outline));
  const comments = once(() => commentsIn(text, outline));
  return withLater(
    {
      text,
      outline,
      tooLarge: limit !== undefined,
      ...(limit === undefined ? {} : { limit }),
    },
    { tree, headings, tables, almostTables, comments },
  );
}

/** The bound the text breaks, if it breaks one. */
export function brokenBound(text: string): ReadingBound | undefined {
  if (text.length > MAX_BLOCK) return "block";
  return hasLongLine(text) ? "line" : growsTooFast(text)?.limit;
}

function hasLongLine(text: string): boolean {
  if (text.length <= MAX_LINE) return false;
  let start = 0;
  for (const end of text.matchAll(/[\r\n]/g)) {
    if (end.index - start > MAX_LINE) return true;
    start = end.index + 1;
  }
  return text.length - start > MAX_LINE;
}
