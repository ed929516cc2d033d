// What each kind of table tells the diagnosis. What is impossible or cannot be read says nothing about the board and is
// left out; spans are of the block.

import type { Judgement } from "../../judge";
import { extentOf } from "../../judge/compare";
import type { LogContext } from "../../judge/context";
import { isolationOf } from "../../judge/nets/isolation";
import { railAt } from "../../judge/rail-name";
import type { Disconnection } from "../../log/disconnections";
import type { ObservedAs } from "../../log/kinds/kind";
import type { LogTable, Reading } from "../../log/model";
import { imageObservations } from "./chips/images";
import { memoryObservations } from "./chips/memory";
import { firedTogether } from "./lines/alike";
import { endsObserved } from "./lines/continuity";
import { levelWithout } from "./lines/held";
import { atLivePin, resetDelayObservations } from "./lines/levels";
import { atPowerPin, pinObservations } from "./lines/pins";
import { tooManyOhms } from "./lines/too-many-ohms";
import { tooShort, widthObserved } from "./lines/width";
import type { Observation } from "./observation";
import { coilsObserved, kickObserved, lineOf } from "./parts/coils";
import { bridgesObserved, chipTested, ofPart, seen, swapped } from "./parts/parts";
import {
  isBridged,
  isOpenBeside,
  isPlainShort,
  isShortedDiode,
  SHORT_OHMS,
  withoutExcuse,
} from "./parts/shorts-and-opens";
import { codeObserved, driverObserved, hotObservations, stressObserved } from "./parts/trials";
import { displayObservations } from "./shown/display";
import { onLimitedSupply } from "./supplies/first-power";
import { railFinding } from "./supplies/rails";
import { isPowerOff } from "./words/power-off";

/** What is known around a table. */
export interface TableSurroundings {
  readonly ctx: LogContext;
  readonly judgements: ReadonlyMap<Reading, Judgement>;
  /** What the work before it left off. */
  readonly before: readonly Disconnection[];
}

type Observer = (table: LogTable, around: TableSurroundings) => Iterable<Observation>;
type OfReading = (
  reading: Reading,
  judgement: Judgement,
  around: TableSurroundings,
) => Observation | undefined;

export const OBSERVERS: Readonly<Record<ObservedAs, Observer>> = {
  code: judged((reading, judgement, { ctx }) => codeObserved(reading, judgement, ctx)),
  coil: (table, { ctx, judgements }) => coilsObserved(table, judgements, ctx),
  driver: fired,
  display: (table, { ctx }) => displayObservations(table, ctx),
  ends: each((reading, _, { ctx, before }) => endsObserved(reading, ctx, before)),
  "limited-supply": firstPower,
  images: (table, { ctx }) => imageObservations(table, ctx),
  junctions: (table, around) => [
    ...judged((reading, judgement, { ctx }) => ofPart(reading, judgement, ctx, "junctions"))(table, around),
    ...bridgesObserved(table, around.ctx),
  ],
  look: each((reading, _, { ctx }) => seen(reading, ctx)),
  memory: (table, { ctx }) => memoryObservations(table, ctx),
  nothing: () => [],
  part: each((reading, judgement, { ctx, before }) => {
    if (reading.value.kind === "empty") return undefined;
    // Ohms at a pin of a chip or a transistor are those to ground.
    if (isOhmsOfPin(reading, judgement) && isPlainShort(reading, judgement, ctx))
      return shortedPin(reading, judgement, ctx, before);
    const loose = tooManyOhms(reading, judgement, ctx);
    if (loose) return loose;
    // Nothing across a resistor opens it, whatever is marked on it.
    const open = reading.spec.quantity === "resistance" && isOpenBeside(reading, judgement);
    if (judgement.verdict === "unjudged" && open)
      return ofPart(reading, { ...judgement, verdict: "out-of-limits" }, ctx);
    const ohms = reading.measure === "resistance" ? extentOf(reading.value) : undefined;
    const isCapacitor = /^C\d/i.test(judgement.place?.part?.ref ?? "");
    if (isCapacitor && ohms && ohms.high < SHORT_OHMS)
      return ofPart(reading, { ...judgement, verdict: "out-of-limits", side: "low" }, ctx);
    if (ohms && isBridged(reading, judgement, ohms.high))
      return ofPart(reading, { ...judgement, verdict: "out-of-limits" }, ctx, "part", "low");
    return isSaid(judgement) ? ofPart(reading, judgement, ctx) : undefined;
  }),
  "pin-powered": each((reading, judgement, { ctx, before }) => atPowered(reading, judgement, ctx, before)),
  "pin-unpowered": each((reading, judgement, { ctx, before }) =>
    isShortedDiode(reading, judgement)
      ? ofPart(reading, { ...judgement, verdict: "out-of-limits" }, ctx, "part", "low")
      : isSaid(judgement)
        ? pinObservations(reading, withoutExcuse(reading, judgement, ctx), true, ctx, before)
        : isPlainShort(reading, judgement, ctx)
          ? shortedPin(reading, judgement, ctx, before)
          : undefined,
  ),
  rail: each((reading, judgement, { ctx, before }) =>
    judgement.verdict === "impossible"
      ? undefined
      : isOfPin(reading, judgement)
        ? judgement.verdict === "unjudged"
          ? undefined
          : besidesRails(reading, judgement, ctx)
        : railFinding(reading, judgement, ctx, before),
  ),
  "rail-to-ground": each(
    (reading, judgement, { ctx, before }) =>
      tooManyOhms(reading, judgement, ctx) ??
      (isRailItself(reading, ctx) && isSaid(judgement)
        ? railFinding(reading, judgement, ctx, before)
        : isPlainShort(reading, judgement, ctx)
          ? shortedPin(reading, judgement, ctx, before)
          : !isSaid(judgement)
            ? judgement.verdict === "unjudged" && reading.subject.rail
              ? railFinding(reading, judgement, ctx, before)
              : undefined
            : isOfPin(reading, judgement)
              ? pinObservations(reading, judgement, true, ctx, before)
              : railFinding(reading, judgement, ctx, before)),
  ),
  stress: judged((reading, judgement, { ctx }) => stressObserved(reading, judgement, ctx)),
  swapped: judged((reading, judgement, { ctx }) => swapped(reading, judgement, ctx)),
  tested: judged((reading, judgement, { ctx }) => chipTested(reading, judgement, ctx)),
};

/** Next to no ohms, whatever the pin should read. */
const shortedPin = (
  reading: Reading,
  judgement: Judgement,
  ctx: LogContext,
  before: readonly Disconnection[],
): Observation | undefined =>
  pinObservations(reading, { ...judgement, verdict: "out-of-limits", side: "low" }, true, ctx, before);

/** Read at its test point. */
const isRailItself = ({ subject }: Reading, { board }: LogContext): boolean =>
  /^TP\d/i.test(subject.ref?.text ?? "") && board !== undefined && railAt(subject, board.value) !== undefined;

/** Outputs one by one; two that come together are one fact of both lines, and none of their drivers. */
function* fired(table: LogTable, around: TableSurroundings): Iterable<Observation> {
  const { ctx } = around;
  const board = ctx.board?.value;
  const alike = firedTogether(table, board);
  for (const { subject, value, cell } of table.readings) {
    const line = board && lineOf(subject.ref?.text, board, ctx);
    const kick = kickObserved(`${value.typed}; ${subject.note?.text ?? ""}`, line, board, ctx);
    if (kick) yield { ...kick, table, span: cell.span };
  }
  if (alike.length > 0) yield* alike;
  else yield* judged((reading, judgement, { ctx }) => driverObserved(reading, judgement, ctx))(table, around);
}

/** The rails as under power, but that a limited supply came up disproves no more than a short; and what got hot. */
function* firstPower(table: LogTable, { ctx, judgements, before }: TableSurroundings): Iterable<Observation> {
  const told = new Set<string>();
  for (const reading of table.readings) {
    const judgement = judgements.get(reading);
    if (!judgement || judgement.verdict === "unjudged" || judgement.verdict === "impossible") continue;
    if (reading.measure === "limit") continue;
    const found = railFinding(reading, judgement, ctx, before);
    const one = found && onLimitedSupply(found, reading, ctx);
    // A rail that draws too much and stays low says one thing twice.
    if (!one || told.has(one.key)) continue;
    told.add(one.key);
    yield one;
  }
  yield* hotObservations(table, ctx);
}

const isOhmsOfPin = ({ spec, subject }: Reading, { place }: Judgement): boolean =>
  spec.quantity === "resistance" &&
  subject.pin !== undefined &&
  place?.device !== undefined &&
  place.device.pins.size > 2;

function each(observe: OfReading): Observer {
  return function* (table, around) {
    for (const reading of table.readings) {
      const judgement = around.judgements.get(reading);
      const one = judgement && observe(reading, judgement, around);
      if (one) yield one;
    }
  };
}

/** Only of readings that something was said of. */
function judged(observe: OfReading): Observer {
  return each((reading, judgement, around) =>
    isSaid(judgement) ? observe(reading, judgement, around) : undefined,
  );
}

const isSaid = ({ verdict }: Judgement): boolean =>
  verdict === "out-of-limits" || verdict === "suspect" || verdict === "within-limits";

/** With something off its net it is another node; a supply pin stands for its joints. */
function atPowered(
  reading: Reading,
  judgement: Judgement,
  ctx: LogContext,
  before: readonly Disconnection[],
): Observation | undefined {
  const { place, verdict } = judgement;
  const delay = resetDelayObservations(reading, judgement, ctx) ?? widthObserved(reading, ctx);
  if (delay) return delay;
  const { table, subject, cell, spec } = reading;
  const read = spec.quantity === "voltage" ? extentOf(reading.value)?.high : undefined;
  const words = `${subject.note?.text ?? ""}; ${table.section.heading?.text ?? ""}`;
  const kick = kickObserved(words, place?.net, ctx.board?.value, ctx, read);
  if (kick) return { ...kick, table, span: cell.span };
  const isolation = place && isolationOf(reading, place, ctx.board?.value, before);
  // "Q1 is off" under power: it does not conduct; a pin of a part that is out cannot be read.
  const isOwnOff = isolation && !isolation.alone && isolation.off.every((ref) => ref === place.part?.ref);
  if (isolation && !isOwnOff) {
    const without = levelWithout(reading, place, isolation);
    const one = isSaid(judgement) ? pinObservations(reading, judgement, false, ctx, before) : undefined;
    return one && without ? { ...one, ...without } : (one ?? without);
  }
  // With the power off a supply pin tells what keeps it, and nothing of its joint.
  if (place?.tiedTo) return isPowerOff(reading) ? undefined : atPowerPin(reading, judgement);
  const live = verdict === "impossible" ? undefined : atLivePin(reading, judgement, ctx);
  const short = tooShort(reading, ctx);
  return live && short ? { ...live, key: `width ${short.of}`.toUpperCase(), finding: short } : live;
}

/** A pin read among the rails: that of a regulator, or one whose resistance to ground was measured. */
const isOfPin = ({ subject }: Reading, { place }: Judgement): boolean =>
  place?.pin !== undefined && !subject.rail;

function besidesRails(reading: Reading, judgement: Judgement, ctx: LogContext): Observation | undefined {
  if (judgement.place?.pin?.direction === "output") return ofPart(reading, judgement, ctx);
  return atPowerPin(reading, judgement) ?? railFinding(reading, judgement, ctx);
}
