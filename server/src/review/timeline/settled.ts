// Readings found wrong before a repair whose place was read right after it: history, and no longer a finding.

import { memo } from "../../base/memo";
import { type Judgement, judgeBlock } from "../../judge";
import type { LogContext } from "../../judge/context";
import { findRail } from "../../judge/rail-name";
import { pinName } from "../../judge/test-point";
import type { LogDocument } from "../../log/document";
import type { LogBlock, LogTable, Reading } from "../../log/model";
import { momentIn, timelineOf } from "../../log/timeline";
import { type Span, shift } from "../../text/span";

/** The later reading of the same place, with its span in the document. */
export interface SettledBy {
  readonly reading: Reading;
  readonly span: Span;
}

interface Placed {
  readonly key: string;
  readonly verdict: Judgement["verdict"];
  readonly reading: Reading;
}

/**
 * The readings whose place was read again after a repair, and within limits there as often as it was read after the
 * last one. What was only read again without a repair between contradicts and settles nothing.
 */
export function settledReadings(doc: LogDocument, ctx: LogContext): ReadonlyMap<Reading, SettledBy> {
  const settled = new Map<Reading, SettledBy>();
  const timeline = timelineOf(doc);
  if (![...timeline.moments.values()].some(({ repairs }) => repairs > 0)) return settled;
  const repairsBefore = (table: LogTable): number => momentIn(timeline, table).repairs;
  const last = new Map<string, { phase: number; right: boolean; by: SettledBy }>();
  for (const { start, block } of doc.blocks) {
    for (const { key, verdict, reading } of placesIn(block, ctx)) {
      const phase = repairsBefore(reading.table);
      const known = last.get(key);
      if (known && known.phase > phase) continue;
      const right = verdict === "within-limits" && (known?.phase === phase ? known.right : true);
      last.set(key, { phase, right, by: { reading, span: shift(reading.cell.span, start) } });
    }
  }
  for (const { block } of doc.blocks) {
    for (const { key, reading } of placesIn(block, ctx)) {
      const later = last.get(key);
      if (!later?.right || later.phase <= repairsBefore(reading.table)) continue;
      settled.set(reading, later.by);
    }
  }
  return settled;
}

const placesIn = memo((block: LogBlock, ctx: LogContext): readonly Placed[] =>
  [...judgeBlock(block, ctx).values()].flatMap((judgement) => {
    const { verdict, reading } = judgement;
    const judged = verdict === "out-of-limits" || verdict === "suspect" || verdict === "within-limits";
    const key = judged ? keyOf(judgement, ctx) : undefined;
    return key === undefined ? [] : [{ key, verdict, reading }];
  }),
);

/** The same place, measured the same way with the same things on its net; undefined where a row names none. */
function keyOf({ reading, place }: Judgement, ctx: LogContext): string | undefined {
  const { table, measure, subject, apart } = reading;
  // Which of several times a repair answers nobody can tell.
  if (table.kind.place === "time") return undefined;
  const { load, power } = table.section.qualifiers;
  const rail = subject.rail && ctx.board && findRail(ctx.board.value, subject.rail.text)?.name;
  // Two points are one place, whichever end was written first.
  const at =
    table.kind.place === "ends"
      ? endsOf(reading)
      : table.kind.place === "item" && subject.item
        ? subject.item.text.trim()
        : place
          ? `${place.ref}.${pinName(place) ?? ""}`
          : rail;
  return at === undefined
    ? undefined
    : [table.procedure.id, measure, load, power, at, JSON.stringify(apart ?? "")].join("\n").toUpperCase();
}

const endsOf = ({ subject: { from, to } }: Reading): string | undefined =>
  from &&
  to &&
  [from, to]
    .map(({ text }) => text.replace(/\bpin\b|[\s.:-]+/gi, "").toUpperCase())
    .sort()
    .join(" = ");
