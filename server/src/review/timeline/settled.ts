// Readings found wrong before a repair whose place was read right after it: history, and no longer a finding.

import { memo } from "../../base/memo";
import type { Judgement } from "../../judge";
import type { LogContext } from "../../judge/context";
import { judgedOfLog } from "../../judge/of-log";
import { findRail } from "../../judge/rail-name";
import { pinName } from "../../judge/test-point";
import type { LogDocument } from "../../log/document";
import type { LogTable, Reading } from "../../log/model";
import { momentIn, timelineOf } from "../../log/timeline";
import { type Span, shift } from "../../text/span";

/** The later reading of the same place, with its span in the document. */
export interface SettledBy {
  readonly reading: Reading;
  readonly span: Span;
}

/** A reading that was answered by a later one. */
export interface Settled {
  readonly reading: Reading;
  /** Offset in the document that its spans count from. */
  readonly start: number;
  readonly by: SettledBy;
}

/**
 * The readings whose place was read again after a repair, and within limits there as often as it was read after the
 * last one. What was only read again without a repair between contradicts and settles nothing.
 */
export function settledReadings(doc: LogDocument, ctx: LogContext): readonly Settled[] {
  const timeline = timelineOf(doc);
  if (![...timeline.moments.values()].some(({ repairs }) => repairs > 0)) return [];
  let at: { readonly table: LogTable; readonly repairs: number } | undefined;
  // Of one table many times in a row.
  const repairsBefore = (table: LogTable): number => {
    if (at?.table !== table) at = { table, repairs: momentIn(timeline, table).repairs };
    return at.repairs;
  };
  const last = new Map<string, { phase: number; right: boolean; by: SettledBy }>();
  const placed = judgedOfLog(doc, ctx).map(({ judgements, ...at }) => ({
    ...at,
    places: placesIn(judgements, ctx),
  }));
  for (const { start, table, places } of placed) {
    for (const { key, verdict, reading } of places) {
      const phase = repairsBefore(table ?? reading.table);
      const known = last.get(key);
      if (known && known.phase > phase) continue;
      const right = verdict === "within-limits" && (known?.phase === phase ? known.right : true);
      last.set(key, { phase, right, by: { reading, span: shift(reading.cell.span, start) } });
    }
  }
  const settled: Settled[] = [];
  for (const { start, table, places } of placed) {
    for (const { key, reading } of places) {
      const later = last.get(key);
      if (!later?.right || later.phase <= repairsBefore(table ?? reading.table)) continue;
      settled.push({ reading, start, by: later.by });
    }
  }
  return settled;
}

interface Placed {
  readonly key: string;
  readonly verdict: Judgement["verdict"];
  readonly reading: Reading;
}

const placesIn = memo((judgements: ReadonlyMap<Reading, Judgement>, ctx: LogContext): readonly Placed[] =>
  [...judgements.values()].flatMap((judgement) => {
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
