// The board's proving list against what the log shows.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import type { LogContext } from "../../judge/context";
import type { ProvingItem } from "../../knowledge/types";
import { type LogDocument, tablesOf } from "../../log/document";
import { timelineOf } from "../../log/timeline";
import { evidenceFor } from "./evidence";
import { type ProofStatement, statements } from "./statements";
import type { ItemReview, ProvingReview, ShownByTables } from "./types";

export type { Coverage, ItemReview, ProofClaim, ProvingReview, ProvingState } from "./types";

/** Every item of the board's list in its order; without a board, the rows of the proving tables alone. */
export const provingReview = memo((doc: LogDocument, ctx: LogContext): ProvingReview => {
  const board = ctx.board?.value;
  const tables = [...tablesOf(doc)];
  const timeline = timelineOf(doc);
  const { of, beside } = statements(tables, board?.proving ?? [], timeline, ctx);
  const romSet = doc.frontMatter.value?.romSet;
  return {
    items: (board?.proving ?? []).map((item) =>
      itemReview(
        item,
        of.get(item) ?? [],
        evidenceFor(
          item,
          defined({
            doc,
            ctx,
            board: board!,
            tables,
            timeline,
            romSet,
          }),
        ),
      ),
    ),
    beside,
  };
});

function itemReview(item: ProvingItem, said: readonly ProofStatement[], shown: ShownByTables): ItemReview {
  const now = said.filter(({ since }) => since);
  const old = said.filter(({ since }) => !since);
  const coverage = shown.coverage ? { coverage: shown.coverage } : {};
  const note = now.findLast((row) => row.note !== undefined)?.note;
  const against = [...now.filter(({ ok }) => ok === false), ...shown.against];
  if (against.length > 0) {
    return defined({
      item,
      state: "failed",
      said: against.map(plain),
      ...coverage,
      reason: note,
      wants: "Find the cause, repair it, and prove it again.",
    });
  }
  const stated = now.filter(({ ok }) => ok === true);
  // A table that shows part of it, beside a row that says all of it works, is a log that disagrees with itself. A row
  // without a note does not say why.
  const partly = shown.coverage !== undefined && shown.coverage.done > 0 && shown.coverage.missing.length > 0;
  if (shown.complete || (stated.length > 0 && !(partly && note === undefined))) {
    return { item, state: "proven", said: [...stated.map(plain), ...shown.for], ...coverage, wants: "" };
  }
  const stale = stated.length === 0 && old.some(({ ok }) => ok === true);
  return defined({
    item,
    state: "unproven",
    said: [...(now.length > 0 ? now : old).map(plain), ...shown.for],
    ...coverage,
    // What a row says that leaves the result open; it is the log's own reason.
    reason: note,
    wants: stale
      ? `It was proven before the last repair only. ${shown.wants}`
      : `${shown.wants} ${rowWanted(item, stated.length > 0)}`.trim(),
  });
}

const plain = ({ span, text }: ProofStatement | ItemReview["said"][number]) => ({ span, text });

const rowWanted = ({ title }: ProvingItem, stated: boolean): string =>
  stated
    ? "Or write in the note of its row how the rest was shown."
    : `Or write a row "${title}" into the proving table, with its result, or with the reason in the note.`;
