// Exact decimal numbers for money and hours: whole digits and a scale, so that 0.10 is a tenth to the last digit.

/** `digits` / 10^`scale`. */
export interface Decimal {
  readonly digits: bigint;
  readonly scale: number;
}

/** What becomes of exactly half a step: away from zero, or to the even neighbour. */
export type Rounding = "half-away-from-zero" | "half-even";

/** Nothing, exactly: where a sum begins. */
export const ZERO: Decimal = { digits: 0n, scale: 0 };

/** Longest text that is read, so that no number typed can hold up a keystroke. */
const LONGEST = 60;

/** Digits with a decimal point, "-" before them at most; undefined for anything else. */
export function parseDecimal(text: string): Decimal | undefined {
  const match = text.length <= LONGEST ? /^(-?)(\d+)(?:\.(\d+))?$/.exec(text.trim()) : null;
  if (!match) return undefined;
  const [, sign = "", whole = "", fraction = ""] = match;
  return { digits: BigInt(`${sign}${whole}${fraction}`), scale: fraction.length };
}

/** A whole number; what is not one is cut to it. */
export const whole = (count: number): Decimal => ({ digits: BigInt(Math.trunc(count)), scale: 0 });

const atScale = ({ digits, scale }: Decimal, wanted: number): bigint =>
  digits * 10n ** BigInt(wanted - scale);

/** The sum, exact, with as many decimals as the longer of the two. */
export function add(a: Decimal, b: Decimal): Decimal {
  const scale = Math.max(a.scale, b.scale);
  return { digits: atScale(a, scale) + atScale(b, scale), scale };
}

/** All of them together, exact; zero for none. */
export const sum = (all: readonly Decimal[]): Decimal => all.reduce(add, ZERO);

/** The product, exact: it has the decimals of both, and is not rounded. */
export const times = (a: Decimal, b: Decimal): Decimal => ({
  digits: a.digits * b.digits,
  scale: a.scale + b.scale,
});

/** A hundredth of the number, exact: 19 is 0.19. */
export const hundredth = ({ digits, scale }: Decimal): Decimal => ({ digits, scale: scale + 2 });

/** To `places` digits behind the point; exact where there are no more of them. */
export function round(value: Decimal, places: number, rounding: Rounding): Decimal {
  if (value.scale <= places) return { digits: atScale(value, places), scale: places };
  const step = 10n ** BigInt(value.scale - places);
  const negative = value.digits < 0n;
  const size = negative ? -value.digits : value.digits;
  const below = size / step;
  const twice = (size % step) * 2n;
  const up = twice > step || (twice === step && (rounding === "half-away-from-zero" || below % 2n === 1n));
  const digits = below + (up ? 1n : 0n);
  return { digits: negative ? -digits : digits, scale: places };
}

/** With a point, and with as many digits behind it as the scale says. */
export function decimalText({ digits, scale }: Decimal): string {
  const negative = digits < 0n;
  const text = (negative ? -digits : digits).toString().padStart(scale + 1, "0");
  const cut = text.length - scale;
  const point = scale > 0 ? `.${text.slice(cut)}` : "";
  return `${negative ? "-" : ""}${text.slice(0, cut)}${point}`;
}
