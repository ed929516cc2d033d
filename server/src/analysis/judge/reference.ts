import type { Expected } from "../../knowledge/types";
import type { Reading } from "../../log/model";
import { parseQuantity } from "../../quantity/quantity";
import { parseUnit } from "../../quantity/units";
import { locate } from "../../syntax/yaml";
import type { LogContext } from "../context";
import type { Place } from "../place";
import { pinNumber } from "../place";
import { findRail } from "./rail-name";
import type { Reference } from "./types";
import { siValue } from "./uncertainty";

/** The board file's own expectation for this place and procedure, the most specific reference there is. */
export function boardReference(
  reading: Reading,
  place: Place | undefined,
  unit: string,
  ctx: LogContext,
): Reference | undefined {
  const wanted = reading.spec.quantity;
  // Where a procedure measures one quantity in several ways (leads one way and the other, say), the board file
  // speaks of the first: to hold the others against it would be a guess.
  const first = reading.table.procedure.columns.find((c) => c.role === "reading" && c.quantity === wanted);
  if (first?.measure !== reading.spec.measure) return undefined;
  return expectedWhere(
    (item) => matches(item, reading, place, ctx) && dimensionOf(item.high, unit) === wanted,
    unit,
    ctx,
  );
}

/** The board file's expectation for a pin, without a reading of it. */
export function expectedAt(
  procedure: string,
  place: Place,
  unit: string,
  ctx: LogContext,
): Reference | undefined {
  return expectedWhere(
    (item) => item.procedure === procedure && item.rail === undefined && isAt(item, place),
    unit,
    ctx,
  );
}

function expectedWhere(
  fits: (item: Expected) => boolean,
  unit: string,
  ctx: LogContext,
): Reference | undefined {
  const board = ctx.board;
  const found = board?.value.expected.find(fits);
  if (!board || !found) return undefined;
  const low = siValue(found.low, unit);
  const high = siValue(found.high, unit);
  const at = locate(board.loaded.tree, ["expected", found.index]);
  return {
    kind: "board",
    of: `the board file's expected reading at ${placeName(found)}`,
    ...(low === undefined ? {} : { low }),
    ...(high === undefined ? {} : { high }),
    unit: parseUnit(unit)?.unit.symbol ?? unit,
    source: found.source,
    ...(at ? { link: { uri: board.uri, span: at } } : {}),
  };
}

/** A capacitor's capacitance and its ESR stand in one table: only an expectation in ohms is for the latter. */
function dimensionOf(text: string, unit: string): string | undefined {
  const parsed = parseQuantity(text, { unit });
  return parsed.ok ? parsed.quantity.dimension : undefined;
}

function matches(item: Expected, reading: Reading, place: Place | undefined, ctx: LogContext): boolean {
  if (item.procedure !== reading.table.procedure.id) return false;
  if (item.rail !== undefined) {
    const typed = reading.subject.rail?.text;
    if (typed === undefined || !ctx.board) return false;
    return findRail(ctx.board.value, typed)?.name === findRail(ctx.board.value, item.rail)?.name;
  }
  return place !== undefined && isAt(item, place);
}

function isAt(item: Expected, place: Place): boolean {
  if (item.ref === undefined || item.ref.toUpperCase() !== place.ref.toUpperCase()) return false;
  if (item.pin === undefined) return place.pinTyped === undefined;
  const pin = place.pin?.number ?? pinNumber(place.pinTyped ?? "");
  return pin !== undefined && pinNumber(item.pin) === pin;
}

const placeName = (item: Expected): string =>
  item.rail ?? [item.ref, item.pin === undefined ? undefined : `pin ${item.pin}`].filter(Boolean).join(" ");
