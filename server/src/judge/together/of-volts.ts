// Standing voltages of many parts in one table, all of them with the other sign, in another unit, or next to nothing with ground
// among them: the leads or the meter, whatever parts they are of.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import { shownAtVolts } from "../../compute/together/powered-likelihood";
import type { Cause } from "../../compute/together/types";
import type { LogTable, Reading } from "../../log/model";
import { tableParts } from "../../log/table-pieces";
import { extentOf } from "../compare";
import type { LogContext } from "../context";
import { feedsOf } from "../feeding";
import { pinName, type TestPoint, testPointOf } from "../test-point";
import { wholePart } from "./part";
import type { Explained, TableCause } from "./types";

/** Fewer may be what they are, or a slip of the pen each. Common practice, no source. */
const LEAST_BELOW = 3;
const LEAST_BEYOND = 2;
/** Above the highest supply of the board nothing stands but what a coil throws back; and without a board, volts. */
const BEYOND = 4;
const HIGHEST = 40;

interface VoltsAt {
  readonly reading: Reading;
  readonly place: TestPoint;
  readonly pin: string | undefined;
  readonly volts: number;
}

/** One cause for the table, or none; a table of rails is told by the rails. */
export function voltsCause(table: LogTable, ctx: LogContext): TableCause | undefined {
  if (table.kind.judgedBy !== "level") return undefined;
  const parts = tableParts(table);
  // What some rows of a long table rule out needs none of the others.
  if (parts.length > 1 && parts.every((part) => isPlain(part, ctx))) return undefined;
  const all = voltsIn(table, ctx);
  if (all.length < LEAST_BEYOND) return undefined;
  return swapped(all, table) ?? scaled(all, table, ctx) ?? floating(all, table);
}

/** What a lead that touches nothing shows at most, and what no ground shows to one that does; volts. Common practice, no source. */
const FLOATS = 0.45;
const OFF_GROUND = 0.05;
const LEAST_FLOATING = 5;
const LEAST_OF_CHIP = 4;

/**
 * Supplies read as ground does, and ground not nothing: on a board without power it would. Or all stand off by one voltage. Of the whole table, or of the chips
 * for which the lead was somewhere else.
 */
function floating(all: readonly VoltsAt[], table: LogTable): TableCause | undefined {
  const isWhole = all.length >= LEAST_FLOATING && floats(all);
  const chips = new Set(
    [...new Set(all.map(({ place }) => place.ref))].filter((ref) => {
      const own = all.filter(({ place }) => place.ref === ref);
      return own.length >= LEAST_OF_CHIP && floats(own);
    }),
  );
  const own = isWhole ? all : all.filter(({ place }) => chips.has(place.ref));
  return own.length === 0 ? undefined : told({ kind: "open" }, table, own, own);
}

function floats(all: readonly VoltsAt[]): boolean {
  const grounds = all.filter(isGround);
  if (grounds.length === 0 || !all.some(isFed)) return false;
  return (
    isOnOffset(grounds, all.filter(isFed)) ||
    (all.every(({ volts }) => Math.abs(volts) <= FLOATS) &&
      grounds.every(({ volts }) => Math.abs(volts) >= OFF_GROUND))
  );
}

const isFed = ({ place: { tiedTo } }: VoltsAt): boolean => typeof tiedTo === "object";
const isGround = ({ place }: VoltsAt): boolean =>
  place.tiedTo === "ground" || place.pin?.direction === "ground";

/** Volts that the lead stood off ground at least, how near to it each ground reads, and how near each supply, with a share of it. */
const OFFSET = { least: 0.6, ground: 0.15, supply: 0.2, share: 0.06 } as const;

/** Ground stands somewhere, and each supply as much above or below itself. */
function isOnOffset(grounds: readonly VoltsAt[], supplies: readonly VoltsAt[]): boolean {
  const by = (grounds[0] as VoltsAt).volts;
  return (
    Math.abs(by) >= OFFSET.least &&
    grounds.every(({ volts }) => Math.abs(volts - by) <= OFFSET.ground) &&
    supplies.every(({ volts, place: { tiedTo } }) => {
      const nominal = typeof tiedTo === "object" ? tiedTo.volts : undefined;
      return (
        nominal !== undefined &&
        Math.abs(volts - by - nominal) <= OFFSET.supply + OFFSET.share * Math.abs(nominal)
      );
    })
  );
}

/** Something stands above ground as it should, and something in volts. */
const isPlain = memo((part: LogTable, ctx: LogContext): boolean =>
  voltsIn(part, ctx).some(({ volts }) => volts > ZERO && volts < HIGHEST && !Number.isInteger(volts)),
);

const voltsIn = (table: LogTable, ctx: LogContext): VoltsAt[] =>
  table.readings.flatMap((reading) => {
    const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
    const place = extent && testPointOf(reading.subject, ctx);
    if (!extent || !place || !Number.isFinite(extent.low) || !Number.isFinite(extent.high)) return [];
    return [{ reading, place, pin: pinName(place), volts: (extent.low + extent.high) / 2 }];
  });

/** Every one that is not about nothing lies below ground, but for what hangs on a supply below it. */
function swapped(all: readonly VoltsAt[], table: LogTable): TableCause | undefined {
  const isBelow = ({ place: { tiedTo } }: VoltsAt): boolean =>
    typeof tiedTo === "object" && (tiedTo.volts ?? 0) < 0;
  const meant = all.map((one) => (isBelow(one) ? -one.volts : one.volts));
  const below = all.filter((_, i) => (meant[i] ?? 0) < -ZERO);
  if (below.length < LEAST_BELOW || meant.some((volts) => volts > ZERO)) return undefined;
  if (!meant.some((volts) => shownAtVolts(volts) === "below")) return undefined;
  return told({ kind: "swapped", shows: "below-zero" }, table, all, below);
}

/** What is no more than a meter's zero; volts. */
const ZERO = 0.02;

/** Beyond any supply of the board, and in millivolts each within it. */
function scaled(all: readonly VoltsAt[], table: LogTable, ctx: LogContext): TableCause | undefined {
  const board = ctx.board?.value;
  const supplies = board ? feedsOf(board).map(({ volts }) => Math.abs(volts)) : [];
  const highest = supplies.length > 0 ? Math.max(...supplies) : HIGHEST;
  const beyond = all.filter(({ volts }) => Math.abs(volts) > Math.max(HIGHEST, BEYOND * highest));
  const isOfUnit = all.every(({ volts }) => Math.abs(volts) / 1000 <= highest * 1.2);
  // What stands between is in volts after all: then the others are wrong for a reason of their own.
  const isVolts = all.some((one) => Number.isInteger(one.volts) === false && !beyond.includes(one));
  if (beyond.length < LEAST_BEYOND || !isOfUnit || isVolts) return undefined;
  const figures = all.filter(({ volts }) => volts !== 0);
  return told({ kind: "scale", factor: 0.001 }, table, all, figures);
}

/** Told with a clear margin: nothing else makes a whole table of it. */
function told(
  cause: Cause,
  table: LogTable,
  all: readonly VoltsAt[],
  explained: readonly VoltsAt[],
): TableCause {
  const refs = [...new Set(all.map(({ place }) => place.ref))];
  return {
    cause,
    table,
    parts: refs.map((ref) => {
      const own = all.filter(({ place }) => place.ref === ref);
      const [ground] = of(own.filter(isGround), ref);
      const [supply] = of(own.filter(isFed), ref);
      return defined({ ...wholePart(ref, of(all, ref), of(explained, ref)), ground, supply });
    }),
    margin: Number.POSITIVE_INFINITY,
    clear: true,
  };
}

const of = (all: readonly VoltsAt[], ref: string): Explained[] =>
  all.flatMap(({ reading, place, pin }) =>
    place.ref === ref ? [pin === undefined ? { reading, ref } : { reading, ref, pin }] : [],
  );
