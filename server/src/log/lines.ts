// Line numbers for the few words that name one. An edit costs the block it is in.
import type { SyntaxBlock } from "../syntax/block";
import type { LogDocument } from "./document";

const breaks = new WeakMap<SyntaxBlock, number>();
const starts = new WeakMap<LogDocument, readonly number[]>();

/** The line of an offset, from 1. */
export function lineOf(doc: LogDocument, offset: number): number {
  let lines = starts.get(doc);
  if (!lines) {
    const first = doc.blocks[0]?.start ?? 0;
    let line = 1 + breaksIn(doc.text.slice(0, first));
    lines = doc.blocks.map(({ block: { source } }) => {
      const at = line;
      line += breaksOf(source);
      return at;
    });
    starts.set(doc, lines);
  }
  const at = doc.blocks.findLastIndex(({ start }) => start <= offset);
  const placed = doc.blocks[at];
  if (!placed) return 1 + breaksIn(doc.text.slice(0, offset));
  return (lines[at] ?? 1) + breaksIn(placed.block.source.text.slice(0, offset - placed.start));
}

function breaksOf(source: SyntaxBlock): number {
  let count = breaks.get(source);
  if (count === undefined) {
    count = breaksIn(source.text);
    breaks.set(source, count);
  }
  return count;
}

function breaksIn(text: string): number {
  let count = 0;
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) count += 1;
  return count;
}
