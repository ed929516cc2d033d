// The verdicts on all readings of a log, piece by piece.

import { memo } from "../base/memo";
import type { LogDocument } from "../log/document";
import type { LogTable, Reading } from "../log/model";
import { contextAt, type LogContext } from "./context";
import { inJudgedBlocks } from "./in-blocks";
import { judgePieces } from "./index";
import type { Judgement } from "./types";

/** Verdicts on readings that stand together. */
export interface JudgedHere {
  /** Offset in the document that the readings' spans count from. */
  readonly start: number;
  /** All of the table that they are some rows of; absent where they are whole tables. */
  readonly table?: LogTable;
  readonly judgements: ReadonlyMap<Reading, Judgement>;
}

/** Every reading of a log with its verdict, in the order of the log. */
export const judgedOfLog = memo((doc: LogDocument, ctx: LogContext): readonly JudgedHere[] =>
  judgedInBlocks(doc, ctx).flatMap(({ start, found }) =>
    found.map(({ piece, ...judged }) => ({ ...judged, start: start + piece.start })),
  ),
);

const judgedInBlocks = inJudgedBlocks((block, whole) => {
  const judged = judgePieces(block, contextAt(block, whole)).filter(({ judgements }) => judgements.size > 0);
  return judged.length === 0 ? undefined : judged;
});
