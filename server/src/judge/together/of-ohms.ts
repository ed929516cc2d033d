// Ohms to ground of a chip, a header or a network of which another pin than its ground reads as ground does: how its pins were counted.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import { COUNTS_IN_LINE, countsOf, truePin } from "../../compute/together/counts";
import { CLEAR_MARGIN } from "../../compute/together/explain";
import type { LogTable, Reading } from "../../log/model";
import { readingAt, tableParts } from "../../log/table-pieces";
import { extentOf } from "../compare";
import type { LogContext } from "../context";
import { partTestPoint, pinName, pinTestPoint, testPointOf } from "../test-point";
import { pinsInLine } from "./in-line";
import { wholePart } from "./part";
import type { PartOfCause, TableCause } from "./types";

/** Ohms that a lead on ground leaves, and more than any ground has; and how many pins have to be read. Common practice, no source. */
const NOTHING = 5;
const NO_GROUND = 50;
const LEAST = 5;

interface Ohm {
  /** Of its reading among those of the table, or of some of its rows. */
  readonly number: number;
  readonly pin: number;
  readonly low: number;
}

/** One cause for each part whose ground is where another count puts it. */
export function ohmsCounted(table: LogTable, ctx: LogContext): TableCause[] {
  if (table.kind.judgedBy !== "ground") return [];
  const parts = new Map<string, Ohm[]>();
  let first = 0;
  for (const rows of tableParts(table)) {
    for (const [ref, all] of ohmsByPart(rows, ctx)) {
      const own = first === 0 ? all : all.map((ohm) => ({ ...ohm, number: first + ohm.number }));
      const before = parts.get(ref);
      parts.set(ref, before ? [...before, ...own] : [...own]);
    }
    first += rows.readings.length;
  }
  return [...parts].flatMap(([ref, all]) => counted(ref, all, table, ctx) ?? []);
}

const ohmsByPart = memo((rows: LogTable, ctx: LogContext): ReadonlyMap<string, readonly Ohm[]> => {
  const parts = new Map<string, Ohm[]>();
  rows.readings.forEach((reading, number) => {
    const extent = reading.spec.quantity === "resistance" ? extentOf(reading.value) : undefined;
    const place = extent && !reading.subject.rail ? testPointOf(reading.subject, ctx) : undefined;
    const pin = place && Number(pinName(place));
    if (!extent || !place || !pin || (reading.apart ?? []).length > 0) return;
    const ohm = { number, pin, low: extent.low };
    const before = parts.get(place.ref);
    if (before) before.push(ohm);
    else parts.set(place.ref, [ohm]);
  });
  return parts;
});

function counted(ref: string, all: readonly Ohm[], table: LogTable, ctx: LogContext): TableCause | undefined {
  const at = partTestPoint(ref, ctx.board?.value, ctx.library);
  const inLine = pinsInLine(at.part);
  const pins = inLine ?? at.device?.package?.pins;
  if (!pins || all.length < LEAST) return undefined;
  const isGround = (pin: number): boolean => {
    const place = pinTestPoint(at, String(pin), ctx.board?.value);
    return place.tiedTo === "ground" || place.pin?.direction === "ground";
  };
  const grounds = all.filter(({ pin }) => isGround(pin));
  const nothing = all.filter(({ low }) => low <= NOTHING);
  if (nothing.length === 0 || grounds.length === 0 || grounds.some(({ low }) => low < NO_GROUND))
    return undefined;
  const ground = Array.from({ length: pins }, (_, i) => i + 1).find(isGround);
  const ways = (inLine ? COUNTS_IN_LINE : countsOf(pins, ground)).map(([count]) => count);
  const by = ways.find((count) => {
    const meant = (one: Ohm): boolean => isGround(truePin(one.pin, pins, count));
    return nothing.every(meant) && all.filter(meant).every(({ low }) => low <= NOTHING);
  });
  if (!by) return undefined;
  const as = ({ number, pin }: Ohm) => ({
    reading: readingAt(table, number) as Reading,
    ref,
    pin: String(pin),
  });
  const [first] = grounds.map(as);
  const part = defined<PartOfCause>({
    ...wholePart(ref, all.map(as), [...nothing, ...grounds].map(as)),
    ground: first,
    inLine: inLine ? (true as const) : undefined,
  });
  return { cause: { kind: "counted", by }, table, parts: [part], margin: CLEAR_MARGIN, clear: true };
}
