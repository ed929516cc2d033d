// Rails that were all read with the other sign or in millivolts, and ohms to ground of which none conducts: the leads, not the board.

import { memo } from "../../base/memo";
import type { Board } from "../../knowledge/types";
import type { LogTable } from "../../log/model";
import { extentOf } from "../compare";
import type { LogContext } from "../context";
import { railAt } from "../rail-name";
import { pinName, testPointOf } from "../test-point";
import { siValue } from "../uncertainty";
import { wholePart } from "./part";
import type { Explained, TableCause } from "./types";

/** How far a rail may be off and still be told by its voltage. */
const NEAR = 0.3;
/** One rail with the wrong sign may be a slip of the pen. */
const LEAST_RAILS = 2;
/** Pins read open, ground among them, before the lead is blamed. */
const LEAST_PINS = 4;
const LEAST_CHIPS = 2;

/** Every rail about as high as it should be, and every one with the other sign. */
export function railCause(table: LogTable, ctx: LogContext): TableCause | undefined {
  const board = ctx.board?.value;
  if (!board || table.kind.place !== "rail" || table.kind.judgedBy !== "supply") return undefined;
  // What the rows alone rule out of a long table needs none of their places.
  if (table.pieces?.some((piece) => !turnedRails(piece.table, board))) return undefined;
  const turned = turnedRails(table, board) ?? [];
  if (turned.length >= LEAST_RAILS)
    return told({ kind: "swapped", shows: "below-zero" }, table, undefined, turned);
  const thousands = table.pieces ? [] : (railsTimes(1000, table, board) ?? []);
  if (thousands.length < LEAST_RAILS) return undefined;
  return told({ kind: "scale", factor: 0.001 }, table, undefined, thousands);
}

/** The readings of rails, where all of them have the other sign. */
const turnedRails = (table: LogTable, board: Board): Explained[] | undefined => railsTimes(-1, table, board);

/** The readings of rails, where all of them are about so many times what they should be. */
function railsTimes(times: number, table: LogTable, board: Board): Explained[] | undefined {
  const explained: Explained[] = [];
  for (const reading of table.readings) {
    if (reading.spec.quantity !== "voltage" || reading.measure === "ripple") continue;
    const extent = extentOf(reading.value);
    const rail = railAt(reading.subject, board);
    const nominal = rail && siValue(rail.nominal, "V");
    if (!extent || nominal === undefined || nominal === 0) continue;
    const share = (extent.low + extent.high) / 2 / nominal;
    if (Math.abs(share / times - 1) > NEAR) return undefined;
    explained.push({ reading });
  }
  return explained;
}

/** Ohms to ground of a chip's pins, its ground pin included, all of them open. */
export function ohmsCauses(table: LogTable, ctx: LogContext): TableCause[] {
  if (table.kind.judgedBy !== "ground") return [];
  // A chip that conducts in some rows of a long table does so in all of it.
  const parts = table.pieces?.map((piece) => ohmsByChip(piece.table, ctx));
  const open = new Set(parts?.flatMap((part) => [...part.keys()]));
  for (const part of parts ?? [])
    for (const [ref, chip] of part) if (chip.open < chip.all.length) open.delete(ref);
  if (parts && open.size === 0) return [];
  const silent = [...ohmsByChip(table, ctx)].flatMap(([ref, { all, open, ground, groundOpen }]) =>
    ground && groundOpen && open === all.length ? [{ ref, all, ground }] : [],
  );
  // One chip by enough of its pins, or several of which each has its ground among them.
  const isOfMany = silent.length >= LEAST_CHIPS && silent.flatMap(({ all }) => all).length >= LEAST_PINS;
  const found = silent.filter(({ all }) => isOfMany || all.length >= LEAST_PINS);
  const [first] = found;
  if (!first) return [];
  const told = found.map(({ ref, all, ground }) => ({ ...wholePart(ref, all), ground }));
  return [{ cause: { kind: "open" }, table, parts: told, margin: Number.POSITIVE_INFINITY, clear: true }];
}

interface OhmsOfChip {
  readonly all: Explained[];
  open: number;
  ground?: Explained;
  groundOpen: boolean;
}

const ohmsByChip = memo((table: LogTable, ctx: LogContext): ReadonlyMap<string, OhmsOfChip> => {
  const chips = new Map<string, OhmsOfChip>();
  for (const reading of table.readings) {
    if (reading.spec.quantity !== "resistance" || reading.subject.rail) continue;
    const place = testPointOf(reading.subject, ctx);
    const extent = extentOf(reading.value);
    const pin = place && pinName(place);
    if (!place || !(place.pin ?? place.net) || !extent || pin === undefined) continue;
    if ((reading.apart ?? []).length > 0 || place.pin?.direction === "not-connected") continue;
    const chip: OhmsOfChip = chips.get(place.ref) ?? { all: [], open: 0, groundOpen: true };
    chips.set(place.ref, chip);
    const one = { reading, ref: place.ref, pin };
    const open = extent.low === Number.POSITIVE_INFINITY;
    chip.all.push(one);
    if (open) chip.open += 1;
    if (place.pin?.direction !== "ground" && place.tiedTo !== "ground") continue;
    chip.ground ??= one;
    chip.groundOpen &&= open;
  }
  return chips;
});

const told = (
  cause: TableCause["cause"],
  table: LogTable,
  ref: string | undefined,
  explained: readonly Explained[],
): TableCause => ({
  cause,
  table,
  parts: [wholePart(ref, explained)],
  margin: Number.POSITIVE_INFINITY,
  clear: true,
});
