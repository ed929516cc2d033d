import type { CellValue } from "../../quantity/cell-value";
import { say } from "./say";
import type { Reference, Verdict } from "./types";

/** The ends of what was typed, in SI base units: a bound or an open circuit is open at one end. */
export interface Extent {
  readonly low: number;
  readonly high: number;
}

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

export interface Comparison {
  readonly verdict: Extract<Verdict, "within-limits" | "suspect" | "out-of-limits">;
  readonly side?: "low" | "high";
  readonly formula: string;
}

/**
 * A reading with its uncertainty against a window. Outside by more than the uncertainty is out of limits;
 * a reading whose uncertainty straddles a limit is suspect (guard band of one uncertainty, JCGM 106 clause 8);
 * a range or bound that only partly lies outside is suspect too.
 */
export function compare(extent: Extent, reference: Reference, uncertainty: number): Comparison {
  const low = reference.low ?? Number.NEGATIVE_INFINITY;
  const high = reference.high ?? Number.POSITIVE_INFINITY;
  const { unit } = reference;
  const u = uncertainty > 0 ? ` ± ${say(uncertainty, unit)}` : "";
  if (extent.low - uncertainty > high) {
    return {
      verdict: "out-of-limits",
      side: "high",
      formula: `${say(extent.low, unit)}${u} > ${say(high, unit)}`,
    };
  }
  if (extent.high + uncertainty < low) {
    return {
      verdict: "out-of-limits",
      side: "low",
      formula: `${say(extent.high, unit)}${u} < ${say(low, unit)}`,
    };
  }
  // A usual range is not a specification: a reading nominally inside it is not called into question.
  const guard = reference.kind === "family" ? 0 : uncertainty;
  if (extent.high + guard > high) {
    return {
      verdict: "suspect",
      side: "high",
      formula: `${say(extent.high, unit)}${u} straddles ${say(high, unit)}`,
    };
  }
  if (extent.low - guard < low) {
    return {
      verdict: "suspect",
      side: "low",
      formula: `${say(extent.low, unit)}${u} straddles ${say(low, unit)}`,
    };
  }
  const from = Number.isFinite(low) ? `${say(low, unit)} ≤ ` : "";
  const to = Number.isFinite(high) ? ` ≤ ${say(high, unit)}` : "";
  const read =
    extent.low === extent.high
      ? say(extent.low, unit)
      : `${say(extent.low, unit)} to ${say(extent.high, unit)}`;
  return { verdict: "within-limits", formula: `${from}${read}${u}${to}` };
}

/** "0.4-0.7 V", "at most 50 mV", "at least 60 Ω". */
export function windowText(reference: Reference): string {
  const { low, high, unit } = reference;
  if (low !== undefined && high !== undefined) {
    return `${say(low, unit)} to ${say(high, unit)}`;
  }
  if (high !== undefined) return `at most ${say(high, unit)}`;
  if (low !== undefined) return `at least ${say(low, unit)}`;
  return "no limits";
}
