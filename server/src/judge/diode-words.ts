// What the findings about a drop to ground say, and what they advise.

import type { Extent, Side } from "../compute/limits/compare";
import type { Reading } from "../log/model";
import { say } from "../quantity/say";
import type { LogContext } from "./context";
import { GROUND_MAX } from "./diode-window";
import type { PinRole } from "./pin-role";
import type { Place } from "./place";
import { noDevice } from "./whose-part";

export function advice(role: PinRole, side: Side | undefined, extent: Extent, net: Place["net"]): string {
  if (role === "ground" || role === "tied-to-ground") {
    return "The path to ground is open or resistive: check the pin's joint, the socket contact and the track before anything else.";
  }
  if (role === "supply" || role === "tied-to-rail") {
    return side === "high"
      ? "The pin may not reach its rail: check the joint and the track to the supply."
      : "The rail may be loaded by a short: measure the rail's resistance to ground before applying power.";
  }
  if (side === "high") {
    return extent.low === Number.POSITIVE_INFINITY
      ? `The pin's clamp or its joint is open: check the joint, compare a sister chip, then replace.`
      : `The pin's clamp is likely open or damaged: compare a sister chip, then replace.`;
  }
  // Where nobody has said what the pin is on, the drawing may yet have it on ground.
  const tied = net ? "" : ' If the board ties it to ground, say so in its note: "tied to ground".';
  return extent.high <= GROUND_MAX
    ? `The pin is shorted to ground, inside the chip or along its net: lift the pin or pull the chip to tell which.${tied}`
    : `The pin is leaking to ground, inside the chip or along its net: lift the pin or pull the chip to tell which.`;
}

export function whyUnjudged(place: Place, ctx: LogContext): string {
  if (place.part?.device === undefined) return noDevice(place.ref, place.part !== undefined, ctx);
  if (!place.device) return `The library does not know ${place.part.device}.`;
  if (!place.pin) return "The pin is not known.";
  return `There is no usual window for this pin of a ${place.part.device}.`;
}

export function reads(reading: Reading, extent: Extent): string {
  if (reading.value.kind === "open") return "reads open";
  if (reading.value.kind === "short") return "reads a short";
  if (extent.low !== extent.high) return `reads ${reading.value.typed}`;
  return `reads ${say(extent.low, "V")}`;
}
