// Quantities written the way they are read on a bench: "580 mV", "4.7 kΩ", "1.42 V".
import type { Quantity } from "./quantity";
import { type Dimension, parseUnit } from "./units";

/** A dimension inside a sentence: `"4R7" is a resistance`. */
export const DIMENSION_NAMES: Readonly<Record<Dimension, string>> = {
  voltage: "a voltage",
  current: "a current",
  resistance: "a resistance",
  capacitance: "a capacitance",
  inductance: "an inductance",
  frequency: "a frequency",
  time: "a time",
  power: "a power",
  temperature: "a temperature",
  ratio: "a ratio",
  count: "a number without a unit",
};

export interface FormatOptions {
  /** Significant digits at most; trailing zeros are dropped. 4 where nothing is said. */
  readonly digits?: number;
  /** Keeps the decimals this step implies, base unit: 5 V at 0.1 is "5.0 V". Wins over `digits`. */
  readonly resolution?: number;
}

const STEPS: readonly [power: number, prefix: string][] = [
  [9, "G"],
  [6, "M"],
  [3, "k"],
  [0, ""],
  [-3, "m"],
  [-6, "µ"],
  [-9, "n"],
  [-12, "p"],
];

/**
 * Writes a value given in the base unit of `unitSymbol` ("V", "ohm", "%"). A unit that is not known is
 * printed as it stands. With a resolution no prefix is chosen that would print digits nobody typed:
 * 0.58 V read to 10 mV stays "0.58 V".
 */
export function formatQuantity(value: number, unitSymbol: string, options: FormatOptions = {}): string {
  const unit = parseUnit(unitSymbol)?.unit;
  const symbol = unit?.symbol ?? unitSymbol;
  if (Number.isNaN(value)) return join("not a number", symbol);
  if (!Number.isFinite(value)) return join(value > 0 ? "∞" : "-∞", symbol);
  if (!unit?.prefixable) {
    const power = unit?.exponent ?? 0;
    const raw = unit ? (value - unit.offset) / unit.factor : value;
    const step = options.resolution === undefined ? undefined : options.resolution / (unit?.factor ?? 1);
    return join(
      scaledText(raw, power, { ...options, ...(step === undefined ? {} : { resolution: step }) }),
      symbol,
    );
  }
  const [power, prefix] = pickStep(value, options, unit.dimension);
  return join(scaledText(value, power, options), prefix + symbol);
}

/** Writes a quantity with the resolution it was typed with. */
export const formatTyped = (q: Quantity): string =>
  formatQuantity(q.value, q.unit, { resolution: q.resolution });

const PLAIN = 3;
const MICRO = 5;

/**
 * Seconds do not become kiloseconds, which nobody reads, nor microfarads millifarads: the trade writes 4700 µF and
 * 22000 µF (common practice, no source), also where fewer digits were typed.
 */
function pickStep(
  value: number,
  options: FormatOptions,
  dimension: Dimension,
): readonly [power: number, prefix: string] {
  const step = options.resolution;
  // Zero has no size of its own; its resolution says in which prefix it was read.
  const fine = step !== undefined && step > 0 && (step < 1e-3 || step > 1);
  const size = value !== 0 ? Math.abs(value) : fine ? step * 999 : 0;
  if (size === 0) return STEPS[PLAIN]!;
  // Rounding first: 999.96 mV at four digits is 1 V, not 1000 mV.
  const rounded = Number(size.toPrecision(step === undefined ? clampDigits(options.digits) : 15));
  let index = STEPS.findIndex(([power]) => rounded >= Number(`1e${power}`));
  if (index < 0) index = STEPS.length - 1;
  if (step !== undefined && step > 0) {
    while (index > 0 && step > Number(`1.5e${STEPS[index]![0]}`)) index -= 1;
  }
  if (dimension === "time") return STEPS[Math.max(PLAIN, index)]!;
  if (dimension === "capacitance" && rounded < 1) return STEPS[Math.max(MICRO, index)]!;
  return STEPS[index]!;
}

/** value / 10^power as decimal text, without binary tails and without an exponent in ordinary sizes. */
function scaledText(value: number, power: number, options: FormatOptions): string {
  const { resolution } = options;
  if (resolution !== undefined && resolution > 0) {
    const places = Math.max(0, Math.min(15, power - Math.floor(Math.log10(resolution) + 1e-9)));
    return noMinusZero(shiftDecimal(value, -power).toFixed(places));
  }
  const rounded = Number(shiftDecimal(value, -power).toPrecision(clampDigits(options.digits)));
  return noMinusZero(String(rounded));
}

/** Moves the decimal point in decimal text, so that 0.58 becomes 580 and not 579.9999999999999. */
function shiftDecimal(value: number, by: number): number {
  const [mantissa = "0", exponent = "0"] = String(value).split("e");
  return Number(`${mantissa}e${Number(exponent) + by}`);
}

const noMinusZero = (text: string): string => (/^-0(?:\.0*)?$/.test(text) ? text.slice(1) : text);

const clampDigits = (digits: number | undefined): number =>
  Math.max(1, Math.min(15, Math.round(digits ?? 4) || 4));

/** A percent sign and a unit both stand off by a space (SI Brochure 9th edition, 5.4.3 and 5.4.7). */
const join = (number: string, symbol: string): string => (symbol === "" ? number : `${number} ${symbol}`);
