import { locate } from "../../syntax/yaml";
import type { Expected } from "../../knowledge/types";
import type { Reading } from "../../log/model";
import type { LogContext } from "../context";
import { pinNumber } from "../place";
import { findRail } from "./rail-name";
import type { Place } from "../place";
import type { Reference } from "./types";
import { siValue } from "./uncertainty";

/** The board file's own expectation for this place and procedure, the most specific reference there is. */
export function boardReference(
  reading: Reading,
  place: Place | undefined,
  unit: string,
  ctx: LogContext,
): Reference | undefined {
  const board = ctx.board;
  if (!board) return undefined;
  const found = board.value.expected.find((item) => matches(item, reading, place, ctx));
  if (!found) return undefined;
  const low = siValue(found.low, unit);
  const high = siValue(found.high, unit);
  const at = locate(board.loaded.tree, ["expected", found.index]);
  return {
    kind: "board",
    of: `the board file's expected reading at ${placeName(found)}`,
    ...(low === undefined ? {} : { low }),
    ...(high === undefined ? {} : { high }),
    unit,
    source: found.source,
    ...(at ? { link: { uri: board.uri, span: at } } : {}),
  };
}

function matches(item: Expected, reading: Reading, place: Place | undefined, ctx: LogContext): boolean {
  if (item.procedure !== reading.table.procedure.id) return false;
  if (item.rail !== undefined) {
    const typed = reading.subject.rail?.text;
    if (typed === undefined || !ctx.board) return false;
    return findRail(ctx.board.value, typed)?.name === findRail(ctx.board.value, item.rail)?.name;
  }
  if (item.ref === undefined || item.ref.toUpperCase() !== place?.ref.toUpperCase()) return false;
  if (item.pin === undefined) return reading.subject.pin === undefined;
  const pin = place.pin?.number ?? pinNumber(place.pinTyped ?? "");
  return pin !== undefined && pinNumber(item.pin) === pin;
}

const placeName = (item: Expected): string =>
  item.rail ?? [item.ref, item.pin === undefined ? undefined : `pin ${item.pin}`].filter(Boolean).join(" ");
