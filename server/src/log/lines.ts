// Line numbers for the few words that name one. An edit costs the block it is in.
import { memo } from "../base/memo";
import type { SyntaxBlock } from "../syntax/block";
import type { LogDocument } from "./document";

/** The line of an offset, from 1. */
export function lineNumberAt(doc: LogDocument, offset: number): number {
  const at = doc.blocks.findLastIndex(({ start }) => start <= offset);
  const placed = doc.blocks[at];
  if (!placed) return 1 + breaksIn(doc.text.slice(0, offset));
  return (startsOf(doc)[at] ?? 1) + breaksIn(placed.block.source.text.slice(0, offset - placed.start));
}

/** The line each block begins in. */
const startsOf = memo((doc: LogDocument): readonly number[] => {
  const first = doc.blocks[0]?.start ?? 0;
  let line = 1 + breaksIn(doc.text.slice(0, first));
  return doc.blocks.map(({ block: { source } }) => {
    const at = line;
    line += breaksOf(source);
    return at;
  });
});

const breaksOf = memo(({ text }: SyntaxBlock): number => breaksIn(text));

function breaksIn(text: string): number {
  let count = 0;
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) count += 1;
  // A lone return ends a line too.
  for (let at = text.indexOf("\r"); at >= 0; at = text.indexOf("\r", at + 1))
    count += text[at + 1] === "\n" ? 0 : 1;
  return count;
}
