// The like pins of many like parts in one table, and every one of them open: one lead, not as many parts.

import { CLEAR_MARGIN } from "../../compute/together/explain";
import type { LogTable, Reading } from "../../log/model";
import { readingAt } from "../../log/table-pieces";
import { extentOf } from "../compare";
import type { LogContext } from "../context";
import { comparedAs } from "../nets/block-nets";
import { pinName, type TestPoint, testPointOf } from "../test-point";
import type { Judgement } from "../types";
import { wholePart } from "./part";
import type { Explained, TableCause } from "./types";

/** Fewer parts may each have a fault of its own, and so may fewer nets. Common practice, no source. */
const LEAST_PARTS = 3;
const LEAST_NETS = 4;
/** A part of which more was read is told by its own pins. */
const MOST_OF_PART = 3;

/**
 * The lead off ground over all parts of a table, where they are alike, nothing that was read there conducts, and at
 * least four nets should. Diodes by themselves are left out: of those it is the direction of the leads.
 */
export function manyOpenCause(
  table: LogTable,
  verdicts: () => (number: number) => Judgement | undefined,
  ctx: LogContext,
): TableCause | undefined {
  const as = comparedAs(table);
  if (!as || !everyOneOpen(table, as.measure)) return undefined;
  const parts = new Map<string, { all: Explained[]; off: Explained[] }>();
  const nets = new Set<string>();
  const kinds = new Map<string, string>();
  for (let number = 0; number < table.readings.length; number += 1) {
    const reading = readingAt(table, number);
    if (!reading || reading.measure !== as.measure || reading.value.kind === "empty") continue;
    const place = testPointOf(reading.subject, ctx);
    const pin = place && pinName(place);
    if (!place || pin === undefined || isLeftOut(place, reading)) return undefined;
    const part = parts.get(place.ref) ?? { all: [], off: [] };
    parts.set(place.ref, part);
    const one = { reading, ref: place.ref, pin };
    part.all.push(one);
    kinds.set(place.ref, `${kinds.get(place.ref) ?? place.device?.id ?? ""} ${pin}`);
    const { verdict, side } = verdicts()(number) ?? {};
    if (side !== "high" || (verdict !== "out-of-limits" && verdict !== "suspect")) continue;
    part.off.push(one);
    if (place.net) nets.add(place.net.name);
  }
  // Different pins of different parts may be a list of what was found open.
  const areAlike = new Set(kinds.values()).size === 1;
  const isOfMany = areAlike && parts.size >= LEAST_PARTS && nets.size >= LEAST_NETS;
  if (!isOfMany || [...parts.values()].some(({ all, off }) => all.length > MOST_OF_PART || off.length === 0))
    return undefined;
  return {
    cause: { kind: "open" },
    table,
    parts: [...parts].map(([ref, { all, off }]) => wholePart(ref, all, off)),
    margin: CLEAR_MARGIN,
    clear: true,
  };
}

/** Of a long table the first piece in which something conducts ends the question. */
const everyOneOpen = (table: LogTable, measure: string): boolean =>
  (table.pieces?.map((piece) => piece.table) ?? [table]).every(({ readings }) =>
    readings.every(
      (reading) =>
        reading.measure !== measure ||
        reading.value.kind === "empty" ||
        extentOf(reading.value)?.low === Number.POSITIVE_INFINITY,
    ),
  );

const isLeftOut = ({ device }: TestPoint, { apart = [] }: Reading): boolean =>
  device?.kind === "diode" || apart.length > 0;
