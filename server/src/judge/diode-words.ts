// What the findings about a drop to ground say, and what they advise.

import type { Extent, Side } from "../compute/limits/compare";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import type { Advice } from "../text/saying";
import type { LogContext } from "./context";
import { GROUND_MAX } from "./diode-window";
import { partWord, tellWhich } from "./part-word";
import type { PinRole } from "./pin-role";
import type { TestPoint } from "./test-point";
import { noDevice } from "./whose-part";

export function advice(role: PinRole, side: Side | undefined, extent: Extent, place: TestPoint): Advice {
  const word = partWord(place);
  if (role === "ground" || role === "tied-to-ground") {
    return {
      cause: "Its path to ground is open or resistive.",
      step: "Check the pin's joint, the socket contact and the track first.",
    };
  }
  if (role === "supply" || role === "tied-to-rail") {
    return side === "high"
      ? { cause: "It may not reach its rail.", step: "Check the joint and the track to the supply." }
      : {
          cause: "A short may load the rail.",
          step: "Measure the rail's resistance to ground before you apply power.",
        };
  }
  if (side === "high") {
    return extent.low === Number.POSITIVE_INFINITY
      ? {
          cause: "Its clamp or its joint is open.",
          step: `Check the joint, compare a sister ${word}, then replace.`,
        }
      : { cause: "Its clamp is likely open or damaged.", step: `Compare a sister ${word}, then replace.` };
  }
  // Where nobody has said what the pin is on, the drawing may yet have it on ground.
  const tied = place.net ? "" : ' If the board ties it to ground, write "tied to ground" in the note.';
  const tell = tellWhich(place);
  return extent.high <= GROUND_MAX
    ? { cause: `Shorted to ground, in the ${word} or along its net.`, step: `${tell}${tied}` }
    : { cause: `Leaking to ground, in the ${word} or along its net.`, step: tell };
}

export function whyUnjudged(place: TestPoint, ctx: LogContext): string {
  if (place.part?.device === undefined) return noDevice(place.ref, place.part !== undefined, ctx);
  if (!place.device) return `The library does not know ${place.part.device}.`;
  if (!place.pin) return "The pin is not known.";
  return `There is no usual window for this pin of a ${place.part.device}.`;
}

export function reads(reading: Reading, extent: Extent): string {
  if (reading.value.kind === "open") return "reads open";
  if (reading.value.kind === "short") return "reads a short";
  if (extent.low !== extent.high) return `reads ${reading.value.typed}`;
  return `reads ${formatValue(extent.low, "V")}`;
}
