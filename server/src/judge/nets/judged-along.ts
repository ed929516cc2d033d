// Readings that are compared along nets, with their verdicts: those of a long table piece by piece.

import { memo } from "../../base/memo";
import type { LocatedBlock, LogBlock, LogTable, Reading } from "../../log/model";
import type { LogContext } from "../context";
import { type JudgedPiece, judgeBlock, judgePieces } from "../index";
import type { Judgement } from "../types";
import { byNet, comparedAs, type LocatedReading, type NetGroup, placedReadings } from "./block-nets";

/** A reading that can be compared with others of its net, and its verdict. */
export interface JudgedOnNet extends LocatedReading {
  readonly judgement: Judgement | undefined;
}

/** The same with the offset in the block that its spans count from. */
export type PlacedOnNet = JudgedOnNet & { readonly start: number };

/** A table whose pins must agree along a net, in parts: the rows of a long one that stand together. */
export interface AlongNets {
  readonly table: LogTable;
  readonly parts: readonly {
    readonly start: number;
    /** The very same list for as long as nothing of it can have changed. */
    readonly readings: readonly JudgedOnNet[];
  }[];
}

/** The tables of a block whose pins must agree along a net; `ctx` is the block's own. */
export const judgedAlongNets = memo((block: LogBlock, ctx: LogContext): readonly AlongNets[] => {
  const tables = block.tables.filter(comparedAs);
  if (tables.length === 0) return [];
  const pieces = new Map<LocatedBlock, JudgedPiece>(
    judgePieces(block, ctx).map((judged) => [judged.piece, judged]),
  );
  return tables.map((table) => {
    if (!table.pieces)
      return { table, parts: [{ start: 0, readings: judgedIn(table, ctx, judgeBlock(block, ctx)) }] };
    const parts = table.pieces.flatMap((piece) => {
      const judged = pieces.get(piece);
      return judged ? [{ start: piece.start, readings: judgedIn(piece.table, ctx, judged.judgements) }] : [];
    });
    return { table, parts };
  });
});

const judgedIn = memo(
  (table: LogTable, ctx: LogContext, judgements: ReadonlyMap<Reading, Judgement>): readonly JudgedOnNet[] =>
    placedReadings(table, ctx).map((item) => ({ ...item, judgement: judgements.get(item.reading) })),
);

/**
 * Those of a table's readings that a check compares, at their places.
 * @param wanted picks them from a part's, and gives the very same list for the same part
 */
export const placedAlong = <T extends JudgedOnNet>(
  { parts }: AlongNets,
  wanted: (readings: readonly JudgedOnNet[]) => readonly T[],
): (T & PlacedOnNet)[] =>
  parts.flatMap(({ start, readings }) => placedAt(wanted(readings), start) as readonly (T & PlacedOnNet)[]);

/** What stands in front of a change stays where it is. */
const placedAt = memo((readings: readonly JudgedOnNet[], start: number): readonly PlacedOnNet[] =>
  readings.map((item) => ({ ...item, start })),
);

/** A table's readings by the nets that they are on with others; see `byNet`. */
export const netsAlong = memo((along: AlongNets): readonly NetGroup<PlacedOnNet>[] =>
  byNet(placedAlong(along, onNets)),
);

const onNets = memo((readings: readonly JudgedOnNet[]): readonly JudgedOnNet[] =>
  readings.filter(
    ({ place, isolation }) => place.net && !place.tiedTo && !isolation?.alone && !isolation?.cut,
  ),
);
