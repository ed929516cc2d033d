// Words between the typed ones: beside a pin its name and net, beside a reading the mark of its verdict. They stand
// in tables, so in one column they are all of one width: what was in line stays in line.

import { memo } from "../../base/memo";
import { judgeBlock } from "../../judge";
import type { LogContext } from "../../judge/context";
import { blockAt } from "../../log/document";
import type { LogBlock } from "../../log/model";
import type { Markdown } from "../../text/markdown";
import { type Span, span } from "../../text/span";
import type { LogView } from "../view";
import type { Hint } from "./hint";
import { pinHints, pinTooltip } from "./pins";
import { verdictHints, verdictTooltip } from "./verdicts";

/** Which readings get a mark: every judged one, those that are not within limits, or none. */
export type VerdictHints = "all" | "doubtful" | "off";

/** What a person has chosen to see; `pins` are the names and nets beside pin numbers. */
export interface HintSettings {
  readonly pins: boolean;
  readonly verdicts: VerdictHints;
}

interface BlockHints {
  readonly pins: readonly Hint[];
  readonly all: readonly Hint[];
  readonly doubtful: readonly Hint[];
}

/** Hints of a stretch of the document, in its order. */
export function hintsOf({ doc, ctx }: LogView, within: Span, wanted: HintSettings): Hint[] {
  const hints: Hint[] = [];
  for (const { start, block } of doc.blocks) {
    if (start > within.end || start + block.source.text.length < within.start) continue;
    const of = blockHints(block, ctx);
    const own = [...(wanted.pins ? of.pins : []), ...(wanted.verdicts === "off" ? [] : of[wanted.verdicts])];
    for (const hint of own.sort((a, b) => a.at - b.at)) {
      const at = start + hint.at;
      if (at >= within.start && at <= within.end) hints.push({ ...hint, at });
    }
  }
  return hints;
}

/** Offsets of the block. */
const blockHints = memo((block: LogBlock, ctx: LogContext): BlockHints => {
  const judged = judgeBlock(block, ctx);
  return {
    pins: block.tables.flatMap((table) => pinHints(table, ctx)),
    all: block.tables.flatMap((table) => verdictHints(table, judged, true)),
    doubtful: block.tables.flatMap((table) => verdictHints(table, judged, false)),
  };
});

/** Markdown that says more of a hint; undefined where the text has moved away from it. */
export function hintTooltip(
  { doc, ctx }: LogView,
  { kind, at }: Pick<Hint, "kind" | "at">,
): Markdown | undefined {
  const placed = blockAt(doc, at);
  if (!placed) return undefined;
  const offset = at - placed.start;
  const table = placed.block.tables.find(({ span: own }) => offset >= own.start && offset <= own.end);
  if (!table) return undefined;
  return kind === "pin"
    ? pinTooltip(table, offset, ctx)
    : verdictTooltip(table, offset, judgeBlock(placed.block, ctx));
}

/** The whole of a document. */
export const everywhere = ({ doc }: LogView): Span => span(0, doc.text.length);
