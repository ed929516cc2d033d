// Readings that are compared along nets, with their verdicts: those of a long table piece by piece.

import { memo } from "../../base/memo";
import type { LocatedBlock, LogBlock, LogTable } from "../../log/model";
import type { LogContext } from "../context";
import { type JudgedPiece, judgeBlock, judgePieces } from "../index";
import type { Judgement } from "../types";
import { comparedAs, type LocatedReading, placedReadings } from "./block-nets";

/** A reading that can be compared with others of its net. */
export interface JudgedOnNet extends LocatedReading {
  /** Offset in the block that the reading's spans count from. */
  readonly start: number;
  /** What it stands in, all of it. */
  readonly table: LogTable;
  readonly judgement: Judgement | undefined;
}

/** The tables of a block whose pins must agree along a net, each with its readings; `ctx` is the block's own. */
export const judgedAlongNets = memo(
  (block: LogBlock, ctx: LogContext): readonly (readonly [LogTable, readonly JudgedOnNet[]])[] => {
    const tables = block.tables.filter(comparedAs);
    if (tables.length === 0) return [];
    const pieces = new Map<LocatedBlock, JudgedPiece>(
      judgePieces(block, ctx).map((judged) => [judged.piece, judged]),
    );
    return tables.map((table) => {
      if (!table.pieces) {
        const judgements = judgeBlock(block, ctx);
        const own = placedReadings(table, ctx);
        return [
          table,
          own.map((item) => ({ ...item, start: 0, table, judgement: judgements.get(item.reading) })),
        ];
      }
      const all = table.pieces.flatMap((piece) => {
        const judgements = pieces.get(piece)?.judgements;
        return placedReadings(piece.table, ctx).map((item) => ({
          ...item,
          start: piece.start,
          table,
          judgement: judgements?.get(item.reading),
        }));
      });
      return [table, all];
    });
  },
);
