import type { Verdict } from "../../compute/verdict";
import { judgeBlock } from "../../judge";
import { positionAt } from "../../log/position";
import { VERDICT_MARKS } from "../../pictures/marks";
import { inWords } from "../../text/saying";
import type { Span } from "../../text/span";
import type { LogView } from "../view";

/** A reading's verdict, to be shown at a glance. */
export interface ReadingVerdict {
  readonly span: Span;
  readonly verdict: Verdict;
  /** The verdict's shape, which is read without colour. */
  readonly mark: string;
  /** "Out of limits". */
  readonly words: string;
  readonly sentence: string;
}

/** The verdict of the reading at this place; undefined where there is none. */
export function verdictAt({ doc, ctx }: LogView, offset: number): ReadingVerdict | undefined {
  const position = positionAt(doc, offset);
  if (position.kind !== "cell" || !position.reading) return undefined;
  const judgement = judgeBlock(position.placed.block, ctx).get(position.reading);
  if (!judgement) return undefined;
  const { verdict } = judgement;
  const { glyph, words } = VERDICT_MARKS[verdict];
  return { span: position.span, verdict, mark: glyph, words, sentence: inWords(judgement.says) };
}
