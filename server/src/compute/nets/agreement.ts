// All pins of a net are one node: read the same way they read the same. Where two do not, something between them
// is open, a track, a joint, a socket contact or a via.

import { formatValue } from "../../quantity/format-value";
import type { Saying } from "../../text/saying";
import type { Result } from "../result";
import { badReading, type NetReading, type NetReadingKind, practiceMargin, UNIT_OF } from "./net-reading";
import { pinText } from "./net-text";

export interface Disagreement {
  /** The pins on either side of the break, each side agreeing with itself. */
  readonly low: readonly NetReading[];
  readonly high: readonly NetReading[];
  /** Smallest difference between the sides, in the readings' unit; infinity where one side reads open. */
  readonly difference: number;
  readonly allowed: number;
  readonly verdict: "out-of-limits" | "suspect";
  readonly formula: string;
  readonly says: Saying;
}

export interface NetAgreement {
  readonly ok: true;
  readonly disagreements: readonly Disagreement[];
  readonly source: string;
}

export interface AgreementInput {
  readonly net: string;
  readonly kind: NetReadingKind;
  /** Taken in one go, the same way round; one reading a pin. Fewer than two cannot disagree. */
  readonly readings: readonly NetReading[];
  /** Replaces the usual margin for a pair of values. */
  readonly margin?: (a: number, b: number) => number;
}

const SOURCE = "all pins of a net are one node; margin: common practice, no source";

/** Where the readings of one net fall apart. Readings that creep apart step by step are only suspect. */
export function netAgreement(input: AgreementInput): Result<NetAgreement> {
  const { kind, readings } = input;
  const bad = badReading(kind, readings);
  if (bad) return bad;
  const margin = input.margin ?? ((a: number, b: number) => practiceMargin(kind, a, b));
  const sorted = [...readings].sort((a, b) => a.value - b.value || 0);
  const allowed = (a: NetReading, b: NetReading): number =>
    a.uncertainty + b.uncertainty + margin(a.value, b.value);
  const differ = (a: NetReading, b: NetReading): boolean => apart(a, b) > allowed(a, b);

  const disagreements: Disagreement[] = [];
  let start = 0;
  for (let cut = 1; cut < sorted.length; cut += 1) {
    const low = sorted.slice(start, cut);
    const high = sorted.slice(cut);
    // Every reading on one side against every one on the other, since uncertainties need not be alike.
    if (low.every((a) => high.every((b) => differ(a, b)))) {
      disagreements.push(describe(input, low, nextGroup(high, differ), allowed, "out-of-limits"));
      start = cut;
    }
  }
  const first = sorted[0];
  const last = sorted.at(-1);
  if (disagreements.length === 0 && first && last && differ(first, last)) {
    disagreements.push(describe(input, [first], [last], allowed, "suspect"));
  }
  return { ok: true, disagreements, source: SOURCE };
}

/** Infinity less infinity is no difference here: both read open. */
const apart = (a: NetReading, b: NetReading): number =>
  a.value === b.value ? 0 : Math.abs(b.value - a.value);

/** The lowest of the readings above a break, up to the next break. */
function nextGroup(
  sorted: readonly NetReading[],
  differ: (a: NetReading, b: NetReading) => boolean,
): readonly NetReading[] {
  for (let cut = 1; cut < sorted.length; cut += 1) {
    const below = sorted.slice(0, cut);
    if (sorted.slice(cut).every((b) => below.every((a) => differ(a, b)))) return below;
  }
  return sorted;
}

function describe(
  { net, kind }: AgreementInput,
  low: readonly NetReading[],
  high: readonly NetReading[],
  allowed: (a: NetReading, b: NetReading) => number,
  verdict: Disagreement["verdict"],
): Disagreement {
  const a = low.at(-1)!;
  const b = high[0]!;
  const unit = UNIT_OF[kind];
  const reads = (value: number): string =>
    value === Number.POSITIVE_INFINITY ? "open" : formatValue(value, unit);
  const end = (reading: NetReading): string => `${pinText(reading)} (${reads(reading.value)})`;
  const side = (group: readonly NetReading[]): string => group.map(end).join(", ");
  const difference = apart(a, b);
  const room = allowed(a, b);
  return {
    low,
    high,
    difference,
    allowed: room,
    verdict,
    formula: `|${reads(b.value)} - ${reads(a.value)}| > ${formatValue(room, unit)}`,
    says:
      verdict === "out-of-limits"
        ? {
            fact: `${net} does not read as one node: ${end(a)} against ${end(b)}.`,
            cause: "The track, a joint or a socket contact between them is open.",
            step: "Measure the resistance from one to the other.",
            more: low.length + high.length > 2 ? `Read: ${side(low)} against ${side(high)}.` : undefined,
            source: SOURCE,
          }
        : {
            fact: `${net} reads ${end(a)} at one end and ${end(b)} at the other.`,
            cause: "A resistive joint or track, as the rest reads in between.",
            step: "Measure the resistance along it.",
            source: SOURCE,
          },
  };
}
