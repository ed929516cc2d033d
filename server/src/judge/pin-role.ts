// What a pin is to a reading of its drop to ground: what its device says of it, and what the board ties it to.

import type { TestPoint } from "./test-point";

export type PinRole =
  | "signal"
  | "ground"
  | "supply"
  | "not-connected"
  | "tied-to-ground"
  | "tied-to-rail"
  | "unknown";

/** A ground or supply pin is one by its device; any other is what the board ties it to, and then a signal. */
export function pinRole(place: TestPoint): PinRole {
  const direction = place.pin?.direction;
  if (direction === "ground") return "ground";
  if (direction === "supply") return "supply";
  if (direction === "not-connected") return place.tiedTo ? tied(place) : "not-connected";
  if (place.tiedTo) return tied(place);
  if (!place.pin || direction === "passive") return "unknown";
  return "signal";
}

export const tied = (place: TestPoint): PinRole =>
  place.tiedTo === "ground" ? "tied-to-ground" : "tied-to-rail";
