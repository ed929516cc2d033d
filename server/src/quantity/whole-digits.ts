// A reading of the diode range typed without its point: when it can only be one, and which.
// A meter shows three decimals of a volt on its diode range (common practice, no source), so "558" is 0.558 V and "1487"
// is 1.487 V. "142" may be 0.142 V or 1.42 V, and "58" 0.58 V or 0.058 V, which a pin's window judges differently: nothing
// here decides those.

export interface WholeDigits {
  /** Volts beyond which the meter shows no reading at all. */
  readonly limit: number;
}

/** Volts that no diode range shows, where the procedure does not say; common practice, no source. */
export const DIODE_LIMIT = 3;

/** One form of digits, as a regular expression and what stands around its groups in the reading. */
export interface DigitForm {
  readonly pattern: string;
  /** Before the first group, behind it, behind the second. */
  readonly around: readonly string[];
  /** Characters of the reading. */
  readonly length: number;
}

/** Decimals of a volt on the meter's diode range. */
const DECIMALS = 3;
const LENGTH = "0.558 V".length;

/** The forms of digits that can only be one reading. */
export function readAs({ limit }: WholeDigits): readonly DigitForm[] {
  const top = Math.floor(limit);
  if (!(top >= 1 && top <= 8)) return [];
  // With the point behind its first digit each of these is beyond the limit.
  const beyond = [`[${top + 1}-9]\\d\\d`, ...(limit === top ? [`${top}(?:0[1-9]|[1-9]\\d)`] : [])].join("|");
  const below =
    top > 1 ? [{ pattern: `([1-${top - 1}])(\\d{3})`, around: ["", ".", " V"], length: LENGTH }] : [];
  return [
    { pattern: `(${beyond})`, around: ["0.", " V"], length: LENGTH },
    { pattern: "0(\\d{3})", around: ["0.", " V"], length: LENGTH },
    ...below,
  ];
}

/** The reading that digits stand for; undefined where they may be several, or are a reading as they are. */
export function wholeReading(typed: string, digits: WholeDigits): string | undefined {
  for (const { pattern, around } of readAs(digits)) {
    const match = new RegExp(`^(?:${pattern})$`).exec(typed);
    if (match) return around.map((text, i) => (i === 0 ? text : (match[i] ?? "") + text)).join("");
  }
  return undefined;
}

/**
 * Every reading that digits may stand for, in volts, three decimals first; empty where the number is a reading as it is.
 * Two digits may have lost a zero behind the point as well: 0.058 on the meter.
 */
export function possibleReadings(typed: string, { limit }: WholeDigits): readonly string[] {
  if (!/^\d{2,4}$/.test(typed) || Number(typed) <= limit) return [];
  const point = (whole: number) =>
    whole <= 0 ? `0.${"0".repeat(-whole)}${typed}` : `${typed.slice(0, whole)}.${typed.slice(whole)}`;
  const shown = typed.length - DECIMALS;
  const places = typed.startsWith("0")
    ? [1, ...(typed.length > DECIMALS ? [] : [0])]
    : typed.length === 2
      ? [0, -1, 1]
      : [shown, ...[0, 1, 2].filter((whole) => whole > shown)];
  const numbers = places.filter((whole) => whole < typed.length).map(point);
  return [...new Set(numbers)].filter((text) => Number(text) <= limit);
}
