// How likely it is that a pin shows what it shows under power. Every figure in here is common practice, no source: they tell
// explanations apart that lie far apart, and measure nothing.

import type { ReadingFit } from "./likelihood";
import type { PinWindow, RowRead } from "./types";

/**
 * What a pin shows: a state, or what a standing voltage comes to. "zero" is nothing at all, "rail" what a supply of the chip
 * itself stands at, "below" less than nothing.
 */
export type Shown = "low" | "high" | "moving" | "nothing" | "between" | "below" | "zero" | "rail";

/** A row that was read under power. Its value is in volts, or not a number where a state was typed. */
export interface PoweredRow extends RowRead {
  readonly shown?: Shown;
}

/** What a pin ought to show. Of a supply pin the window is its rail's, in volts; unbounded where nobody says. */
export interface PoweredPin extends PinWindow {
  /** What its net shows at other chips. */
  readonly shows?: Shown;
}

type ByShown = Readonly<Record<Shown, number>>;

const GROUND: ByShown = {
  zero: 0.83,
  low: 0.15,
  nothing: 0.004,
  between: 0.008,
  high: 0.002,
  rail: 0.001,
  moving: 0.0005,
  below: 0.001,
};
/** What the pin of a supply above ground shows. Where nobody says how high it is, "rail" and "high" are one. */
const SUPPLY: ByShown = {
  rail: 0.88,
  high: 0.1,
  low: 0.004,
  zero: 0.004,
  nothing: 0.004,
  between: 0.005,
  moving: 0.001,
  below: 0.0005,
};
const NEGATIVE: ByShown = {
  below: 0.5,
  low: 0.12,
  zero: 0.12,
  nothing: 0.24,
  between: 0.01,
  high: 0.005,
  rail: 0.001,
  moving: 0.001,
};
/** Typed as states, and read with a meter, which shows a mean of what moves. */
const SIGNAL = {
  states: {
    low: 0.3,
    high: 0.3,
    moving: 0.3,
    nothing: 0.05,
    between: 0.048,
    below: 0.002,
    zero: 0.3,
    rail: 0.3,
  },
  volts: {
    zero: 0.1,
    low: 0.22,
    between: 0.25,
    high: 0.3,
    rail: 0.08,
    moving: 0.04,
    nothing: 0.005,
    below: 0.002,
  },
} as const satisfies Readonly<Record<string, ByShown>>;
/** What is read at one place of a net and not at another. */
const APART = 0.04;
/** Above this no logic line stands; volts. */
export const MOST_VOLTS = 40;

/** What a row shows at a pin, and whether it is to be expected. */
export function shownAt({ shown, value }: PoweredRow, pin: PoweredPin | undefined): ReadingFit {
  if (shown === undefined || value === undefined) return { log: 0, fits: true };
  if (value > MOST_VOLTS && !(pin?.is === "supply" && value <= pin.high)) return { log: -12, fits: false };
  const signal = SIGNAL[Number.isNaN(value) ? "states" : "volts"];
  if (!pin) return { log: Math.log(signal[shown]), fits: !isOff(shown, value) };
  if (pin.is === "ground") {
    const isLow = shown === "zero" || shown === "low";
    const log = Number.isNaN(value) && isLow ? Math.log(0.98) : Math.log(GROUND[shown]);
    return { log, fits: isLow && !isOff(shown, value) };
  }
  if (pin.is === "supply") return ofSupply(shown, value, pin);
  if (pin.shows === undefined) return { log: Math.log(signal[shown]), fits: !isOff(shown, value) };
  // What moves may be read at a quiet moment, and may show a meter anything between.
  const [there, here] = [plain(pin.shows), plain(shown)];
  const mayFit = there === "moving" || here === "moving" || here === "between";
  const log = there === here ? Math.log(0.85) : Math.log(mayFit ? 2 * APART : APART / 2);
  return { log, fits: there === here };
}

/** As a state is told. */
const plain = (shown: Shown): Shown => (shown === "zero" ? "low" : shown === "rail" ? "high" : shown);

/** What no pin of a sound chip shows for long: nothing at all, or less. */
const isOff = (shown: Shown, value: number): boolean => shown === "nothing" || value < LEAST_VOLTS;

function ofSupply(shown: Shown, value: number, { low, high }: PoweredPin): ReadingFit {
  const isState = Number.isNaN(value);
  if (high <= 0) {
    const fits = isState ? shown !== "high" && shown !== "moving" : value >= low && value <= high;
    return { log: Math.log(!isState && fits ? 0.98 : NEGATIVE[shown]), fits };
  }
  const isHigh = shown === "high" || shown === "rail";
  const fits = isHigh && (isState || (value >= low && value <= high));
  const isWhole = isState || !Number.isFinite(high);
  return {
    log: Math.log(isHigh && isWhole ? 0.98 : fits ? SUPPLY[shown] : isHigh ? 0.004 : SUPPLY[shown]),
    fits,
  };
}

/** How far from the middle of a rail's window a pin on it reads, as a share. */
const ON_RAIL = 0.03;

/** The row with its value told as the rail's where it is one. */
export const besideRails = (row: PoweredRow, rails: readonly PoweredPin[]): PoweredRow => {
  const { value, shown } = row;
  const isOnRail = ({ low, high }: PoweredPin): boolean =>
    Math.abs((value ?? 0) - (low + high) / 2) <= (ON_RAIL * (low + high)) / 2;
  return shown === "high" && value !== undefined && rails.some(isOnRail) ? { ...row, shown: "rail" } : row;
};

/** Read with the leads the other way round. */
export const turned = (row: PoweredRow): PoweredRow =>
  row.value === undefined || Number.isNaN(row.value) ? row : asVolts(row, -row.value);

/** The row with another value. */
export const asVolts = (row: PoweredRow, value: number): PoweredRow =>
  row.shown === undefined || Number.isNaN(value) ? row : { ...row, value, shown: shownAtVolts(value) };

/** Below this a meter's zero no longer accounts for a sign; volts. */
const LEAST_VOLTS = -0.02;
/** Volts up to which a pin is surely low, and from which on it is surely high; a driver or a moving line lies between. */
const LOW = 0.6;
const HIGH = 2.4;
const BELOW = -0.3;
const ZERO = 0.03;

/** What a standing voltage shows. */
export const shownAtVolts = (volts: number): Shown =>
  volts < BELOW
    ? "below"
    : Math.abs(volts) <= ZERO
      ? "zero"
      : volts <= LOW
        ? "low"
        : volts >= HIGH
          ? "high"
          : "between";
