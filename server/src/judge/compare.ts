// A reading against a reference, and the words about it.
import { defined } from "../base/defined";
import { type Comparison, compare, type Extent } from "../compute/limits/compare";
import type { CellValue } from "../quantity/cell-value";
import { say } from "../quantity/say";
import type { Reference } from "./types";
import { roundingOf } from "./uncertainty";

/** The ends of what was typed, in SI base units: a bound or an open circuit is open at one end. */
export function extentOf(value: CellValue): Extent | undefined {
  switch (value.kind) {
    case "quantity":
      return { low: value.quantity.value, high: value.quantity.value };
    case "range":
      return { low: value.low.value, high: value.high.value };
    case "bound":
      return value.op.startsWith(">")
        ? { low: value.quantity.value, high: Number.POSITIVE_INFINITY }
        : { low: Number.NEGATIVE_INFINITY, high: value.quantity.value };
    case "open":
      return { low: Number.POSITIVE_INFINITY, high: Number.POSITIVE_INFINITY };
    case "short":
      return { low: 0, high: 0 };
    default:
      return undefined;
  }
}

/** A usual range is not a specification: a reading nominally inside it is not called into question. */
export const compareWith = (reference: Reference, extent: Extent, uncertainty: number): Comparison =>
  compare(
    extent,
    reference,
    defined({
      uncertainty,
      guardInside: reference.kind === "board",
      beyond: reference.beyond,
    }),
  );

/** What to do about a suspect reading. */
export function doubtAdvice(
  { isBetween }: Comparison,
  { kind }: Reference,
  value: CellValue,
  uncertainty: number,
): string {
  if (!isBetween) return straddleAdvice(value, uncertainty);
  const [one, it] =
    kind === "reference-job"
      ? ["what the reference job read", "it"]
      : ["the boards this shop returned", "them"];
  return `That is unlike ${one}, though not far from ${it}: read it again and compare another board before blaming a part.`;
}

/** What to do about a reading that lies on both sides of a limit; it accuses nothing. */
export function straddleAdvice(value: CellValue, uncertainty: number): string {
  if (value.kind === "range") return "What was typed reaches across the limit: read it again for one value.";
  if (value.kind === "bound" && value.drift !== undefined)
    return `It was still ${value.drift} when it was written down: wait until it stands, and write that.`;
  if (value.kind === "bound")
    return "What was typed leaves both sides of the limit open: read it again on a range that shows the value.";
  // From memory: the overload sign of many meters with three and a half digits.
  if (/^1\.?$/.test(value.typed))
    return "A lone 1 is how many meters show an overload: write OL if that is what it was, else every digit the meter shows.";
  if (roundingOf(value) * 2 >= uncertainty)
    return "The digits typed leave both sides of the limit open: write down every digit the meter shows.";
  return "The meter's uncertainty straddles the limit: read it again on a finer range or another meter.";
}

/** What a window is of, as a sentence goes on behind it and as it ends with it. */
export const ofText = ({ of, aside }: Reference): string => (aside === undefined ? of : `${of}, ${aside},`);
export const nameOf = ({ of, aside }: Reference): string => (aside === undefined ? of : `${of}, ${aside}`);

/** "0.4 V to 0.7 V", "at most 50 mV", "at least 60 Ω". */
export function windowText(reference: Reference): string {
  const { low, high, unit } = reference;
  if (low !== undefined && high !== undefined) {
    return `${say(low, unit)} to ${say(high, unit)}`;
  }
  if (high !== undefined) return `at most ${say(high, unit)}`;
  if (low !== undefined) return `at least ${say(low, unit)}`;
  return "no limits";
}
