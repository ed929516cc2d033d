import { memo } from "../base/memo";
import { placedInTurn } from "../base/placed";
import type { LocatedBlock, LogBlock, LogTable, Reading } from "../log/model";
import { readingAt } from "../log/table-pieces";
import type { CellValue } from "../quantity/cell-value";
import { type AskedOfTable, answersAlike, partsRead, withTheseRows, withWhatItAsks } from "./all-rows";
import type { JudgementCode } from "./codes";
import { contextAt, type LogContext } from "./context";
import { judgeDrifting } from "./drifting";
import { judgeByShop, judgeExpected } from "./expected";
import { judgeImpossible } from "./impossible";
import { JUDGES } from "./judges";
import { judgePoint, pointedReadings } from "./point";
import { withSoundLimits } from "./sound-limits";
import { testPointOf } from "./test-point";
import type { Judgement } from "./types";

export type { Judgement, Reference } from "./types";

/** Every reading of a block with its judgement; computed once for a block and a context. */
export const judgeBlock = (block: LogBlock, whole: LogContext): ReadonlyMap<Reading, Judgement> =>
  judgeAll(block, contextAt(block, whole));

const judgeAll = memo((block: LogBlock, ctx: LogContext): ReadonlyMap<Reading, Judgement> => {
  const all = new Map<Reading, Judgement>();
  const pieces = new Map<LocatedBlock, ReadonlyMap<Reading, Judgement>>();
  if (isInPieces(block))
    for (const { piece, judgements } of judgePieces(block, ctx)) pieces.set(piece, judgements);
  for (const table of block.tables) {
    if (table.pieces) {
      const judged = table.pieces.flatMap((piece) => [...(pieces.get(piece)?.values() ?? [])]);
      table.readings.forEach((reading, at) => {
        const judgement = judged[at];
        if (judgement) all.set(reading, { ...judgement, reading });
      });
    } else for (const reading of table.readings) all.set(reading, judge(reading, ctx, block.tables));
  }
  return all;
});

const isInPieces = ({ tables }: LogBlock): boolean => tables.some(({ pieces }) => pieces !== undefined);

/** A piece of a block with the verdicts on its own readings. */
export interface JudgedPiece {
  readonly piece: LocatedBlock;
  /** All of the table that it is some rows of; absent where it is whole tables. */
  readonly table?: LogTable;
  /** In the order of its readings; the very same object for as long as none of them can have changed. */
  readonly judgements: ReadonlyMap<Reading, Judgement>;
}

/**
 * The verdicts on a block's readings piece by piece, in the order of its pieces. One piece may stand in a log twice.
 * @param ctx the block's own; see `contextAt`
 */
export const judgePieces = memo((block: LogBlock, ctx: LogContext): readonly JudgedPiece[] => {
  if (!isInPieces(block)) return [{ piece: { start: 0, block }, judgements: judgeAll(block, ctx) }];
  const tables = new Map<LocatedBlock, { readonly table: LogTable; readonly first: number }>();
  for (const table of block.tables) {
    let first = 0;
    for (const piece of table.pieces ?? []) {
      tables.set(piece, { table, first });
      first += piece.table.readings.length;
    }
  }
  return block.pieces.map((piece): JudgedPiece => {
    const own = tables.get(piece);
    const alone = own && judgeAlone(piece.block, ctx);
    const of = own ? { piece, table: own.table } : { piece };
    if (alone?.open.length === 0) return { ...of, judgements: alone.judgements };
    const kept = judgedWith(piece.block, ctx);
    const others = own && alone && !kept.asked ? partsRead(own.table, alone.open) : undefined;
    if (
      own && kept.asked ? answersAlike(own.table, kept.asked) : others !== undefined && kept.others === others
    )
      return { ...of, judgements: kept.judgements };
    const { made: all, asked } = withWhatItAsks(() => {
      const all = new Map<Reading, Judgement>();
      let at = own?.first ?? 0;
      for (const table of piece.block.tables) {
        for (const reading of table.readings) {
          const known = alone?.judgements.get(reading);
          const whole = known || !own ? reading : (readingAt(own.table, at) ?? reading);
          at++;
          all.set(reading, known ?? { ...judge(whole, ctx, block.tables), reading });
        }
      }
      return all;
    });
    kept.asked = own && asked;
    kept.others = own && alone && !kept.asked ? (others ?? partsRead(own.table, alone.open)) : undefined;
    kept.judgements = all;
    return { ...of, judgements: all };
  });
});

/** What a piece was last judged as, and what that hangs on in all of its table. */
interface JudgedWith {
  /** All that was asked of it; undefined where somebody looked at its rows himself. */
  asked: readonly AskedOfTable[] | undefined;
  /** What was read of the piece's parts in all of it, where that has to tell. */
  others: string | undefined;
  judgements: ReadonlyMap<Reading, Judgement>;
}

const judgedWith = memo(
  (_piece: LogBlock, _ctx: LogContext): JudgedWith => ({
    asked: undefined,
    others: undefined,
    judgements: new Map(),
  }),
);

/** The readings of a piece as far as they can be judged without the other rows of their table, and those that are left open. */
const judgeAlone = memo((piece: LogBlock, ctx: LogContext) => {
  const judgements = new Map<Reading, Judgement>();
  const open: Reading[] = [];
  for (const table of piece.tables) {
    for (const reading of table.readings) {
      const judged = withTheseRows(() => judge(reading, ctx, piece.tables));
      if (judged) judgements.set(reading, judged);
      else open.push(reading);
    }
  }
  return { judgements, open };
});

const codesIn = memo(
  (judgements: ReadonlyMap<Reading, Judgement>): ReadonlySet<JudgementCode> =>
    new Set([...judgements.values()].flatMap(({ code }) => code ?? [])),
);

/** True where a reading of the block has a verdict with this code; `ctx` is the block's own. */
export const isJudgedAs = (block: LogBlock, ctx: LogContext, code: JudgementCode): boolean =>
  judgePieces(block, ctx).some(({ judgements }) => codesIn(judgements).has(code));

/**
 * One reading's verdict. What cannot be a reading comes first, then what the place says, then the reference;
 * where there is none the verdict is `unjudged` with the reason.
 */
export function judge(
  reading: Reading,
  ctx: LogContext,
  near: readonly LogTable[] = [reading.table],
): Judgement {
  const { value } = reading;
  if (value.kind === "empty") return { reading, verdict: "not-measured", says: { fact: "Not measured." } };
  if (value.kind === "unreadable") {
    const hint = value.suggestion === undefined ? undefined : `Did you mean ${value.suggestion}?`;
    return {
      reading,
      verdict: "unjudged",
      code: "unreadable-value",
      says: { fact: `${value.reason}.`, step: hint },
    };
  }
  const place = testPointOf(reading.subject, ctx);
  const judgeAs = (value: CellValue): Judgement => {
    const as = value === reading.value ? reading : { ...reading, value };
    return JUDGES[reading.table.kind.judgedBy](as, place, ctx, near) ?? judgeExpected(as, place, ctx);
  };
  const mayBe = pointedReadings(reading, ctx, (other) => judge(other, ctx, near));
  const judged =
    judgePoint(reading, place, mayBe) ??
    judgeImpossible(reading, place, ctx) ??
    judgeDrifting(reading, place, judgeAs) ??
    judgeAs(reading.value);
  const byShop =
    judged.verdict === "unjudged" && mayBe.length === 0 ? judgeByShop(reading, place, ctx) : undefined;
  return withSoundLimits(byShop ?? judged);
}

/**
 * The verdict on the reading of a table with that number, one after another; of a long table the reading that it is on is that
 * of a piece. `ctx` is the block's own.
 */
export function verdictsOf(
  table: LogTable,
  block: LogBlock,
  ctx: LogContext,
): (number: number) => Judgement | undefined {
  const parts = judgePieces(block, ctx)
    .filter((judged) => judged.table === table)
    .map(({ judgements }) => listed(judgements));
  if (parts.length === 0) return (number) => judgeBlock(block, ctx).get(table.readings[number] as Reading);
  const all = placedInTurn(
    parts.map(({ length }) => length),
    (part, at) => parts[part]?.[at] as Judgement,
  );
  return all.at;
}

const listed = memo((judgements: ReadonlyMap<Reading, Judgement>): readonly Judgement[] => [
  ...judgements.values(),
]);

/** The verdicts on a table's own readings, in its order; those that have none are left out. */
export const judgementsOf = (table: LogTable, all: ReadonlyMap<Reading, Judgement>): Judgement[] =>
  table.readings.flatMap((reading) => all.get(reading) ?? []);
