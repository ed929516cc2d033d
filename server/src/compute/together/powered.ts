// Which one cause explains what a chip's pins show under power far better than the pins one by one do: a probe without
// its ground, swapped leads, pins counted another way, a column that slid, another unit. Every figure in here is common
// practice, no source: they tell explanations apart that lie far apart, and measure nothing.

import { besideBlanks, COUNTS_IN_LINE, countsOf, isPowerTurned, truePin } from "./counts";
import { LEAST_MARGIN } from "./explain";
import type { ReadingFit } from "./likelihood";
import {
  asVolts,
  besideRails,
  MOST_VOLTS,
  type PoweredPin,
  type PoweredRow,
  type Shown,
  shownAt,
  turned,
} from "./powered-likelihood";
import { hasGaps, rowMeant, shiftsOf } from "./shifts";
import type { Cause, CauseExplanation } from "./types";

export interface PoweredChip {
  readonly rows: readonly PoweredRow[];
  /** Pins of its package. */
  readonly pins: number;
  /** A header or a network, whose pins stand in line. */
  readonly inLine?: true;
  /** Undefined for pins that the package does not have, and for those of which nothing can be said. */
  readonly windowOf: (pin: number) => PoweredPin | undefined;
}

const PRIOR = { open: 0.02, swapped: 0.02, shifted: 0.01, scale: 0.02 } as const;
/** A pin read twice, or the column one round, against one that was left out. */
const READ_TWICE = 0.1;
const WENT_ROUND = 0.5;
/** Pins were passed over on the way, so that the next row is not the next pin. */
const WITH_GAPS = 0.3;
/** One that left a ground or a supply pin without a reading. */
const LEFT_OUT = 3;
/** Fewer readings have nothing in common. */
const LEAST_READ = 4;
const LEAST_EXPLAINED = { open: 4, swapped: 2, counted: 2, shifted: 1, scale: 2 } as const;
const MOST_SPOILT = 0.25;
const LEAST_FITTING = 0.75;
const LEAST_OF_PINS = 0.6;
const MOST_ROWS = 80;
/** Signal pins that must come right where neither ground nor supply does. */
const LEAST_SIGNALS = 4;

/**
 * The likeliest causes of what a chip's pins show under power, the likeliest first; none where its pins, taken one by
 * one, explain it as well.
 */
export function poweredExplanations(chip: PoweredChip): CauseExplanation[] {
  if (chip.rows.length > MOST_ROWS) return [];
  const rails = railsOf(chip);
  const rows = chip.rows.map((row) => besideRails(row, rails));
  const read = rows.flatMap((row, at) => (row.shown === undefined ? [] : [{ row, at }]));
  if (read.length < LEAST_READ) return [];
  const windows = rows.map(({ pin }) => chip.windowOf(pin));
  const typed = read.map(({ row, at }) => shownAt(row, windows[at]));
  const fitsAsTyped = typed.filter(({ fits }) => fits).length;
  if (read.length === fitsAsTyped) return [];
  const found: CauseExplanation[] = [];
  for (const { cause, prior, judge, pinAt } of hypotheses({ ...chip, rows }, read.length, windows, rails)) {
    let margin = Math.log(prior);
    let spoilt = 0;
    const explains: number[] = [];
    const fitting: number[] = [];
    read.forEach(({ row, at }, i) => {
      const as = typed[i] as ReadingFit;
      const under = judge(row, at);
      margin += under.log - as.log;
      if (under.fits) fitting.push(at);
      if (under.fits && !as.fits) explains.push(at);
      if (!under.fits && as.fits) spoilt += 1;
    });
    if (margin < LEAST_MARGIN || explains.length < LEAST_EXPLAINED[cause.kind]) continue;
    if (spoilt > MOST_SPOILT * explains.length || fitting.length < LEAST_FITTING * read.length) continue;
    // Where pins went is told by ground and supply, or by many lines of the board.
    const isOfPower = (at: number): boolean =>
      isPower(windows[at]) || isPower(chip.windowOf(pinAt?.(at) ?? 0));
    if (pinAt && !explains.some(isOfPower) && explains.length < LEAST_SIGNALS) continue;
    found.push({ cause, margin, explains, fitting, fitsAsTyped, of: read.length });
  }
  return found.sort((a, b) => b.margin - a.margin);
}

interface Hypothesis {
  readonly cause: Extract<Cause, { kind: keyof typeof LEAST_EXPLAINED }>;
  readonly prior: number;
  readonly judge: (row: PoweredRow, at: number) => ReadingFit;
  /** The pin that what stands in a row is of, for causes that change it. */
  readonly pinAt?: (at: number) => number;
}

function* hypotheses(
  chip: PoweredChip,
  read: number,
  windows: readonly (PoweredPin | undefined)[],
  rails: readonly PoweredPin[],
): Iterable<Hypothesis> {
  const { rows, pins, windowOf } = chip;
  const power = rows.filter(({ shown }, at) => shown !== undefined && isPower(windows[at]));
  const isNothing = power.length > 0 && power.every(({ shown }) => shown === "nothing");
  const areStates = rows.every(({ value }) => value === undefined || Number.isNaN(value));
  // A meter that shows nothing anywhere may be on a board without power; a probe that does is without its own.
  if (areStates && isNothing)
    yield { cause: { kind: "open" }, prior: PRIOR.open, judge: ({ shown }) => withoutGround(shown) };
  if (rows.some(({ shown }) => shown === "below"))
    yield {
      cause: { kind: "swapped", shows: "below-zero" },
      prior: PRIOR.swapped,
      judge: (row, at) => shownAt(besideRails(turned(row), rails), windows[at]),
    };
  if (rows.some(({ value }) => value !== undefined && value > MOST_VOLTS))
    yield {
      cause: { kind: "scale", factor: 0.001 },
      prior: PRIOR.scale,
      judge: (row, at) => shownAt(besideRails(asVolts(row, (row.value ?? 0) * 0.001), rails), windows[at]),
    };
  const shifts = shiftsOf(rows, true);
  for (const shift of shifts) {
    const pinAt = (at: number): number => rows[rowMeant(at, rows.length, shift)]?.pin ?? 0;
    const isTwice = shift.by === -1 && !shift.wraps && !rows[shift.first - 1]?.blank;
    yield {
      cause: shift,
      prior:
        PRIOR.shifted *
        (hasGaps(rows, shift) ? WITH_GAPS : 1) *
        (shift.wraps ? WENT_ROUND : isTwice ? READ_TWICE : isPowerLeftOut(shift) ? LEFT_OUT : 1),
      judge: (row, at) => shownAt(row, windowOf(pinAt(at))),
      pinAt,
    };
  }
  /** The row that it slid away from is of ground or supply, which nobody leaves out. */
  function isPowerLeftOut({ first, last, by }: (typeof shifts)[number]): boolean {
    return isPower(windows[by === 1 ? last + 1 : first - 1]);
  }
  const shows = (row: number, ...wanted: readonly Shown[]): boolean =>
    wanted.some((one) => one === rows[row]?.shown);
  const isTurned = isPowerTurned(
    rows.flatMap(({ shown }, row) => (shown === undefined ? [] : row)),
    windows,
    (row) => shows(row, "rail", "high"),
    (row) => shows(row, "zero", "low"),
  );
  if (read < LEAST_OF_PINS * pins && !isTurned) return;
  const wrapped = shifts.some(({ wraps }) => wraps);
  const ground = Array.from({ length: pins }, (_, i) => i + 1).find((pin) => windowOf(pin)?.is === "ground");
  const beside = besideBlanks(rows, read);
  for (const [by, count] of chip.inLine ? COUNTS_IN_LINE : countsOf(pins, ground)) {
    // The same as a column that went round by one row.
    if (wrapped && by.way === "further-on" && (by.by === 1 || by.by === pins - 1)) continue;
    const pinAt = (at: number): number => {
      const pin = rows[at]?.pin ?? 0;
      return pin > pins ? pin : truePin(pin, pins, by);
    };
    yield {
      cause: { kind: "counted", by },
      prior: count * beside,
      judge: (row, at) => shownAt(row, windowOf(pinAt(at))),
      pinAt,
    };
  }
}

/** The supplies above ground that the chip's own pins are on, as far as their voltage is known. */
function railsOf({ pins, windowOf }: PoweredChip): PoweredPin[] {
  return Array.from({ length: pins }, (_, i) => windowOf(i + 1)).filter(
    (pin): pin is PoweredPin => pin?.is === "supply" && pin.low > 0 && Number.isFinite(pin.high),
  );
}

const isPower = (pin: PoweredPin | undefined): boolean => pin?.is === "ground" || pin?.is === "supply";

const withoutGround = (shown: Shown | undefined): ReadingFit =>
  shown === "nothing" ? { log: Math.log(0.95), fits: true } : { log: Math.log(0.01), fits: false };
