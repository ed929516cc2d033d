// How likely a reading is at a pin, as a density over volts with a share of its own for an open reading. Every figure in
// here is common practice, no source: they tell explanations apart that lie far apart, and measure nothing.

import type { PinWindow } from "./types";

/** A natural logarithm of a density, and whether the reading is one that is to be expected. */
export interface ReadingFit {
  readonly log: number;
  readonly fits: boolean;
}

/** Above this no diode range shows a drop; volts. */
export const MOST_SHOWN = 3.3;
/** At or below this a pin is on ground; volts. */
export const ON_GROUND = 0.05;
/** How far outside its window a sound pin may still read; volts. */
const NEAR = 0.05;
/** How fast that gets unlikely; volts. */
const EDGE = 0.025;
/** No window is taken for narrower; volts. */
const LEAST_WIDTH = 0.05;
/** A pin that reads wrong for a reason of its own. */
const FAULT = 0.06;
/** An input that somebody tied to ground or to the supply without saying so. */
const TIED = 0.04;
/** A pin of a dead chip that blocks though others on its net conduct: its joint or contact is open besides. */
const OFF_NET = 0.3;
/** What no meter shows. */
const NEVER = 1e-6;

const inRange = (value: number): boolean => value >= 0 && value <= MOST_SHOWN;

/** A pin with a fault of its own: open, shorted, or anything between. */
export function anyReading(value: number): number {
  if (value === Number.POSITIVE_INFINITY) return 0.4;
  if (!inRange(value)) return NEVER;
  return value <= ON_GROUND ? 0.2 / ON_GROUND : 0.4 / (MOST_SHOWN - ON_GROUND);
}

const outsideBy = (value: number, { low, high }: PinWindow): number =>
  value < low ? low - value : value > high ? value - high : 0;

const GROUND: PinWindow = { low: 0, high: ON_GROUND, is: "ground" };

function inside(value: number, window: PinWindow): number {
  if (value === Number.POSITIVE_INFINITY) return window.high === value ? 0.3 : 0;
  const width = Math.max(LEAST_WIDTH, Math.min(window.high, MOST_SHOWN) - Math.max(window.low, 0));
  return Math.exp(-outsideBy(value, window) / EDGE) / width;
}

/** What is tied reads as what it is tied to, and not about so. */
const wholly = (value: number, window: PinWindow): number =>
  outsideBy(value, window) === 0 ? inside(value, window) : 0;

/**
 * A reading at a sound or single faulty pin.
 * @param supply the window of the chip's supply, for inputs that are tied to it
 */
export function pinFit(value: number, window: PinWindow | undefined, supply?: PinWindow): ReadingFit {
  if (!window)
    return { log: Math.log(anyReading(value)), fits: inRange(value) || value === Number.POSITIVE_INFINITY };
  const tied =
    window.is === "input" ? TIED * (wholly(value, GROUND) + (supply ? wholly(value, supply) : 0)) : 0;
  const density = (1 - FAULT) * inside(value, window) + tied + FAULT * anyReading(value);
  return { log: Math.log(density), fits: outsideBy(value, window) <= NEAR };
}

/** Nothing conducts: open, or a volt and more through what hangs about. */
export function nothingConducts(value: number): ReadingFit {
  const high = value === Number.POSITIVE_INFINITY ? 0.85 : value > 1 && inRange(value) ? 0.15 / 2.3 : 0;
  return { log: Math.log(0.97 * high + 0.03 * anyReading(value)), fits: high > 0 };
}

/** Against the direction in which a pin conducts: open, or two junctions in a row and more. */
export function against(value: number, window: PinWindow): ReadingFit {
  if (window.is === "ground") return pinFit(value, window);
  // From the supply it charges what hangs on the rail, and leads through all of that.
  const from = window.is === "supply" ? 0.1 : 0.9;
  const high = value === Number.POSITIVE_INFINITY ? 0.5 : value > from && inRange(value) ? 0.5 / 2.4 : 0;
  return { log: Math.log(0.95 * high + 0.05 * anyReading(value)), fits: high > 0 };
}

/** A pin of a chip that is dead, unfed or off its ground; its own supply and ground pins read what the board does. */
export function ofDeadChip(value: number, window: PinWindow, supply?: PinWindow): ReadingFit {
  if (window.is === "ground" || window.is === "supply") return pinFit(value, window, supply);
  const sound = pinFit(value, window, supply);
  const dead = value === Number.POSITIVE_INFINITY ? 0.55 : anyReading(value) * 0.75;
  const blocks = window.shared && value > window.high + NEAR;
  return { log: Math.log(0.9 * dead * (blocks ? OFF_NET : 1) + 0.1 * Math.exp(sound.log)), fits: true };
}

/** The same figure wherever the lead goes. */
export function sameAs(value: number, level: number): ReadingFit {
  const near = Math.abs(value - level) <= Math.max(0.02, 0.08 * level);
  return { log: Math.log((near ? 0.95 / 0.3 : 0) + 0.05 * anyReading(value)), fits: near };
}
