// What a log's words and figures are, for editors that colour them. The verdict is in the colour of a reading, but
// never in it alone: what is wrong has its finding, and each verdict its mark as an inlay hint.
import { memoBy } from "../../base/memo";
import { judgeBlock } from "../../judge";
import { type Span, shift } from "../../text/span";
import { type BlockOccurrences, occurrencesIn } from "../shared/occurrences";
import type { Occurrence } from "../shared/occurrences/occurrence";
import type { LogView } from "../view";
import { MODIFIER_OF, type TokenModifier, type TokenType, TYPE_OF } from "./legend";

export { TOKEN_MODIFIERS, TOKEN_TYPES } from "./legend";

/** One coloured word or figure. */
export interface Token {
  /** On one line. */
  readonly span: Span;
  readonly type: TokenType;
  readonly modifiers: readonly TokenModifier[];
}

/** By the occurrences of a block, which are others when the block or what it is judged by is. */
const tokensIn = memoBy<readonly Occurrence[], readonly Token[]>();

/**
 * Tokens of the document in its order, none overlapping another.
 * @param within only those that touch this stretch
 */
export function tokensOf(view: LogView, within?: Span): Token[] {
  const { front, blocks } = occurrencesIn(view);
  const placed: [start: number, tokens: readonly Token[]][] = [
    [0, front.flatMap((each) => tokenOf(each, []))],
    ...blocks
      .filter(
        ({ start, block }) => !within || overlaps({ start, end: start + block.source.text.length }, within),
      )
      .map((block): [number, readonly Token[]] => [block.start, blockTokens(block, view)]),
  ];
  const tokens = placed.flatMap(([start, own]) =>
    own.map((token) => ({ ...token, span: shift(token.span, start) })),
  );
  return within ? tokens.filter(({ span }) => overlaps(span, within)) : tokens;
}

const overlaps = (a: Span, b: Span): boolean => a.start < b.end && a.end > b.start;

/** Spans of the block. */
function blockTokens({ block, all }: BlockOccurrences, { ctx }: LogView): readonly Token[] {
  return tokensIn(all, () => {
    const judged = judgeBlock(block, ctx);
    return all.flatMap((each) => {
      const verdict = each.reading && judged.get(each.reading)?.verdict;
      const modifier = verdict && MODIFIER_OF[verdict];
      return each.reading && !modifier ? [] : tokenOf(each, modifier ? [modifier] : []);
    });
  });
}

function tokenOf({ kind, span, aside }: Occurrence, modifiers: readonly TokenModifier[]): Token[] {
  const type = TYPE_OF[kind];
  return type && !aside ? [{ span, type, modifiers }] : [];
}
