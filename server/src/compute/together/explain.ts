// Which one cause, if any, explains a chip's readings far better than the pins one by one do.

import { hypotheses, isPower, LEAST_READ, noSuchPin } from "./hypotheses";
import { pinFit, type ReadingFit } from "./likelihood";
import type { Cause, CauseExplanation, ChipRows, PinWindow } from "./types";

/** A cause is told only where it makes the readings so many times likelier, as a natural logarithm: 100 times. */
export const LEAST_MARGIN = 4.6;
/** From here on there is little doubt: 1,000 times. */
export const CLEAR_MARGIN = 6.9;

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
/** Of all readings, at least this share has to fit. */
const LEAST_FITTING = 0.75;
/** A column of so many rows is no chip's. */
const MOST_ROWS = 80;

/**
 * The likeliest causes of a chip's readings, the likeliest first; none where its pins, taken one by one, explain them as
 * well. Two causes of the same margin stand in the order they are tried.
 */
export function explanationsOf(chip: ChipRows): CauseExplanation[] {
  const read = chip.rows.flatMap(({ value }, row) => (value === undefined ? [] : [{ row, value }]));
  if (read.length < LEAST_READ || chip.rows.length > MOST_ROWS) return [];
  const supply = supplyOf(chip);
  const windows = chip.rows.map(({ pin }) => chip.windowOf(pin));
  const typed = read.map(({ row, value }) => asTyped(value, chip.rows[row]?.pin ?? 0, windows[row]));
  const fitsAsTyped = typed.filter(({ fits }) => fits).length;
  // One reading has no cause in common with others.
  if (read.length - fitsAsTyped < 2) return [];
  const found: CauseExplanation[] = [];
  const spreadAsTyped = spreadOfAlike(read, (row) => windows[row]);
  for (const { cause, prior, judge, pinAt } of hypotheses(chip, supply, windows)) {
    let margin = Math.log(prior);
    if (pinAt) {
      const spread = spreadOfAlike(read, (row) => chip.windowOf(pinAt(row)));
      const closer = Math.max(0, read.length * Math.log(spreadAsTyped / spread));
      margin += MOST_BY_SPREAD * (1 - Math.exp(-closer / 10));
    }
    const explains: number[] = [];
    const fitting: number[] = [];
    let spoilt = 0;
    read.forEach(({ row, value }, i) => {
      const as = typed[i] as ReadingFit;
      const under = judge(value, row);
      margin += under.log - as.log;
      if (under.fits) fitting.push(row);
      if (under.fits && !as.fits) explains.push(row);
      if (!under.fits && as.fits) spoilt += 1;
    });
    if (margin < LEAST_MARGIN || explains.length < LEAST_EXPLAINED[cause.kind]) continue;
    if (spoilt > MOST_SPOILT * explains.length || fitting.length < LEAST_FITTING * read.length) continue;
    // Signal pins read alike wherever they are: only what reads as ground or as the supply shows where pins went.
    // So does that many pins are open where others conduct.
    const open = explains.filter((row) => chip.rows[row]?.value === Number.POSITIVE_INFINITY).length;
    const isOfBoth = Math.min(open, explains.length - open) >= LEAST_READ;
    if (pinAt && !isOfBoth && !explains.some((row) => isPower(chip.windowOf(pinAt(row))))) continue;
    found.push({ cause, margin, explains, fitting, fitsAsTyped, of: read.length });
  }
  return found.sort((a, b) => b.margin - a.margin);

  function asTyped(value: number, pin: number, window: PinWindow | undefined): ReadingFit {
    return pin > chip.pins ? noSuchPin(value) : pinFit(value, window, supply);
  }
}

function supplyOf({ rows, windowOf }: ChipRows): PinWindow | undefined {
  for (const { pin } of rows) {
    const window = windowOf(pin);
    if (window?.is === "supply") return window;
  }
  return undefined;
}

/**
 * How far readings of like pins lie apart, in volts: inputs of one chip read nearly alike, and so do its outputs. Where
 * pins were counted wrong the two mix.
 */
function spreadOfAlike(
  read: readonly { readonly row: number; readonly value: number }[],
  windowAt: (row: number) => PinWindow | undefined,
): number {
  let squares = 0;
  let count = 0;
  for (const is of ["input", "other"] as const) {
    const group = read.filter(({ row, value }) => windowAt(row)?.is === is && value > 0.25 && value < 1);
    const mean = group.reduce((sum, { value }) => sum + value, 0) / Math.max(1, group.length);
    squares += group.reduce((sum, { value }) => sum + (value - mean) ** 2, 0);
    count += group.length;
  }
  return Math.max(LEAST_SPREAD, Math.sqrt(squares / Math.max(1, count)));
}

/** Sound pins of a kind lie no closer; volts. Common practice, no source. */
const LEAST_SPREAD = 0.005;
/** Like pins may differ for many reasons, so that they only tip the balance. */
const MOST_BY_SPREAD = 4;
