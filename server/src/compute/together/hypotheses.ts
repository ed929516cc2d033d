// What may have gone wrong with all readings of a chip at once, each with its odds and with how readings look under it.

import { besideBlanks, COUNTS_IN_LINE, countsOf, isPowerTurned, truePin } from "./counts";
import {
  against,
  anyReading,
  MOST_SHOWN,
  nothingConducts,
  ON_GROUND,
  ofDeadChip,
  pinFit,
  type ReadingFit,
  sameAs,
} from "./likelihood";
import { rowMeant, shiftsOf } from "./shifts";
import type { Cause, ChipRows, PinWindow } from "./types";

/** What is left of the odds that leads were swapped where no ground pin was read. */
const UNREAD_GROUND = 0.01;

/** How often each is the reason, beforehand. Common practice, no source. */
const PRIOR = {
  open: 0.02,
  "lead-on-pin": 0.003,
  swapped: 0.02,
  shifted: 0.01,
  offset: 0.01,
  scale: 0.02,
  dead: 0.02,
} as const;

/** How a chip was counted shows only where at least this share of its pins was read. */
const LEAST_OF_PINS = 0.6;
/** Fewer readings have nothing in common that could be told. */
export const LEAST_READ = 4;

/** A pin read twice, at each of the places where that may have been, against one that was left out. */
const READ_TWICE = 0.1;

type Judge = (value: number, row: number) => ReadingFit;

/** Beyond the package: a slip in the pin's number, or what stands there belongs elsewhere. */
export const noSuchPin = (value: number): ReadingFit => ({
  log: Math.log(1e-3 * anyReading(value)),
  fits: false,
});

export interface Hypothesis {
  readonly cause: Cause;
  readonly prior: number;
  readonly judge: Judge;
  /** The pin that what stands in a row is of, for causes that change it. */
  readonly pinAt?: (row: number) => number;
}

/** All of them, in the order in which the likelier of two equal ones comes first. */
export function* hypotheses(
  chip: ChipRows,
  supply: PinWindow | undefined,
  windows: readonly (PinWindow | undefined)[],
): Iterable<Hypothesis> {
  const { rows, pins, windowOf } = chip;
  const at =
    (pin: number): Judge =>
    (value) =>
      pin > pins ? noSuchPin(value) : pinFit(value, windowOf(pin), supply);
  const unknown: Judge = (value) => pinFit(value, undefined);
  const windowed =
    (judge: (value: number, window: PinWindow) => ReadingFit): Judge =>
    (value, row) => {
      const window = windows[row];
      return window ? judge(value, window) : unknown(value, row);
    };
  const values = rows.flatMap(({ value }, row) => (value === undefined ? [] : [{ value, row }]));
  const isOpen = (value: number): boolean => value === Number.POSITIVE_INFINITY;
  const power = values.filter(({ row }) => isPower(windows[row]));
  if (power.every(({ value }) => nothingConducts(value).fits))
    yield { cause: { kind: "open" }, prior: PRIOR.open, judge: windowed((value) => nothingConducts(value)) };

  // One pin reads as ground does, the chip's ground does not, and nothing else conducts.
  const grounds = values.filter(({ row }) => windows[row]?.is === "ground");
  const low = values.filter(({ value }) => value >= 0 && value <= ON_GROUND);
  const [only] = low;
  if (only && low.length === 1 && grounds.length > 0 && windows[only.row]?.is !== "ground")
    yield {
      cause: { kind: "lead-on-pin", pin: rows[only.row]?.pin ?? 0 },
      prior: PRIOR["lead-on-pin"],
      judge: (value, row) =>
        row === only.row ? pinFit(value, { low: 0, high: ON_GROUND, is: "ground" }) : against(value, OTHER),
    };

  // Ground is ground whichever lead is on it.
  if (grounds.length === 0 || !grounds.every(({ value }) => nothingConducts(value).fits))
    yield {
      cause: { kind: "swapped", shows: "blocking" },
      // Where it was not read, all pins open are as well those of a chip that is off its ground.
      prior: grounds.length === 0 ? PRIOR.swapped * UNREAD_GROUND : PRIOR.swapped,
      judge: windowed(against),
    };
  if (values.filter(({ value }) => value < 0).length >= LEAST_READ)
    yield {
      cause: { kind: "swapped", shows: "below-zero" },
      prior: PRIOR.swapped,
      judge: (value, row) => at(rows[row]?.pin ?? 0)(value < 0 ? -value : value, row),
    };

  const shifts = shiftsOf(rows);
  for (const shift of shifts) {
    const pinAt = (row: number): number => rows[rowMeant(row, rows.length, shift)]?.pin ?? 0;
    yield {
      cause: shift,
      // A column that begins with the last pin is rarer than one that a pin was left out of.
      prior: PRIOR.shifted * (shift.wraps ? 0.5 : isTwice(shift) ? READ_TWICE : 1),
      judge: (value, row) => at(pinAt(row))(value, row),
      pinAt,
    };
  }
  const wrapped = shifts.some(({ wraps }) => wraps);
  function isTwice({ first, by }: (typeof shifts)[number]): boolean {
    return by === -1 && !rows[first - 1]?.blank;
  }
  const ground = Array.from({ length: pins }, (_, i) => i + 1).find((pin) => windowOf(pin)?.is === "ground");
  const beside = besideBlanks(rows, values.length);
  const valueAt = new Map(values.map(({ row, value }) => [row, value]));
  const isTurned = isPowerTurned(
    [...valueAt.keys()],
    windows,
    (row) => (valueAt.get(row) ?? 0) > TURNED && Number.isFinite(valueAt.get(row)),
    (row) => (valueAt.get(row) ?? -1) >= 0 && (valueAt.get(row) ?? -1) <= ON_GROUND,
  );
  if (values.length >= LEAST_OF_PINS * pins || isTurned)
    for (const [by, count] of chip.inLine ? COUNTS_IN_LINE : countsOf(pins, ground)) {
      // The same as a column that went round by one row.
      if (wrapped && by.way === "further-on" && (by.by === 1 || by.by === pins - 1)) continue;
      const prior = count * beside;
      const pinAt = (row: number): number => {
        const pin = rows[row]?.pin ?? 0;
        return pin > pins ? pin : truePin(pin, pins, by);
      };
      yield {
        cause: { kind: "counted", by },
        prior,
        judge: (value, row) => at(pinAt(row))(value, row),
        pinAt,
      };
    }

  if (chip.inLine) return;

  const onGround = grounds.map(({ value }) => value).filter((value) => Number.isFinite(value));
  const by = Math.min(...onGround);
  if (onGround.length > 0 && by > ON_GROUND && by <= 1)
    yield {
      cause: { kind: "offset", by, flat: false },
      prior: PRIOR.offset,
      judge: windowed((value, window) => pinFit(value - by, window, supply)),
    };
  const finite = values.map(({ value }) => value).filter((value) => value >= 0 && value <= MOST_SHOWN);
  const level = [...finite].sort((a, b) => a - b)[Math.floor(finite.length / 2)];
  // A pin that is on ground or on the supply as it should be is no part of one figure everywhere.
  const isFlat =
    level !== undefined &&
    values.every(({ value, row }) => {
      const window = windows[row];
      return !isPower(window) || !window || !pinFit(value, window).fits || sameAs(value, level).fits;
    });
  if (isFlat)
    yield {
      cause: { kind: "offset", by: level, flat: true },
      prior: PRIOR.offset,
      judge: windowed((value) => sameAs(value, level)),
    };

  for (const factor of [0.001, 1000] as const) {
    const isBeyond = (value: number): boolean =>
      !isOpen(value) && (factor < 1 ? value > MOST_SHOWN : value > 0 && value < 0.0033);
    // Among them, what could be either: a "1" that is 1 mV on a ground pin.
    const mayBe = (value: number): boolean => factor < 1 && value >= 1 && value <= MOST_SHOWN;
    yield {
      cause: { kind: "scale", factor },
      prior: PRIOR.scale,
      judge: (value, row) => {
        const judge = at(rows[row]?.pin ?? 0);
        if (isBeyond(value)) return judge(value * factor, row);
        const asIs = judge(value, row);
        const scaled = mayBe(value) ? judge(value * factor, row) : asIs;
        return scaled.log > asIs.log ? scaled : asIs;
      },
    };
  }

  yield {
    cause: { kind: "dead" },
    prior: PRIOR.dead,
    judge: windowed((value, window) => ofDeadChip(value, window, supply)),
  };
}

/** Volts that no ground reads. */
const TURNED = 0.2;

const OTHER: PinWindow = { low: 0.4, high: 0.8, is: "other" };

export const isPower = (window: PinWindow | undefined): boolean =>
  window?.is === "ground" || window?.is === "supply";
