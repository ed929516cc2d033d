// Which one cause, if any, explains a chip's readings far better than the pins one by one do.

import { countsOf, truePin } from "./counts";
import {
  against,
  anyReading,
  atPin,
  type Fit,
  MOST_SHOWN,
  nothingConducts,
  ON_GROUND,
  ofDeadChip,
  sameAs,
} from "./likelihood";
import { rowMeant, shiftsOf } from "./shifts";
import type { Cause, ChipRows, Explanation, PinWindow } from "./types";

/** How often each is the reason, beforehand. Common practice, no source. */
const PRIOR = {
  open: 0.02,
  "lead-on-pin": 0.003,
  swapped: 0.02,
  shifted: 0.005,
  offset: 0.01,
  scale: 0.02,
  dead: 0.02,
} as const;

/** A cause is told only where it makes the readings so many times likelier, as a natural logarithm: 150 times. */
export const LEAST_MARGIN = 5;
/** From here on there is little doubt: 8,000 times. */
export const CLEAR_MARGIN = 9;

/** Fewer readings that are wrong as typed and right under the cause are told one by one. Common practice, no source. */
const LEAST_EXPLAINED: Readonly<Record<Cause["kind"], number>> = {
  open: 4,
  "lead-on-pin": 4,
  swapped: 4,
  counted: 2,
  shifted: 2,
  offset: 4,
  scale: 2,
  dead: 4,
};
/** Of readings that are right as typed and wrong under the cause, at most this share of those it explains. */
const MOST_SPOILT = 0.25;
/** Fewer readings have nothing in common that could be told. */
const LEAST_READ = 4;
/** A column of so many rows is no chip's. */
const MOST_ROWS = 80;

type Judge = (value: number, row: number) => Fit;

/**
 * The likeliest causes of a chip's readings, the likeliest first; none where its pins, taken one by one, explain them as
 * well. Two causes of the same margin stand in the order they are tried.
 */
export function explanationsOf(chip: ChipRows): Explanation[] {
  const read = chip.rows.flatMap(({ value }, row) => (value === undefined ? [] : [{ row, value }]));
  if (read.length < LEAST_READ || chip.rows.length > MOST_ROWS) return [];
  const supply = supplyOf(chip);
  const windows = chip.rows.map(({ pin }) => chip.windowOf(pin));
  const typed = read.map(({ row, value }) => asTyped(value, chip.rows[row]?.pin ?? 0, windows[row]));
  const fitsAsTyped = typed.filter(({ fits }) => fits).length;
  // One reading has no cause in common with others.
  if (read.length - fitsAsTyped < 2) return [];
  const found: Explanation[] = [];
  for (const { cause, prior, judge } of hypotheses(chip, supply, windows)) {
    let margin = Math.log(prior);
    const explains: number[] = [];
    const fitting: number[] = [];
    let spoilt = 0;
    read.forEach(({ row, value }, i) => {
      const as = typed[i] as Fit;
      const under = judge(value, row);
      margin += under.log - as.log;
      if (under.fits) fitting.push(row);
      if (under.fits && !as.fits) explains.push(row);
      if (!under.fits && as.fits) spoilt += 1;
    });
    if (margin < LEAST_MARGIN || explains.length < LEAST_EXPLAINED[cause.kind]) continue;
    if (spoilt > MOST_SPOILT * explains.length) continue;
    found.push({ cause, margin, explains, fitting, fitsAsTyped, of: read.length });
  }
  return found.sort((a, b) => b.margin - a.margin);

  function asTyped(value: number, pin: number, window: PinWindow | undefined): Fit {
    // No such pin: whatever stands there belongs elsewhere.
    if (pin > chip.pins) return { log: Math.log(1e-3 * anyReading(value)), fits: false };
    return atPin(value, window, supply);
  }
}

function supplyOf({ rows, windowOf }: ChipRows): PinWindow | undefined {
  for (const { pin } of rows) {
    const window = windowOf(pin);
    if (window?.is === "supply") return window;
  }
  return undefined;
}

interface Hypothesis {
  readonly cause: Cause;
  readonly prior: number;
  readonly judge: Judge;
}

function* hypotheses(
  chip: ChipRows,
  supply: PinWindow | undefined,
  windows: readonly (PinWindow | undefined)[],
): Iterable<Hypothesis> {
  const { rows, pins, windowOf } = chip;
  const at =
    (pin: number): Judge =>
    (value) =>
      atPin(value, pin > pins ? undefined : windowOf(pin), supply);
  const unknown: Judge = (value) => atPin(value, undefined);
  const windowed =
    (judge: (value: number, window: PinWindow) => Fit): Judge =>
    (value, row) => {
      const window = windows[row];
      return window ? judge(value, window) : unknown(value, row);
    };
  const values = rows.flatMap(({ value }, row) => (value === undefined ? [] : [{ value, row }]));
  const isOpen = (value: number): boolean => value === Number.POSITIVE_INFINITY;
  const powerOpen = values.filter(({ row, value }) => isPower(windows[row]) && isOpen(value)).length;
  const powerRead = values.filter(({ row }) => isPower(windows[row])).length;
  if (powerOpen === powerRead)
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
        row === only.row ? atPin(value, { low: 0, high: ON_GROUND, is: "ground" }) : against(value, OTHER),
    };

  yield {
    cause: { kind: "swapped", shows: "blocking" },
    prior: PRIOR.swapped,
    judge: windowed(against),
  };
  if (values.filter(({ value }) => value < 0).length >= LEAST_READ)
    yield {
      cause: { kind: "swapped", shows: "below-zero" },
      prior: PRIOR.swapped,
      judge: (value, row) => at(rows[row]?.pin ?? 0)(value < 0 ? -value : value, row),
    };

  const shifts = shiftsOf(rows);
  for (const shift of shifts)
    yield {
      cause: shift,
      prior: PRIOR.shifted,
      judge: (value, row) => at(rows[rowMeant(row, rows.length, shift)]?.pin ?? 0)(value, row),
    };
  const wrapped = shifts.some(({ wraps }) => wraps);
  for (const [by, prior] of countsOf(pins)) {
    // The same as a column that went round by one row.
    if (wrapped && by.way === "further-on" && (by.by === 1 || by.by === pins - 1)) continue;
    yield {
      cause: { kind: "counted", by },
      prior,
      judge: (value, row) => {
        const pin = rows[row]?.pin ?? 0;
        return pin > pins ? at(pin)(value, row) : at(truePin(pin, pins, by))(value, row);
      },
    };
  }

  const onGround = grounds.map(({ value }) => value).filter((value) => Number.isFinite(value));
  const by = Math.min(...onGround);
  if (onGround.length > 0 && by > ON_GROUND && by <= 1)
    yield {
      cause: { kind: "offset", by, flat: false },
      prior: PRIOR.offset,
      judge: windowed((value, window) => atPin(value - by, window, supply)),
    };
  const finite = values.map(({ value }) => value).filter((value) => value >= 0 && value <= MOST_SHOWN);
  const level = [...finite].sort((a, b) => a - b)[Math.floor(finite.length / 2)];
  if (level !== undefined)
    yield {
      cause: { kind: "offset", by: level, flat: true },
      prior: PRIOR.offset,
      judge: windowed((value) => sameAs(value, level)),
    };

  for (const factor of [0.001, 1000] as const) {
    const meant = (value: number): number =>
      (factor < 1 ? value > MOST_SHOWN : value > 0 && value < 0.0033) && !isOpen(value)
        ? value * factor
        : value;
    yield {
      cause: { kind: "scale", factor },
      prior: PRIOR.scale,
      judge: (value, row) => at(rows[row]?.pin ?? 0)(meant(value), row),
    };
  }

  yield {
    cause: { kind: "dead" },
    prior: PRIOR.dead,
    judge: windowed((value, window) => ofDeadChip(value, window, supply)),
  };
}

const OTHER: PinWindow = { low: 0.4, high: 0.8, is: "other" };

const isPower = (window: PinWindow | undefined): boolean =>
  window?.is === "ground" || window?.is === "supply";
