// A table of frequencies of which every one is nothing, the processor's among them, while the processor or the board is seen to
// run: the counter or its lead, and no clock. And one that shows the same everywhere, on ground as well: what the lead hears.

import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { railAt } from "../../../judge/rail-name";
import { partTestPoint, testPointOf } from "../../../judge/test-point";
import { siValue } from "../../../judge/uncertainty";
import type { LogDocument } from "../../../log/document";
import type { LogTable, Reading } from "../../../log/model";
import type { LocatedObservation, Observation } from "../observation";
import { isSaidToRun } from "../words/running";
import { inPlaceOf, placesRead, wholeTable } from "./whole-table";

/** One place may be dead. */
const LEAST = 2;

/** The observations without those of such tables, and one finding for each in their place. */
export function withoutDeadCounter(
  all: readonly LocatedObservation[],
  { blocks }: LogDocument,
  { board, library }: LogContext,
): readonly LocatedObservation[] {
  const dead = all.filter(({ finding }) => finding?.kind === "sign" && finding.sign === "clock-dead");
  const isProcessor = (ref: string | undefined): boolean =>
    ref !== undefined && partTestPoint(ref, board?.value, library).device?.kind === "processor";
  const runs = (table: LogTable): boolean =>
    isSaidToRun(blocks, board?.value) ||
    all.some((one) => one.table !== table && one.level?.state === "pulsing" && isProcessor(one.level.ref));
  const tables = new Map<LogTable, LocatedObservation>();
  for (const one of dead) {
    const { table } = one;
    if (!table || tables.has(table) || !countsNothing(table)) continue;
    const ofProcessor = table.readings.some(({ subject }) => isProcessor(subject.ref?.text));
    if (ofProcessor && runs(table)) tables.set(table, one);
  }
  return inPlaceOf(all, tables, (refs) => ({
    of: `the frequencies of ${refs.join(", ")}`,
    mistake: "the lead was off ground, or the counter on another range",
    says: `None of ${refs.join(", ")} counts, and the board runs.`,
    again: `Put the lead on the board's ground, try the counter on a clock that is known, and read ${refs[0]} again`,
  }));
}

const countsNothing = ({ readings }: LogTable): boolean => {
  const counts = readings.filter(
    ({ spec, value }) => spec.quantity === "frequency" && value.kind !== "empty",
  );
  // A scope that shows no swing either has its ground, or it would show hum.
  const isFlat = readings.some(
    ({ spec, value }) => spec.quantity === "voltage" && (extentOf(value)?.high ?? 1) < HUM.volts,
  );
  return counts.length >= LEAST && !isFlat && counts.every(({ value }) => extentOf(value)?.high === 0);
};

/** Places, and volts from which on what is the same everywhere is no noise; how far apart it lies. Common practice, no source. */
const HUM = { places: 4, rails: 3, volts: 0.2, apart: 1.3, hertz: 1.05 } as const;

/** The same swing or ripple, and the same frequency, at every place, ground or rails that allow for no such ripple among them. */
export function hums(table: LogTable, ctx: LogContext): Observation | undefined {
  const { board } = ctx;
  const isOfRails = table.kind.observedAs === "rail";
  if (!isOfRails && table.kind.judgedBy !== "clock") return undefined;
  const isSwing = ({ spec, measure, value }: Reading): boolean =>
    spec.quantity === "voltage" && value.kind !== "empty" && (!isOfRails || measure === "ripple");
  const swings = table.readings.filter(isSwing);
  const hertz = table.readings.filter(
    ({ spec, value }) => spec.quantity === "frequency" && value.kind !== "empty",
  );
  const isAlike = (readings: readonly Reading[], apart: number, least: number): boolean => {
    const all = readings.map(({ value }) => extentOf(value));
    const lows = all.map((extent) => extent?.low ?? 0);
    return (
      Math.min(...lows) >= least &&
      Math.max(...all.map((extent) => extent?.high ?? 0)) <= apart * Math.min(...lows)
    );
  };
  const readings = swings.length > 0 ? swings : hertz;
  if (!isAlike(swings, HUM.apart, HUM.volts) || !isAlike(hertz, HUM.hertz, 1)) return undefined;
  const quiet = readings.filter(({ subject }) => {
    const rail = board && railAt(subject, board.value);
    return (
      testPointOf(subject, ctx)?.tiedTo === "ground" ||
      (rail && (siValue(rail.ripple ?? "", "V") ?? 1) < HUM.volts)
    );
  });
  const isGround = quiet.some(({ subject }) => testPointOf(subject, ctx)?.tiedTo === "ground");
  if (isOfRails ? readings.length < HUM.rails || quiet.length < 2 : readings.length < HUM.places || !isGround)
    return undefined;
  const places = placesRead(readings);
  const whose = places.join(", ");
  return wholeTable(table, readings, places, {
    of: `the readings of ${whose}`,
    mistake: "the lead was off ground",
    says: `All of ${whose} show the same, which is what a lead hears that has no ground.`,
    again: `Put the lead on the board's ground, touch ground with the tip to see nothing there, and read ${places[0]} again`,
  });
}
