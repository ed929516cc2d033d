import diodeCheck from "../log/kinds/diode-check";
import { referenceName, windowText } from "./compare";
import type { LogContext } from "./context";
import { powerReference } from "./diode-power";
import { diodeReference } from "./diode-window";
import { pinRole } from "./pin-role";
import { expectedAt } from "./reference";
import type { TestPoint } from "./test-point";
import type { Reference } from "./types";

/** What a pin should read on the diode range, without a reading of it; undefined where nobody says. */
export function pinReference(place: TestPoint, ctx: LogContext): Reference | undefined {
  const expected = expectedAt(diodeCheck.id, place, "V", ctx);
  return expected ?? diodeReference(pinRole(place), place) ?? powerReference(place, ctx);
}

/** What a pin should read on the diode range, in a sentence with its source, for those about to measure it. */
export function pinWindow(place: TestPoint, ctx: LogContext): string {
  const reference = pinReference(place, ctx);
  if (pinRole(place) === "not-connected" && !expectedAt(diodeCheck.id, place, "V", ctx))
    return "Not connected inside the chip: not judged.";
  if (!reference) return "There is no usual diode reading for this pin: compare a sister chip.";
  return `Diode check: ${windowText(reference)}, ${referenceName(reference)} (${reference.source}).`;
}
