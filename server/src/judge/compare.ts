// A reading against a reference, and the words about it.

import { defined } from "../base/defined";
import { type Comparison, compareToLimits, type Extent } from "../compute/limits/compare";
import type { CellValue } from "../quantity/cell-value";
import { formatValue } from "../quantity/format-value";
import type { Advice } from "../text/saying";
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
  compareToLimits(
    extent,
    reference,
    defined({
      uncertainty,
      guardInside: reference.kind === "board",
      beyond: reference.beyond,
    }),
  );

/** The limits with whose they are: "the board file says 0.46 V to 0.62 V". */
export function limitWords(reference: Reference): string {
  const window = windowText(reference);
  switch (reference.kind) {
    case "board":
      return `the board file says ${window}`;
    case "shop":
      return `${reference.boards ?? "the"} boards returned here read ${window}`;
    case "shops":
      return `${reference.boards ?? "the"} boards of ${shopsOf(reference)} read ${window}`;
    case "reference-job":
      return `the reference job reads ${window}`;
    case "family":
    case "physics":
      return `usual is ${window}`;
  }
}

const shopsOf = ({ shops = 1 }: Reference): string => `${shops} ${shops === 1 ? "shop" : "shops"}`;

/** What to do about a suspect reading. */
export function doubtAdvice(
  { isBetween }: Comparison,
  { kind }: Reference,
  value: CellValue,
  uncertainty: number,
): Advice {
  if (!isBetween) return { step: straddleAdvice(value, uncertainty) };
  const from =
    kind === "reference-job"
      ? "the reference job"
      : kind === "shop"
        ? "the boards returned here"
        : kind === "shops"
          ? "the boards of other shops"
          : "what is usual";
  return {
    cause: `It differs from ${from}, but not by much.`,
    step: "Read it again and compare another board before you blame a part.",
  };
}

/** What to do about a reading that lies on both sides of a limit; it accuses nothing. */
export function straddleAdvice(value: CellValue, uncertainty: number): string {
  if (value.kind === "range") return "The range typed crosses the limit. Read it again for one value.";
  if (value.kind === "bound" && value.drift !== undefined)
    return `It was still ${value.drift}. Wait until it settles, and write that.`;
  if (value.kind === "bound")
    return "It could lie on either side of the limit. Read it again on a range that shows the value.";
  // From memory: the overload sign of many meters with three and a half digits.
  if (/^1\.?$/.test(value.typed))
    return "Many meters show an overload as a lone 1. Write OL if it was one, else every digit shown.";
  if (roundingOf(value) * 2 >= uncertainty)
    return "Too few digits to tell. Write down every digit the meter shows.";
  return "Too close to the limit for this meter. Read it again on a finer range or another meter.";
}

/** What a window is of, as a sentence goes on behind it and as it ends with it. */
export const ofText = ({ of, aside }: Reference): string => (aside === undefined ? of : `${of}, ${aside},`);
/**
 * What a reading was held against, in words; `ofText` is the same for the middle of a sentence, with its last comma.
 */
export const referenceName = ({ of, aside }: Reference): string =>
  aside === undefined ? of : `${of}, ${aside}`;

/** "0.4 V to 0.7 V", "at most 50 mV", "at least 60 Ω". */
export function windowText(reference: Reference): string {
  const { low, high, unit } = reference;
  if (low !== undefined && high !== undefined) {
    return `${formatValue(low, unit)} to ${formatValue(high, unit)}`;
  }
  if (high !== undefined) return `at most ${formatValue(high, unit)}`;
  if (low !== undefined) return `at least ${formatValue(low, unit)}`;
  return "no limits";
}
