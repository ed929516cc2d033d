import type { Reading } from "../log/model";
import { windowText } from "./compare";
import type { LogContext } from "./context";
import { pinWindow } from "./pin-window";
import { placeName, placeOf } from "./place";
import { railReference, rippleReference } from "./rail";
import { railAt } from "./rail-name";
import { boardReference, shopReference } from "./reference";

/** What a reading that has not been taken yet should show, in a sentence with its source; undefined where nothing says. */
export function expectedText(reading: Reading, ctx: LogContext): string | undefined {
  const place = placeOf(reading.subject, ctx);
  if (reading.table.kind.judgedBy === "diode" && place?.pin)
    return `${placeName(place)}. ${pinWindow(place, ctx)}`;
  const board = boardReference(reading, place, reading.spec.unit ?? "", ctx);
  const reference = board ?? railLimits(reading, ctx) ?? shopReference(reading, place, ctx);
  if (!reference) return undefined;
  return `It should read ${windowText(reference)}, ${reference.of} (${reference.source}).`;
}

function railLimits(reading: Reading, ctx: LogContext) {
  const rail = ctx.board && railAt(reading.subject, ctx.board.value);
  if (!rail || reading.table.kind.judgedBy !== "supply") return undefined;
  if (reading.measure === "ripple") return rippleReference(rail, ctx);
  return reading.measure === "dc" ? railReference(rail, ctx) : undefined;
}
