// Readings that the meter took on another range than the technician thought: figures that cannot be of their places, all of them off
// in one way. And those that were taken while something there was still charged.

import { type Judgement, judgeBlock } from "../../../judge";
import { windingAt } from "../../../judge/coil";
import { extentOf } from "../../../judge/compare";
import { contextAt, type LogContext } from "../../../judge/context";
import { railAt } from "../../../judge/rail-name";
import { testPointOf } from "../../../judge/test-point";
import { siValue } from "../../../judge/uncertainty";
import type { LogDocument } from "../../../log/document";
import type { LogTable, Reading } from "../../../log/model";
import { parseCell } from "../../../quantity/parse-cell";
import type { LocatedObservation } from "../observation";
import {
  inPlaceOfReadings,
  isCreeping,
  type Misread,
  placesRead,
  type TableWords,
  tablesTold,
} from "./whole-table";

/** Every figure is common practice, no source. */
const RANGE = {
  /** Above this no diode range shows a drop; volts. And readings of one part that do, and the share of all that are not nothing. */
  drop: 3.3,
  drops: 4,
  mostly: 0.6,
  /** No winding has less, and no two leads; ohms. */
  winding: 0.1,
  near: 0.3,
  /** Places at least. */
  least: 2,
  /** How near to a power of ten: of one, and of all. */
  ten: [0.01, 0.12],
  /** Ripple as a share of the direct voltage that a meter shows which is not on AC, or does not block the direct part. */
  ripple: [0.9, 2.4],
  spread: 0.05,
  /** Of its voltage, what rails read on AC; and by how much that differs from rail to rail. */
  times: [1.7, 2.6],
  timesApart: 0.12,
  rails: 3,
  /** Volts of a supply that a share can be taken of. */
  volts: 1.5,
} as const;

/** Beyond what a junction drops; volts. And negative readings at least. */
const CHARGED = { volts: -0.9, least: 3 } as const;

const asRange =
  (what: string, says: string, mistake = "the meter was on another range, or the unit is") =>
  (refs: readonly string[]): TableWords => ({
    of: `${what} of ${refs.join(", ")}`,
    mistake,
    says,
    again: `Look at the meter's range and unit, and read ${refs[0]} again`,
  });

const charged = (refs: readonly string[]): TableWords => ({
  of: `what was read at ${refs.join(", ")}`,
  mistake: "the board was still charged",
  says: `${refs.join(", ")} read below nothing, or creep, which no part does.`,
  again: `With power off, discharge the supplies through a resistor made for it, measure next to nothing there, and read ${refs[0]} again`,
});

type Found = Pick<Misread, "readings" | "words">;

/** One finding for each of such tables or parts, in place of what their readings say. */
export function withoutOffRange(
  all: readonly LocatedObservation[],
  { blocks }: LogDocument,
  whole: LogContext,
  phaseOf: (table: LogTable) => number,
): readonly LocatedObservation[] {
  const told = tablesTold(all);
  const found = blocks.flatMap(({ start, block }) => {
    const ctx = contextAt(block, whole);
    return block.tables.flatMap((table): Misread[] => {
      if (!ctx.board || table.pieces || told.has(table)) return [];
      return mistakesIn(table, judgeBlock(block, ctx), ctx).map(({ readings, words }) => ({
        readings,
        table,
        start,
        phase: phaseOf(table),
        refs: placesRead(readings),
        words,
      }));
    });
  });
  return inPlaceOfReadings(all, found);
}

function mistakesIn(
  table: LogTable,
  judgements: ReadonlyMap<Reading, Judgement>,
  ctx: LogContext,
): readonly Found[] {
  const { judgedBy, observedAs } = table.kind;
  const found: (Found | undefined)[] = [];
  if (observedAs === "pin-unpowered") {
    for (const ref of placesRead(table.readings))
      found.push(beyondDrops(table.readings.filter(({ subject }) => subject.ref?.text === ref)));
  }
  if (observedAs === "junctions") found.push(beyondDrops(table.readings));
  if (judgedBy === "diode" || judgedBy === "ground") found.push(belowNothing(table.readings, ctx));
  if (judgedBy === "coil") found.push(noWinding(table.readings, ctx));
  if (judgedBy === "clock") found.push(byTens(table.readings, judgements));
  if (judgedBy === "supply")
    found.push(rippleIsDirect(table.readings, ctx), directIsTimes(table.readings, ctx));
  return found.flatMap((one) => one ?? []);
}

const figureOf = ({ value }: Reading): number | undefined => {
  const extent = extentOf(value);
  const figure = extent && (extent.low + extent.high) / 2;
  return figure !== undefined && Number.isFinite(figure) ? figure : undefined;
};

/** Figures that are no drops, in whatever unit: those in millivolts are told as such. */
function beyondDrops(readings: readonly Reading[]): Found | undefined {
  const drops = readings.filter(({ spec }) => spec.quantity === "voltage");
  const figures = drops.flatMap((one) => figureOf(one) ?? []);
  const beyond = figures.filter((figure) => figure > RANGE.drop);
  const some = figures.filter((figure) => figure !== 0);
  if (beyond.length < RANGE.drops || beyond.length < RANGE.mostly * some.length) return undefined;
  return { readings: drops, words: asRange("the drops", "The figures are beyond what a diode range shows.") };
}

/** Ohms below nothing, drops further below than any junction, or that creep off the rails: what stands there still drives the meter. */
function belowNothing(readings: readonly Reading[], ctx: LogContext): Found | undefined {
  const below = readings.filter((one) => {
    if (one.spec.quantity === "voltage" && isCreeping(one) && !testPointOf(one.subject, ctx)?.tiedTo)
      return true;
    const most =
      one.spec.quantity === "resistance" ? 0 : one.spec.quantity === "voltage" ? CHARGED.volts : undefined;
    const figure = figureOf(one);
    return most !== undefined && figure !== undefined && figure < most && one.subject.pin !== undefined;
  });
  return below.length < CHARGED.least ? undefined : { readings: below, words: charged };
}

/** Several windings that have less than the leads do, or each a thousand times of what it should. */
function noWinding(all: readonly Reading[], ctx: LogContext): Found | undefined {
  const readings = all.filter(({ spec, value }) => spec.quantity === "resistance" && value.kind !== "empty");
  const isNone = (one: Reading): boolean => {
    const ohms = figureOf(one);
    return ohms !== undefined && ohms > 0 && ohms < RANGE.winding;
  };
  const isThousand = (one: Reading): boolean => {
    const wanted = windingAt(one, testPointOf(one.subject, ctx), ctx);
    const ohms = figureOf(one);
    return wanted !== undefined && ohms !== undefined && Math.abs(ohms / 1000 / wanted - 1) < RANGE.near;
  };
  if (readings.length < RANGE.least || !(readings.every(isNone) || readings.every(isThousand)))
    return undefined;
  return { readings, words: asRange("the resistance", "No winding has so many ohms, or so few.") };
}

/** Frequencies off by one power of ten, all that are known, while nothing divides a crystal so. */
function byTens(all: readonly Reading[], judgements: ReadonlyMap<Reading, Judgement>): Found | undefined {
  const known = all.flatMap((reading) => {
    const read = reading.spec.quantity === "frequency" ? figureOf(reading) : undefined;
    const said =
      reading.subject.expected && parseCell(reading.subject.expected.text, { kind: "quantity", unit: "Hz" });
    const { reference } = judgements.get(reading) ?? {};
    const wanted = (said && extentOf(said)) ?? (reference?.kind === "board" ? reference : undefined);
    const { low, high } = wanted ?? {};
    if (!read || !(read > 0) || low === undefined || high === undefined || !(low > 0)) return [];
    const tens = Math.log10(read / ((low + high) / 2));
    return [{ reading, by: Math.round(tens), off: Math.abs(tens - Math.round(tens)) }];
  });
  const by = known[0]?.by ?? 0;
  const isOne = known.every((one) => one.by === by && one.off <= RANGE.ten[1]);
  if (known.length < RANGE.least || by === 0 || !isOne || !known.some(({ off }) => off <= RANGE.ten[0]))
    return undefined;
  return {
    readings: all,
    words: asRange(
      "the frequencies",
      `All read ${by < 0 ? `1/${10 ** -by}` : `${10 ** by} times`} of what they should.`,
      "the counter was on another range",
    ),
  };
}

/** Rails of a table with their voltage and what was read, the ripple or the voltage. */
const railsOf = (readings: readonly Reading[], { board }: LogContext, isRipple: boolean) =>
  readings.flatMap((reading) => {
    const read = reading.spec.quantity === "voltage" ? figureOf(reading) : undefined;
    const rail = board && railAt(reading.subject, board.value);
    const nominal = rail && siValue(rail.nominal, "V");
    if (read === undefined || !rail || !nominal || (reading.measure === "ripple") !== isRipple) return [];
    return [{ reading, rail: rail.name, read: Math.abs(read), nominal: Math.abs(nominal) }];
  });

/** Rails of several voltages, and the ripple of each is one share of all that stands there. */
function rippleIsDirect(readings: readonly Reading[], ctx: LogContext): Found | undefined {
  const direct = new Map(railsOf(readings, ctx, false).map((one) => [one.rail, one.read]));
  const ripples = railsOf(readings, ctx, true).flatMap((one) => {
    const volts = direct.get(one.rail) ?? 0;
    return volts < RANGE.volts ? [] : [{ ...one, volts, share: one.read / volts }];
  });
  const shares = ripples.map(({ share }) => share);
  const [least, most] = [Math.min(...shares), Math.max(...shares)];
  const voltages = new Set(ripples.map(({ volts }) => Math.round(volts)));
  if (ripples.length < RANGE.least || voltages.size < RANGE.least) return undefined;
  if (least < RANGE.ripple[0] || most > RANGE.ripple[1] || most > least * (1 + RANGE.spread))
    return undefined;
  return {
    readings: ripples.map(({ reading }) => reading),
    words: asRange(
      "the ripple",
      "The ripple is the same share of each rail's own voltage.",
      "the meter was on another range, on DC for AC",
    ),
  };
}

/** Rails of several voltages, regulated or not, that all read the same number of times what they should: no supply does that. */
function directIsTimes(readings: readonly Reading[], ctx: LogContext): Found | undefined {
  const rails = railsOf(readings, ctx, false);
  const times = rails.map(({ read, nominal }) => read / nominal);
  const [least, most] = [Math.min(...times), Math.max(...times)];
  const voltages = new Set(rails.map(({ nominal }) => nominal));
  if (voltages.size < RANGE.rails || least < RANGE.times[0] || most > RANGE.times[1]) return undefined;
  if (most > least * (1 + RANGE.timesApart)) return undefined;
  return {
    readings: rails.map(({ reading }) => reading),
    words: asRange(
      "the voltages",
      `All of them read ${least.toFixed(1)} times what they should, which no supply does.`,
      "the meter was on another range, on AC for DC",
    ),
  };
}
