// The verdicts on all readings of a log, piece by piece.

import { memo } from "../base/memo";
import type { LogDocument } from "../log/document";
import type { LogTable, Reading } from "../log/model";
import { contextAt, type LogContext } from "./context";
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
  doc.blocks.flatMap(({ start, block }) =>
    judgePieces(block, contextAt(block, ctx)).map(({ piece, ...judged }) => ({
      ...judged,
      start: start + piece.start,
    })),
  ),
);
