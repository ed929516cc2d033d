/**
 * One number as an instrument sends it, in base units.
 * IEEE 488.2-1992 8.7.2 to 8.7.4 (NR1, NR2 and NR3 response data) and SCPI-1999 volume 1, 7.2.1.4 and 7.2.1.5 (9.9E37 stands
 * for infinity, 9.91E37 for "not a number"); clauses quoted from memory.
 */
export type ScpiNumber =
  | {
      readonly kind: "value";
      readonly value: number;
      /** Value of one step of the last digit sent. */
      readonly resolution: number;
    }
  /** More than the range takes; an open circuit, on the resistance and diode ranges. */
  | { readonly kind: "overload"; readonly negative: boolean }
  | { readonly kind: "unusable"; readonly reason: string };

const NUMBER = /^([+-]?)(\d+\.?\d*|\.\d+)(?:[Ee]\s*([+-]?\d{1,3}))?$/;
const INFINITE = 9.9e37;
/** Between the two figures that stand for something else than a number. */
const NO_NUMBER = 9.905e37;
/** Of an answer that makes no sense, as much as fits into a message. */
const QUOTED = 40;

/** Reads the answer to a query for one value. Never throws. */
export function parseScpiNumber(answer: string): ScpiNumber {
  const text = answer.trim();
  if (text === "") return { kind: "unusable", reason: "the meter sent an empty answer" };
  const parts = text.split(",");
  if (parts.length > 1) {
    return {
      kind: "unusable",
      reason: `the meter sent ${parts.length} values where one was asked for; set its sample count to 1 and its format to the reading alone`,
    };
  }
  const match = NUMBER.exec(text);
  if (!match) {
    const shown = text.length > QUOTED ? `${text.slice(0, QUOTED)}…` : text;
    return { kind: "unusable", reason: `the meter sent ${JSON.stringify(shown)}, which is no number` };
  }
  const [, sign, digits = "", exponent = "0"] = match;
  const value = Number(`${sign}${digits}e${exponent}`);
  const size = Math.abs(value);
  if (size >= NO_NUMBER) return { kind: "unusable", reason: "the meter says that it has no number to give" };
  if (size >= INFINITE) return { kind: "overload", negative: value < 0 };
  const decimals = digits.includes(".") ? digits.length - digits.indexOf(".") - 1 : 0;
  return {
    kind: "value",
    value: value === 0 ? 0 : value,
    resolution: Number(`1e${Number(exponent) - decimals}`),
  };
}
