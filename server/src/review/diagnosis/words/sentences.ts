// The running words of a block, sentence by sentence, each with its place.
import type { LogBlock } from "../../../log/model";

export interface Sentence {
  readonly text: string;
  /** Of the block. */
  readonly at: number;
}

/** Paragraphs longer than this are no notes from the bench. */
const LONGEST = 2000;

/** Of paragraphs and lists; not of headings, tables or code. */
export function sentencesOf({ source }: LogBlock): readonly Sentence[] {
  const { outline, text } = source;
  return outline.children.flatMap((node): Sentence[] => {
    const from = node.position?.start.offset;
    const to = node.position?.end.offset;
    const isProse = node.type === "paragraph" || node.type === "list" || node.type === "blockquote";
    if (!isProse || from === undefined || to === undefined || to - from > LONGEST) return [];
    const found: Sentence[] = [];
    let at = from;
    // A point between figures ends nothing, nor does a line's end in the middle of a sentence.
    for (const end of text.slice(from, to).matchAll(/[.!?;]+(?=\s)(?!\s+[a-z])|\n\s*(?=[-*+]\s|\n)/g)) {
      const stop = from + end.index + end[0].length;
      found.push({ text: text.slice(at, stop), at });
      at = stop;
    }
    found.push({ text: text.slice(at, to), at });
    return found.filter((one) => one.text.trim() !== "");
  });
}
