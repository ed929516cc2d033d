// A run of keys typed without a look at the screen: where a reading of the diode range in it is over. No reading that is over
// is the beginning of another, so a run is cut in one way only, however late it is looked at.
import { type WholeDigits, wholeReading } from "./whole-digits";

/** Digits of a reading without its point: one before the point, three behind it. */
const DIGITS = 4;
/** As a meter shows it, with all its decimals. */
const POINTED = /^\d?[.,]\d{3}$/;
const OVERLOAD = /^OL$/i;

/**
 * How many characters at the beginning of a run are a reading that nothing typed behind them could belong to: "558" of
 * "558573", since 5.585 V is beyond the meter. Undefined while the first reading may go on, and where none begins the run.
 */
export function readingLength(run: string, digits: WholeDigits): number | undefined {
  for (let length = 1; length <= run.length; length += 1) {
    const typed = run.slice(0, length);
    const behind = run.slice(0, length + 1);
    if (isOver(typed, digits)) return length;
    // "300" may be 0.300 or the beginning of 3.000; the next digit tells.
    const isCut = /^[1-9]\d{3}$/.test(behind) && !isWithin(behind, digits);
    if (isCut) return length;
  }
  return undefined;
}

function isOver(typed: string, digits: WholeDigits): boolean {
  if (OVERLOAD.test(typed)) return true;
  if (POINTED.test(typed)) return Number(typed.replace(",", ".")) <= digits.limit;
  if (!/^\d+$/.test(typed)) return false;
  return typed.length === DIGITS ? isWithin(typed, digits) : wholeReading(typed, digits) !== undefined;
}

/** Of four digits, with the point behind the first. */
const isWithin = (typed: string, { limit }: WholeDigits): boolean => Number(typed) <= limit * 1000;
