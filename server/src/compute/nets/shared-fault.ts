// Two chips with the same wrong reading on the same net are one fault, somewhere on that net.

import { formatValue } from "../../quantity/format-value";
import type { Saying } from "../../text/saying";
import type { Result } from "../result";
import { badReading, type NetReading, type NetReadingKind, practiceMargin, UNIT_OF } from "./net-reading";
import { pinText, someOf } from "./net-text";

/** A reading found wrong, with the net it stands on. */
export interface WrongReading extends NetReading {
  readonly net: string;
}

/** Wrong readings that one fault on their net explains, with all parts that may be it. */
export interface SharedFault {
  readonly net: string;
  readonly readings: readonly WrongReading[];
  /** Designators on the net, each of which may be the fault; those that were read first, then the rest. */
  readonly candidates: readonly string[];
  readonly says: Saying;
}

export interface SharedFaultInput {
  readonly kind: NetReadingKind;
  readonly wrong: readonly WrongReading[];
  /** Every pin on a net, by the net's name; the pins read are added where it is not known. */
  readonly members: (net: string) => readonly { readonly ref: string; readonly pin: string }[];
  readonly margin?: (a: number, b: number) => number;
}

/**
 * Nets on which two or more chips share one wrong reading, in the order given. Wrong readings of a net that differ
 * among each other are left to `netAgreement`; several pins of one chip are no second witness.
 */
export function sharedFaults(
  input: SharedFaultInput,
): Result<{ readonly ok: true; readonly faults: readonly SharedFault[] }> {
  const { kind, wrong } = input;
  const bad = badReading(kind, wrong);
  if (bad) return bad;
  const margin = input.margin ?? ((a: number, b: number) => practiceMargin(kind, a, b));
  const byNet = new Map<string, WrongReading[]>();
  for (const reading of wrong) {
    const list = byNet.get(reading.net);
    if (list) list.push(reading);
    else byNet.set(reading.net, [reading]);
  }
  const faults: SharedFault[] = [];
  for (const [net, readings] of byNet) {
    for (const group of alike(readings, margin)) {
      const read = [...new Set(group.map(({ ref }) => ref))];
      if (read.length < 2) continue;
      const others = input.members(net).map(({ ref }) => ref);
      const candidates = [...new Set([...read, ...others])];
      faults.push({ net, readings: group, candidates, says: saying(net, kind, group, candidates) });
    }
  }
  return { ok: true, faults };
}

/** Readings in groups in which every two agree; groups in the order of their values. */
function alike(
  readings: readonly WrongReading[],
  margin: (a: number, b: number) => number,
): WrongReading[][] {
  const groups: WrongReading[][] = [];
  for (const reading of [...readings].sort((a, b) => a.value - b.value || 0)) {
    const group = groups.at(-1);
    const lowest = group?.[0];
    if (group && lowest && agree(lowest, reading, margin)) group.push(reading);
    else groups.push([reading]);
  }
  return groups;
}

const agree = (a: WrongReading, b: WrongReading, margin: (a: number, b: number) => number): boolean =>
  a.value === b.value ||
  Math.abs(b.value - a.value) <= a.uncertainty + b.uncertainty + margin(a.value, b.value);

function saying(
  net: string,
  kind: NetReadingKind,
  group: readonly WrongReading[],
  candidates: readonly string[],
): Saying {
  const value = group[0]?.value ?? 0;
  const reads = value === Number.POSITIVE_INFINITY ? "open" : `about ${formatValue(value, UNIT_OF[kind])}`;
  return {
    fact: `${someOf(group.map(pinText), 2)} are on ${net} and both read ${reads}.`,
    cause: `Take it as one fault: ${someOf(candidates, 4)} or the track.`,
    step: "Pull the socketed ones first, then lift one pin at a time and read again.",
  };
}
