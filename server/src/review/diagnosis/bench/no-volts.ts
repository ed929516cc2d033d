// A table of standing voltages of which none is above nothing, supply pins among them, while the rails were read right: the
// lead, and none of the parts. Where no rail was read, the board may have been without power.

import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { testPointOf } from "../../../judge/test-point";
import type { LogDocument } from "../../../log/document";
import type { LogTable, Reading } from "../../../log/model";
import type { LocatedObservation } from "../observation";
import { isSaidToRun } from "../words/running";
import { inPlaceOf } from "./whole-table";

/** Fewer readings may be what they are; and what a meter shows that hangs in the air, volts. Common practice, no source. */
const LEAST = 4;
const NOTHING = 0.25;
/** On AC a line that moves shows something, and a supply nothing: volts, and readings. Common practice, no source. */
const EXACTLY = 0.03;
const HIGH = 2.6;
const LEAST_LINES = 10;

/** The observations without those of such tables, and one finding for each in their place. */
export function withoutOffGround(
  all: readonly LocatedObservation[],
  { blocks }: LogDocument,
  ctx: LogContext,
): readonly LocatedObservation[] {
  const right = new Set(all.flatMap(({ railRight }) => railRight ?? []));
  // A board that does something has its supplies, whoever measured them.
  if (right.size === 0 && isSaidToRun(blocks, ctx.board?.value))
    for (const name of ctx.board?.value.rails.keys() ?? []) right.add(name);
  if (right.size === 0) return all;
  const tables = new Map<LogTable, LocatedObservation & { readonly only?: ReadonlySet<string> }>();
  for (const one of all) {
    const { table } = one;
    if (table?.kind.judgedBy !== "level" || tables.has(table)) continue;
    const isWhole = isAtNothing(voltsIn(table), right, ctx);
    const only = isWhole ? undefined : partsAtNothing(table, right, ctx);
    if (isWhole || only?.size) tables.set(table, only ? { ...one, only } : one);
  }
  return inPlaceOf(all, tables, (refs) => ({
    of: `the voltages of ${refs.join(", ")}`,
    mistake: "the lead was off ground, or the meter on another range",
    says: `All of ${refs.join(", ")} read next to nothing, supply pins too, and the board has its supplies.`,
    again: `Put the lead on the board's ground, try the meter on a supply, and read ${refs[0]} again`,
  }));
}

interface VoltsRead {
  readonly reading: Reading;
  readonly most: number;
}

const voltsIn = (table: LogTable): VoltsRead[] =>
  table.readings.flatMap((reading) => {
    const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
    return extent ? [{ reading, most: Math.max(Math.abs(extent.low), Math.abs(extent.high)) }] : [];
  });

/** Chips of which each reads nothing at all, its supply and its lines alike, as no chip does that is only unfed; in capitals. */
function partsAtNothing(table: LogTable, right: ReadonlySet<string>, ctx: LogContext): ReadonlySet<string> {
  const chips = new Map<string, VoltsRead[]>();
  for (const one of voltsIn(table)) {
    const ref = one.reading.subject.ref?.text.toUpperCase() ?? "";
    chips.set(ref, [...(chips.get(ref) ?? []), one]);
  }
  const silent = [...chips].filter(
    ([, volts]) =>
      volts.length >= PART.of &&
      volts.every(({ most }) => most <= PART.volts) &&
      volts.some(({ reading }) => right.has(railOf(reading, ctx) ?? "")),
  );
  // What drives an input does so whether its chip is fed or not.
  const inputs = silent.flatMap(([, volts]) =>
    volts.filter(({ reading }) => {
      const place = testPointOf(reading.subject, ctx);
      return place?.tiedTo === undefined && place?.pin?.direction === "input";
    }),
  );
  return new Set(inputs.length >= PART.inputs ? silent.map(([ref]) => ref) : []);
}

/** Readings of a chip, inputs of all such chips, and volts that are nothing: common practice, no source. */
const PART = { of: 3, inputs: 3, volts: 0.05 } as const;

function isAtNothing(volts: readonly VoltsRead[], right: ReadonlySet<string>, ctx: LogContext): boolean {
  const supplies = volts.filter(({ reading }) => right.has(railOf(reading, ctx) ?? ""));
  if (volts.length < LEAST || supplies.length === 0) return false;
  // A chip that is fed by its inputs alone shows more than nothing at its supply, and something above a low among its lines.
  return (
    volts.every(({ most }) => most <= NOTHING) ||
    (volts.length >= LEAST_LINES &&
      supplies.every(({ most }) => most <= EXACTLY) &&
      volts.every(({ most }) => most < HIGH))
  );
}

function railOf({ subject }: Reading, ctx: LogContext): string | undefined {
  const tiedTo = testPointOf(subject, ctx)?.tiedTo;
  return typeof tiedTo === "object" ? tiedTo.rail : undefined;
}
