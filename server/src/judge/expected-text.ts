import type { Reading } from "../log/model";
import { windowText } from "./compare";
import type { LogContext } from "./context";
import { endsExpected } from "./ends";
import { pinReference, pinWindow } from "./pin-window";
import { railReference, rippleReference } from "./rail";
import { railAt } from "./rail-name";
import { boardReference, shopReference } from "./reference";
import { type TestPoint, testPointName, testPointOf } from "./test-point";
import type { Reference } from "./types";

/** What a reading that has not been taken yet should show, in a sentence with its source; undefined where nothing says. */
export function expectedText(reading: Reading, ctx: LogContext): string | undefined {
  const place = testPointOf(reading.subject, ctx);
  if (reading.table.kind.judgedBy === "diode" && place?.pin)
    return `${testPointName(place)}. ${pinWindow(place, ctx)}`;
  if (reading.table.kind.judgedBy === "ends") return endsExpected(reading, ctx);
  const reference = besidesDiodes(reading, place, ctx);
  if (!reference) return undefined;
  return `It should read ${windowText(reference)}, ${reference.of} (${reference.source}).`;
}

/** What a reading should show, by its limits alone: "0.4 V to 0.7 V". Undefined where nothing says. */
export function expectedWindow(reading: Reading, ctx: LogContext): string | undefined {
  const place = testPointOf(reading.subject, ctx);
  const isDiode = reading.table.kind.judgedBy === "diode" && place?.pin !== undefined;
  const reference = isDiode ? pinReference(place, ctx) : besidesDiodes(reading, place, ctx);
  return reference && windowText(reference);
}

const besidesDiodes = (
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Reference | undefined =>
  boardReference(reading, place, reading.spec.unit ?? "", ctx) ??
  railLimits(reading, ctx) ??
  shopReference(reading, place, ctx);

function railLimits(reading: Reading, ctx: LogContext) {
  const rail = ctx.board && railAt(reading.subject, ctx.board.value);
  if (!rail || reading.table.kind.judgedBy !== "supply") return undefined;
  if (reading.measure === "ripple") return rippleReference(rail, ctx);
  return reading.measure === "dc" ? railReference(rail, ctx) : undefined;
}
