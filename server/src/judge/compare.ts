import type { Verdict } from "../compute/verdict";
import type { CellValue } from "../quantity/cell-value";
import { say, sayUncertainty } from "../quantity/say";
import type { Reference } from "./types";
import { roundingOf } from "./uncertainty";

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
  /** Whose limits they are, where the reading is outside of some that not every sound board keeps. */
  readonly unlike?: Reference["kind"];
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
  const u = uncertainty > 0 ? ` ± ${sayUncertainty(uncertainty, unit)}` : "";
  const read = extentText(extent, unit);
  if (extent.low - uncertainty > high) {
    return {
      ...(extent.low - uncertainty > (reference.beyond?.high ?? high) ? OUT : unlike(reference)),
      side: "high",
      formula: `${read}${u} > ${say(high, unit)}`,
    };
  }
  if (extent.high + uncertainty < low) {
    return {
      ...(extent.high + uncertainty < (reference.beyond?.low ?? low) ? OUT : unlike(reference)),
      side: "low",
      formula: `${read}${u} < ${say(low, unit)}`,
    };
  }
  // A usual range is not a specification: a reading nominally inside it is not called into question.
  const guard = reference.kind === "board" ? uncertainty : 0;
  if (extent.high + guard > high) {
    return {
      verdict: "suspect",
      side: "high",
      formula: `${read}${u} straddles ${say(high, unit)}`,
    };
  }
  if (extent.low - guard < low) {
    return {
      verdict: "suspect",
      side: "low",
      formula: `${read}${u} straddles ${say(low, unit)}`,
    };
  }
  const from = Number.isFinite(low) ? `${say(low, unit)} ≤ ` : "";
  const to = Number.isFinite(high) ? ` ≤ ${say(high, unit)}` : "";
  return { verdict: "within-limits", formula: `${from}${read}${u}${to}` };
}

const OUT = { verdict: "out-of-limits" } as const;
const unlike = ({ kind }: Reference) => ({ verdict: "suspect", unlike: kind }) as const;

/** "0.58 V", "0.3 V to 0.4 V", "over 20 MΩ", "open". */
function extentText({ low, high }: Extent, unit: string): string {
  if (low === high) return Number.isFinite(low) ? say(low, unit) : "open";
  if (!Number.isFinite(high)) return `over ${say(low, unit)}`;
  if (!Number.isFinite(low)) return `under ${say(high, unit)}`;
  return `${say(low, unit)} to ${say(high, unit)}`;
}

/** What to do about a suspect reading. */
export const doubtAdvice = ({ unlike }: Comparison, value: CellValue, uncertainty: number): string =>
  unlike
    ? `That is unlike ${unlike === "reference-job" ? "what the reference job read" : "the boards this shop returned"}, though not far from ${unlike === "reference-job" ? "it" : "them"}: read it again and compare another board before blaming a part.`
    : straddleAdvice(value, uncertainty);

/** What to do about a reading that lies on both sides of a limit; it accuses nothing. */
export function straddleAdvice(value: CellValue, uncertainty: number): string {
  if (value.kind === "range") return "What was typed reaches across the limit: read it again for one value.";
  if (value.kind === "bound")
    return "What was typed leaves both sides of the limit open: read it again on a range that shows the value.";
  // From memory: the overload sign of many meters with three and a half digits.
  if (/^1\.?$/.test(value.typed))
    return "A lone 1 is how many meters show an overload: write OL if that is what it was, else every digit the meter shows.";
  if (roundingOf(value) * 2 >= uncertainty)
    return "The digits typed leave both sides of the limit open: write down every digit the meter shows.";
  return "The meter's uncertainty straddles the limit: read it again on a finer range or another meter.";
}

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
