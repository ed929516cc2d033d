import { memo } from "../base/memo";
import type { LogBlock, LogTable, Reading } from "../log/model";
import type { CellValue } from "../quantity/cell-value";
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
  for (const table of block.tables)
    for (const reading of table.readings) all.set(reading, judge(reading, ctx, block.tables));
  return all;
});

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

/** The verdicts on a table's own readings, in its order; those that have none are left out. */
export const judgementsOf = (table: LogTable, all: ReadonlyMap<Reading, Judgement>): Judgement[] =>
  table.readings.flatMap((reading) => all.get(reading) ?? []);
