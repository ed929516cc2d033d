// One quantity as typed on the bench, turned into a number, a dimension and the resolution it was typed with.
import { defined } from "../base/defined";
import { type DecimalMark, readNumber } from "./number-text";
import {
  baseUnit,
  type Dimension,
  normaliseSymbols,
  parseUnit,
  prefixPower,
  type Qualifier,
  type ScaledUnit,
  type Unit,
} from "./units";

export type { DecimalMark } from "./number-text";
export type { Dimension, Qualifier } from "./units";

/** A number with its unit as somebody typed it: "580 mV" is 0.58 in volts, known to 0.001. */
export interface Quantity {
  /** In the base unit of the dimension: volts, ohms, seconds, degrees Celsius; a percentage as a ratio (0.05). */
  readonly value: number;
  readonly dimension: Dimension;
  /** Printed unit without a prefix: "V", "Ω", "%", "" for a plain number. */
  readonly unit: string;
  /** Value of one step of the last digit typed, base unit: "5.0 V" has 0.1, "580 mV" 0.001. */
  readonly resolution: number;
  /** Digits typed behind the decimal mark: 1 for "5.0 V". */
  readonly decimals: number;
  /** How an alternating quantity was read, where the unit said so: "40 mVpp". */
  readonly qualifier?: Qualifier;
  /** The text this was read from, trimmed. */
  readonly typed: string;
}

export interface QuantityOptions {
  /** Unit assumed where none is typed: "V", "mV". */
  readonly unit?: string;
  /** Dimension assumed where neither a unit is typed nor one given here. */
  readonly dimension?: Dimension;
  /** Which mark the log uses, where the caller knows; settles "1,500". */
  readonly decimalMark?: DecimalMark;
}

export type QuantityResult =
  | { readonly ok: true; readonly quantity: Quantity }
  | {
      readonly ok: false;
      /** What is wrong, quoting what was typed. */
      readonly message: string;
      /** Whole texts that would read, the likeliest first. */
      readonly suggestions: readonly string[];
    };

/** Longer than any reading; keeps a pasted paragraph from being searched for slips. */
const MAX_LENGTH = 60;

const NUMBER =
  /^([+-]?)\s?((?:\d|[.,](?=\d))(?:[\d.,]|['\u00a0\u2009\u202f](?=\d))*)(?:e([+-]?\d{1,3})(?!\d))?(.*)$/is;
/**
 * IEC 60062 letter as the decimal mark, with the trade's V for zeners: "4R7", "1k5", "5V1", "1Meg5". Without a
 * digit in front only the small letters and R count, so that "U14" stays a designator.
 */
const LETTER_CODE = /^([+-]?)\s?(?:(\d{1,4})(meg|MEG|Meg|[RrKkMGpnuUµmFV])|([Rpnuµm]))(\d{1,3})(?!\d)(.*)$/s;

/**
 * Reads one quantity. The unit typed wins over `options.unit`, which wins over `options.dimension`; a
 * quantity of another dimension than asked for still reads, because that is the caller's finding to make.
 * With no unit from anywhere a letter means what it means on a part (R, k, M, G ohms; p, n, µ, m farads)
 * and a bare number is a count. Never throws.
 */
export function parseQuantity(text: string, options: QuantityOptions = {}): QuantityResult {
  const typed = text.trim();
  if (typed === "") return fail("nothing is typed where a quantity belongs");
  if (typed.length > MAX_LENGTH) return fail(`"${typed.slice(0, 20)}…" is too long to be a quantity`);
  const plain = normaliseSymbols(typed);
  const letter = LETTER_CODE.exec(plain);
  if (letter) return fromLetterCode(typed, letter, options);
  const match = NUMBER.exec(plain);
  if (!match) return fail(`"${typed}" does not start with a number`);
  const [, sign = "", run = "", exponent, rest = ""] = match;
  const number = readNumber(run, options.decimalMark);
  if (!number.ok) {
    const after = plain.slice(plain.indexOf(run) + run.length);
    return fail(
      number.message,
      preferWhole(number.suggestions, rest, options).map((s) => sign + s + after),
    );
  }
  const scaled = unitFor(rest, options);
  if (!scaled) return fail(unknownUnit(typed, rest));
  return build(typed, sign, number.int, number.frac, Number(exponent ?? 0), scaled);
}

/** Thousands are at home in plain ohms, hertz and counts; elsewhere the decimal reading is the likelier. */
function preferWhole(
  suggestions: readonly string[],
  rest: string,
  options: QuantityOptions,
): readonly string[] {
  const scaled = unitFor(rest, options);
  const whole = scaled?.prefix === 0 && ["resistance", "frequency", "count"].includes(scaled.unit.dimension);
  return whole ? [...suggestions].reverse() : suggestions;
}

function fromLetterCode(typed: string, match: RegExpExecArray, options: QuantityOptions): QuantityResult {
  const [, sign = "", int = "", inner, leading, frac = "", rest = ""] = match;
  const letter = inner ?? leading ?? "";
  const after = rest.trim();
  const own = /^[rR]$/.test(letter) ? "Ω" : letter === "F" || letter === "V" ? letter : undefined;
  let scaled: ScaledUnit | undefined;
  if (own) {
    scaled = parseUnit(own);
    const said = after === "" ? scaled : parseUnit(after);
    if (said?.prefix !== 0 || said.unit !== scaled?.unit) return fail(unknownUnit(typed, rest));
    scaled = said;
  } else {
    const power = prefixPower(letter) ?? 0;
    if (after === "") scaled = scaleDefault(power, options);
    else {
      const said = parseUnit(after);
      if (said?.unit.prefixable && said.prefix === 0) scaled = { ...said, prefix: power };
    }
  }
  if (!scaled) return fail(unknownUnit(typed, rest));
  return build(typed, sign, int === "" ? "0" : int, frac, 0, scaled);
}

function unitFor(rest: string, options: QuantityOptions): ScaledUnit | undefined {
  const token = rest.trim();
  if (token === "") return defaultUnit(options) ?? { unit: baseUnit("count"), prefix: 0 };
  const power = prefixPower(token);
  return power === undefined ? parseUnit(token) : scaleDefault(power, options);
}

function defaultUnit(options: QuantityOptions): ScaledUnit | undefined {
  const given = options.unit === undefined ? undefined : parseUnit(options.unit);
  if (given) return given;
  return options.dimension === undefined ? undefined : { unit: baseUnit(options.dimension), prefix: 0 };
}

/** A prefix typed without a unit replaces the default's own: "580m" in a column of mV is 580 mV. */
function scaleDefault(power: number, options: QuantityOptions): ScaledUnit {
  const given = defaultUnit(options);
  if (given?.unit.prefixable) return { ...given, prefix: power };
  return { unit: baseUnit(power > 0 ? "resistance" : "capacitance"), prefix: power };
}

function build(
  typed: string,
  sign: string,
  int: string,
  frac: string,
  exponent: number,
  scaled: ScaledUnit,
): QuantityResult {
  const unit: Unit = scaled.unit;
  const power = exponent + scaled.prefix + unit.exponent;
  // Going through decimal text rounds once, so that 580 mV is 0.58 and not 0.5800000000000001.
  const size = Number(`${int}.${frac || "0"}e${power}`);
  if (!Number.isFinite(size)) return fail(`"${typed}" is too large to be a quantity`);
  if (size === 0 && /[1-9]/.test(int + frac)) return fail(`"${typed}" is too small to be a quantity`);
  // Number("-0") would compare unequal in tests and print a sign nobody measured.
  const signed = sign === "-" && size !== 0 ? -size : size;
  const quantity: Quantity = defined({
    value: unit.factor === 1 && unit.offset === 0 ? signed : signed * unit.factor + unit.offset,
    dimension: unit.dimension,
    unit: unit.dimension === "time" ? "s" : unit.dimension === "temperature" ? "°C" : unit.symbol,
    resolution: Number(`1e${power - frac.length}`) * unit.factor,
    decimals: frac.length,
    typed,
    qualifier: scaled.qualifier,
  });
  return { ok: true, quantity };
}

const unknownUnit = (typed: string, rest: string): string =>
  `"${typed}" is not one quantity: "${rest.trim()}" is not a unit`;

const fail = (message: string, suggestions: readonly string[] = []): QuantityResult => ({
  ok: false,
  message,
  suggestions,
});
