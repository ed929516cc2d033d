// The running words of a block: its paragraphs and the items of its lists, line by line.
import type { LogBlock } from "../model";

export interface ProseLine {
  readonly text: string;
  /** Offset in the block. */
  readonly start: number;
  /** It begins with the mark of a list. */
  readonly isItem: boolean;
}

/** More lines than these are a book, not notes beside readings. */
const MOST_LINES = 400;

/** Code, tables, headings, quotes and comments are none of it. */
export function proseIn({ source }: LogBlock): ProseLine[] {
  const found: ProseLine[] = [];
  for (const node of source.outline.children) {
    if (node.type !== "paragraph" && node.type !== "list") continue;
    const from = node.position?.start.offset;
    const to = node.position?.end.offset;
    if (from === undefined || to === undefined) continue;
    for (const line of source.text.slice(from, to).matchAll(/[^\r\n]+/g)) {
      const mark = /^\s*(?:[-*+]|\d{1,3}[.)])\s+/.exec(line[0]);
      const skip = mark?.[0].length ?? 0;
      found.push({ text: line[0].slice(skip), start: from + line.index + skip, isItem: mark !== null });
      if (found.length >= MOST_LINES) return found;
    }
  }
  return found;
}
