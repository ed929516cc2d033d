// The window of a drop to ground that follows from what a pin is and from its family.

import { defined } from "../base/defined";
import type { PinRole } from "./pin-role";
import type { Place } from "./place";
import type { Reference } from "./types";
import { siValue } from "./uncertainty";

/** A pin on ground reads the leads and the track: common practice, no source. */
export const GROUND_MAX = 0.05;

/** "low-power Schottky TTL" inside a sentence; "CMOS" and the like stay as they are. */
export const inSentence = (title: string): string =>
  /^[A-Z][a-z]/.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title;

/** "an NMOS", "an advanced", "a 4000-series": by how the word is said. */
export const article = (word: string): string =>
  /^(?:[aeiou]|[FHLMNRSX][A-Z]{2}|[FHLMNRSX]-)/.test(word) ? "an" : "a";

/** The window of what a pin is, where its family has one. */
export function diodeReference(role: PinRole, place: Place): Reference | undefined {
  if (role === "ground" || role === "tied-to-ground") {
    return {
      kind: "physics",
      of: role === "ground" ? "a ground pin" : "a pin tied to ground",
      high: GROUND_MAX,
      unit: "V",
      source: "common practice, no source",
    };
  }
  const diode = place.family?.diode;
  if (!diode || role === "unknown" || role === "not-connected") return undefined;
  const window = role === "signal" ? diode.signal : diode.supply;
  if (!window) return undefined;
  const low = siValue(window[0], "V");
  const high = siValue(window[1], "V");
  const title = inSentence(place.family?.title ?? "logic");
  return defined({
    kind: "family",
    of:
      role === "signal"
        ? `${article(title)} ${title} pin's drop to ground`
        : role === "supply"
          ? `the supply pin's drop on a populated board (${title})`
          : `a pin tied to the ${railName(place)} rail`,
    aside: role === "tied-to-rail" ? "which reads as the rail does" : undefined,
    low,
    high,
    unit: "V",
    source: diode.source,
  });
}

export const railName = (place: Place): string =>
  place.tiedTo && place.tiedTo !== "ground" ? place.tiedTo.rail : "supply";
