import diodeCheck from "../log/kinds/diode-check";
import { nameOf, windowText } from "./compare";
import type { LogContext } from "./context";
import { powerReference } from "./diode-power";
import { diodeReference } from "./diode-window";
import { pinRole } from "./pin-role";
import type { Place } from "./place";
import { expectedAt } from "./reference";

/** What a pin should read on the diode range, in a sentence with its source, for those about to measure it. */
export function pinWindow(place: Place, ctx: LogContext): string {
  const expected = expectedAt(diodeCheck.id, place, "V", ctx);
  const reference = expected ?? diodeReference(pinRole(place), place) ?? powerReference(place, ctx);
  if (pinRole(place) === "not-connected" && !expected) return "Not connected inside the chip: not judged.";
  if (!reference) return "There is no usual diode reading for this pin: compare a sister chip.";
  return `Diode check: ${windowText(reference)}, ${nameOf(reference)} (${reference.source}).`;
}
