// Supply pins of several chips that are all off in the same way: what feeds them is told once, and no pin by itself.

import { memo } from "../../base/memo";
import type { Side } from "../../compute/limits/compare";
import type { LogDocument } from "../../log/document";
import type { LogBlock, Reading } from "../../log/model";
import { extentOf } from "../compare";
import { contextAt, type LogContext } from "../context";
import { fedBy } from "../feeding";
import { inJudgedBlocks } from "../in-blocks";
import { judgePieces } from "../index";
import { pinRole } from "../pin-role";
import { railAt } from "../rail-name";
import { pinName } from "../test-point";
import type { Judgement, Reference } from "../types";
import { mistakenPlaces } from "./index";

/** What was measured: a standing voltage, the drop on the diode range, or ohms to ground. */
export type SupplyMeasure = "volts" | "drop" | "ohms";

export interface SupplyPinReading {
  readonly reading: Reading;
  /** Offset that its spans count from. */
  readonly start: number;
  readonly ref: string;
  readonly pin: string;
  /** SI base unit; infinite where it reads open. */
  readonly value: number;
  readonly reference: Reference | undefined;
}

/** One rail, as the supply pins on it read. */
export interface SupplyOff {
  /** Its name; undefined where nothing says what feeds these pins. */
  readonly rail: string | undefined;
  readonly measure: SupplyMeasure;
  readonly side: Side;
  /** In the order of the log. */
  readonly pins: readonly SupplyPinReading[];
  /** The rail's own readings that are off in the same way. */
  readonly own: readonly { readonly reading: Reading; readonly start: number }[];
  /** True where the rail's own last reading of this measure lies within its limits. */
  readonly railIsRight: boolean;
}

/** Pins and chips from which on the rail is named, whatever itself reads. Common practice, no source. */
const LEAST_PINS = 3;
const LEAST_CHIPS = 2;
/** How far apart readings of one rail lie: volts and drops, and as a share. Common practice, no source. */
const NEAR = { volts: 0.05, drop: 0.05, ohms: 2, share: 0.05 };

/** True where the pins by themselves say that it is the rail, or what leads to all of them. */
export const isOfRail = ({ pins }: SupplyOff): boolean =>
  pins.length >= LEAST_PINS && new Set(pins.map(({ ref }) => ref.toUpperCase())).size >= LEAST_CHIPS;

/** Supply pins that are off together, by rail; a group of fewer pins is there only with the rail's own reading. */
export function suppliesOff(doc: LogDocument, ctx: LogContext): readonly SupplyOff[] {
  const read = readOfSupplies(doc, ctx);
  const groups = new Map<string, SupplyPinReading[]>();
  for (const { start, found } of read) {
    for (const { key, ...pin } of found.pins) {
      const group = groups.get(key);
      const one = { ...pin, start: start + pin.start };
      if (group) group.push(one);
      else groups.set(key, [one]);
    }
  }
  if (groups.size === 0) return NONE;
  return [...groups].flatMap(([key, all]): SupplyOff[] => {
    const { rail, measure, side } = parted(key);
    const rails =
      rail === undefined ? [] : read.flatMap(({ start, found }) => ownOf(start, found.rails, rail));
    const own = rails.filter((it) => it.side === side && sameMeasure(measure, it.measure));
    const at = own.at(-1)?.value;
    const pins = near(all, measure, measure === "volts" ? at : undefined);
    const last = rails.filter((it) => it.measure === measure).at(-1);
    const found: SupplyOff = { rail, measure, side, pins, own, railIsRight: last?.isRight ?? false };
    return pins.length > 0 && (own.length > 0 || isOfRail(found)) ? [found] : [];
  });
}

const NONE: readonly SupplyOff[] = [];

/** A drop of nothing and no ohms are one short. */
const sameMeasure = (pins: SupplyMeasure, rail: SupplyMeasure): boolean =>
  pins === rail || (pins !== "volts" && rail !== "volts");

/** Those that lie about the rail's own reading, or about the one in the middle. */
function near(
  pins: readonly SupplyPinReading[],
  measure: SupplyMeasure,
  at: number | undefined,
): SupplyPinReading[] {
  const sorted = pins.map(({ value }) => value).sort((a, b) => a - b);
  const middle = at ?? sorted[Math.floor(sorted.length / 2)] ?? 0;
  const most = Math.max(NEAR[measure], Math.abs(middle) * NEAR.share);
  return pins.filter(({ value }) => value === middle || Math.abs(value - middle) <= most);
}

interface OwnReading {
  readonly start: number;
  readonly rail: string;
  readonly reading: Reading;
  readonly measure: SupplyMeasure;
  readonly side: Side | undefined;
  readonly isRight: boolean;
  readonly value: number;
}

const ownOf = (start: number, rails: readonly OwnReading[], name: string) =>
  rails.filter(({ rail }) => rail === name).map((one) => ({ ...one, start: start + one.start }));

/** Starts count from the block's. */
interface InBlock {
  readonly pins: readonly (SupplyPinReading & { readonly key: string })[];
  readonly rails: readonly OwnReading[];
}

const readOfSupplies = inJudgedBlocks((block, whole): InBlock | undefined => {
  const read = inBlock(block, contextAt(block, whole), whole);
  return read.pins.length + read.rails.length === 0 ? undefined : read;
});

const inBlock = memo((block: LogBlock, ctx: LogContext, whole: LogContext): InBlock => {
  if (block.tables.length === 0) return NOTHING;
  // By their places: a long table's pieces have readings of their own.
  const mistaken = mistakenPlaces(block, whole);
  const pins: InBlock["pins"][number][] = [];
  const rails: OwnReading[] = [];
  for (const { piece, judgements } of judgePieces(block, ctx)) {
    const { start } = piece;
    const isRight = ({ reading }: { readonly reading: Reading }): boolean =>
      !mistaken.has(start + reading.cell.span.start);
    const own = inPiece(judgements, ctx);
    for (const pin of own.pins) if (isRight(pin)) pins.push({ ...pin, start });
    for (const rail of own.rails) if (isRight(rail)) rails.push({ ...rail, start });
  }
  return pins.length === 0 && rails.length === 0 ? NOTHING : { pins, rails };
});

const inPiece = memo((judgements: ReadonlyMap<Reading, Judgement>, ctx: LogContext): InBlock => {
  const pins: InBlock["pins"][number][] = [];
  const rails: OwnReading[] = [];
  for (const [reading, judgement] of judgements) {
    const value = middleOf(reading);
    if (value === undefined || reading.measure === "ripple") continue;
    const own = ownReading(reading, judgement, value, ctx);
    if (own) rails.push(own);
    else pins.push(...supplyPin(reading, judgement, value, ctx));
  }
  return pins.length === 0 && rails.length === 0 ? NOTHING : { pins, rails };
});

const NOTHING: InBlock = { pins: [], rails: [] };

function middleOf({ value }: Reading): number | undefined {
  const extent = extentOf(value);
  if (!extent) return undefined;
  return Number.isFinite(extent.low) && Number.isFinite(extent.high)
    ? (extent.low + extent.high) / 2
    : extent.low;
}

function ownReading(
  reading: Reading,
  { verdict, side, place }: Judgement,
  value: number,
  ctx: LogContext,
): OwnReading | undefined {
  const board = ctx.board?.value;
  if (!board || place?.device || (!reading.subject.rail && !place)) return undefined;
  const rail = railAt(reading.subject, board)?.name;
  const { quantity } = reading.spec;
  if (rail === undefined || (quantity !== "voltage" && quantity !== "resistance")) return undefined;
  const measure =
    quantity === "resistance" ? "ohms" : reading.table.kind.judgedBy === "supply" ? "volts" : "drop";
  const isOff = verdict === "out-of-limits" || verdict === "suspect";
  return {
    start: 0,
    rail,
    reading,
    measure,
    side: isOff ? side : undefined,
    isRight: verdict === "within-limits",
    value,
  };
}

function supplyPin(
  reading: Reading,
  { verdict, side, code, place, reference }: Judgement,
  value: number,
  ctx: LogContext,
): InBlock["pins"] {
  const pin = place && pinName(place);
  const measure = code && MEASURES.get(code);
  if (!place?.pin || !place.device || pin === undefined || !measure || !side) return [];
  if (verdict !== "out-of-limits" && verdict !== "suspect") return [];
  const role = pinRole(place);
  if ((role !== "supply" && role !== "tied-to-rail") || place.device.kind === "regulator") return [];
  const { tiedTo } = place;
  const fed = typeof tiedTo === "object" ? undefined : fedBy(place, place.pin, ctx);
  const rail =
    typeof tiedTo === "object" ? tiedTo.rail : fed?.kind === "known" ? fed.feed.rail?.name : undefined;
  const key = JSON.stringify([measure, side, rail ?? null]);
  return [{ key, start: 0, reading, ref: place.ref, pin, value, reference }];
}

const MEASURES: ReadonlyMap<string, SupplyMeasure> = new Map<string, SupplyMeasure>([
  ["level-undefined", "volts"],
  ["diode-out-of-window", "drop"],
  ["pin-shorted", "ohms"],
]);

function parted(key: string): Pick<SupplyOff, "rail" | "measure" | "side"> {
  const [measure, side, rail] = JSON.parse(key) as [SupplyMeasure, Side, string | null];
  return { measure, side, rail: rail ?? undefined };
}
