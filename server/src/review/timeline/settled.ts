// Readings found wrong before a repair whose place was read right after it: history, and no longer a finding.

import { withLater } from "../../base/later";
import { memo } from "../../base/memo";
import { once } from "../../base/once";
import { type KeyRun, runsOf } from "../../base/runs";
import { pinText } from "../../compute/nets/net-text";
import type { Judgement } from "../../judge";
import type { LogContext } from "../../judge/context";
import { type JudgedHere, judgedOfLog } from "../../judge/of-log";
import { findRail } from "../../judge/rail-name";
import { pinName, type TestPoint, testPointOf } from "../../judge/test-point";
import { blockAt, type LogDocument } from "../../log/document";
import type { Reading } from "../../log/model";
import { momentIn, timelineOf } from "../../log/timeline";
import { type Span, shift } from "../../text/span";

/** The later reading of the same place, with its span in the document. */
export interface SettledBy {
  readonly reading: Reading;
  readonly span: Span;
}

/** The later readings that answer earlier ones. */
export interface Answers {
  /** @param place where the earlier reading's cell begins in the document */
  at(place: number): SettledBy | undefined;
  /** Of the last reading of a pin that is answered; `pinText` of the pin. */
  ofPin(pin: string): SettledBy | undefined;
}

/**
 * A reading is answered where its place was read again after a repair, and within limits there as often as it was read
 * after the last one. What was only read again without a repair between contradicts and settles nothing. Undefined where
 * nothing was read after a repair.
 */
export const settledIn = memo((doc: LogDocument, ctx: LogContext): Answers | undefined => {
  const timeline = timelineOf(doc);
  if (timeline.latest === 0) return undefined;
  const judged = judgedOfLog(doc, ctx);
  const runs = runsOf(judged.map(({ judgements }) => judgements));
  const phaseOf = ({ table }: JudgedHere, { reading }: Placed): number =>
    momentIn(timeline, table ?? reading.table).repairs;

  const known = new Map<string, Latest | undefined>();
  const latestOf = ({ key, where }: Placed): Latest | undefined => {
    if (known.has(key)) return known.get(key);
    let latest: Latest | undefined;
    for (const { first, run } of runs) {
      for (const { at, one } of placesInRun(run, ctx).byWhere.get(where) ?? []) {
        if (one.key !== key) continue;
        const here = judged[first + at]!;
        const phase = phaseOf(here, one);
        if (latest && latest.phase > phase) continue;
        const right = one.verdict === "within-limits" && (latest?.phase === phase ? latest.right : true);
        latest = {
          phase,
          right,
          by: { reading: one.reading, span: shift(one.reading.cell.span, here.start) },
        };
      }
    }
    known.set(key, latest);
    return latest;
  };
  const answerTo = (one: Placed, here: JudgedHere): SettledBy | undefined => {
    const latest = latestOf(one);
    return latest?.right && latest.phase > phaseOf(here, one) ? latest.by : undefined;
  };

  const inOrder = once(() => [...judged].sort((a, b) => a.start - b.start));
  return {
    at(place) {
      let answer: SettledBy | undefined;
      // What stands between long tables counts from the start of the block, as the first piece does.
      for (const start of new Set([blockAt(doc, place)?.start, startBefore(inOrder(), place)])) {
        for (const here of startingAt(inOrder(), start)) {
          for (const one of placesIn(here.judgements, ctx).byStart.get(place - here.start) ?? [])
            answer = answerTo(one, here) ?? answer;
        }
      }
      return answer;
    },
    ofPin(pin) {
      let answer: SettledBy | undefined;
      for (const { first, run } of runs) {
        for (const { at, one } of placesInRun(run, ctx).byPin.get(pin) ?? [])
          answer = answerTo(one, judged[first + at]!) ?? answer;
      }
      return answer;
    },
  };
});

/** What a place read after the last repair before which it was read. */
interface Latest {
  readonly phase: number;
  readonly right: boolean;
  readonly by: SettledBy;
}

/** How many of them start before the place or at it. */
function countBefore(judged: readonly JudgedHere[], place: number): number {
  let low = 0;
  let high = judged.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (judged[middle]!.start <= place) low = middle + 1;
    else high = middle;
  }
  return low;
}

const startBefore = (judged: readonly JudgedHere[], place: number): number | undefined =>
  judged[countBefore(judged, place) - 1]?.start;

function* startingAt(judged: readonly JudgedHere[], start: number | undefined): Iterable<JudgedHere> {
  if (start === undefined) return;
  for (let at = countBefore(judged, start - 1); judged[at]?.start === start; at++) yield judged[at]!;
}

class Placed {
  #key: string | undefined;
  constructor(
    /** In capitals. */
    readonly where: string,
    readonly verdict: Judgement["verdict"],
    readonly reading: Reading,
  ) {}

  /** The same place, measured the same way with the same things on its net. */
  get key(): string {
    const { table, measure, apart } = this.reading;
    const { load, power } = table.section.qualifiers;
    this.#key ??= [table.procedure.id, measure, load, power, this.where, JSON.stringify(apart ?? "")]
      .join("\n")
      .toUpperCase();
    return this.#key;
  }
}

interface Places {
  readonly all: readonly Placed[];
  /** By where the reading's cell begins, counted as the readings' spans are. */
  readonly byStart: ReadonlyMap<number, readonly Placed[]>;
}

const placesIn = memo((judgements: ReadonlyMap<Reading, Judgement>, ctx: LogContext): Places => {
  const all = [...judgements.values()].flatMap((judgement): Placed[] => {
    const { verdict, reading } = judgement;
    const judged = verdict === "out-of-limits" || verdict === "suspect" || verdict === "within-limits";
    const where = judged ? whereOf(judgement, ctx) : undefined;
    return where === undefined ? [] : [new Placed(where, verdict, reading)];
  });
  return withLater({ all }, { byStart: once(() => grouped(all, ({ reading }) => reading.cell.span.start)) });
});

/** With the number of the readings that it stands among in the run. */
interface PlacedInRun {
  readonly at: number;
  readonly one: Placed;
}

const placesInRun = memo((run: KeyRun<ReadonlyMap<Reading, Judgement>>, ctx: LogContext) => {
  const all = run.keys.flatMap((judgements, at) =>
    placesIn(judgements, ctx).all.map((one): PlacedInRun => ({ at, one })),
  );
  const pinOf = ({ one }: PlacedInRun): string | undefined => {
    const place = testPointOf(one.reading.subject, ctx);
    const pin = place && pinName(place);
    return place && pin !== undefined ? pinText({ ref: place.ref, pin }) : undefined;
  };
  const byWhere: ReadonlyMap<string, readonly PlacedInRun[]> = grouped(all, ({ one }) => one.where);
  return withLater({ byWhere }, { byPin: once(() => grouped(all, pinOf)) });
});

function grouped<T, K>(all: readonly T[], keyOf: (one: T) => K | undefined): ReadonlyMap<K, readonly T[]> {
  const groups = new Map<K, T[]>();
  for (const one of all) {
    const key = keyOf(one);
    if (key === undefined) continue;
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return groups;
}

/** Where a reading was taken, in capitals; undefined where a row names no place. */
function whereOf({ reading, place }: Judgement, ctx: LogContext): string | undefined {
  const { table, subject } = reading;
  // Which of several times a repair answers nobody can tell.
  if (table.kind.place === "time") return undefined;
  const rail = subject.rail && ctx.board && findRail(ctx.board.value, subject.rail.text)?.name;
  // Two points are one place, whichever end was written first.
  const at =
    table.kind.place === "ends"
      ? endsOf(reading)
      : table.kind.place === "item" && subject.item
        ? subject.item.text.trim()
        : place
          ? nameOf(place)
          : rail;
  return at?.toUpperCase();
}

const nameOf = memo((place: TestPoint): string => `${place.ref}.${pinName(place) ?? ""}`);

const endsOf = ({ subject: { from, to } }: Reading): string | undefined =>
  from &&
  to &&
  [from, to]
    .map(({ text }) => text.replace(/\bpin\b|[\s.:-]+/gi, "").toUpperCase())
    .sort()
    .join(" = ");
