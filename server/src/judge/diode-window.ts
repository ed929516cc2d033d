// The window of a drop to ground that follows from what a pin is and from its family.

import { defined } from "../base/defined";
import type { Device, DevicePin } from "../knowledge/types";
import type { PinRole } from "./pin-role";
import { signalOf } from "./pin-signal";
import { isNegativeSupply, supplyWindow } from "./supply-window";
import type { TestPoint } from "./test-point";
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
export function diodeReference(role: PinRole, place: TestPoint): Reference | undefined {
  if (role === "ground" || role === "tied-to-ground") {
    return {
      kind: "physics",
      of: role === "ground" ? "a ground pin" : "a pin tied to ground",
      high: GROUND_MAX,
      unit: "V",
      source: "common practice, no source",
    };
  }
  if (role === "supply" || role === "tied-to-rail") {
    const other = otherRail(place);
    if (other !== undefined) return other;
  }
  if (role === "signal" && place.device && place.pin && isLinear(place.device, place.pin)) return undefined;
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

/** A pin below this reads as a short to ground, volts: common practice, no source. */
export const SHORT_BELOW = 0.05;
/** Rails on which nearly all of a board's logic stands, volts: what such a rail drops is known, and so is an open path. */
const LOGIC_RAIL = [2, 6] as const;
/** A part made for more than this is no logic, volts: 4000-series CMOS ends at 18 V. */
const MOST_LOGIC = 18;

/**
 * A supply that is no logic rail: one below ground turns the chips on it backwards and reads open on a sound board, and what
 * else hangs on the others nobody knows. Only a short disproves anything there. Undefined for a logic rail.
 */
function otherRail(place: TestPoint): Reference | undefined {
  const { device, pin, family, tiedTo } = place;
  const volts = typeof tiedTo === "object" ? tiedTo.volts : undefined;
  const isSupply = device && pin?.direction === "supply";
  const window = isSupply ? supplyWindow(pin, device, family) : undefined;
  const isLogic =
    volts !== undefined
      ? volts >= LOGIC_RAIL[0] && volts <= LOGIC_RAIL[1]
      : window
        ? window.low >= 0 && window.low <= LOGIC_RAIL[1] && window.high <= MOST_LOGIC
        : !(isSupply && (device.kind === "analog" || isNegativeSupply(pin, device, family)));
  if (isLogic && device?.kind !== "analog") return undefined;
  const name =
    typeof tiedTo === "object" ? `the ${tiedTo.rail} rail` : `the supply ${pin?.name ?? ""}`.trim();
  return {
    kind: "physics",
    of: `a pin on ${name} that is not shorted`,
    low: SHORT_BELOW,
    unit: "V",
    source: "common practice, no source",
  };
}

/** Amplifiers, comparators' inputs, serial lines: their pins drop what their circuit makes of it. */
export const isLinear = (device: Device, pin: DevicePin): boolean => {
  const signal = signalOf(device, pin);
  return signal === "line" || (device.kind === "analog" && signal !== "logic");
};

/** What disproves a linear part's pin: a plain short, which an input may also be tied to. */
export function linearReference({ device, pin }: TestPoint): Reference | undefined {
  if (!device || !pin || pin.direction === "passive" || !isLinear(device, pin)) return undefined;
  return {
    kind: "physics",
    of: "a linear part's pin that is not shorted",
    low: SHORT_BELOW,
    unit: "V",
    source: "common practice, no source",
  };
}

export const railName = (place: TestPoint): string =>
  place.tiedTo && place.tiedTo !== "ground" ? place.tiedTo.rail : "supply";
