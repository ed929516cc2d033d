// Findings of before a repair that a later reading has answered stay to be seen, as a hint that says so.

import { pinText } from "../compute/nets/net-text";
import type { LogContext } from "../judge/context";
import { pinName as pinOf, testPointOf } from "../judge/test-point";
import type { LogDocument } from "../log/document";
import { type SettledBy, settledReadings } from "../review/timeline/settled";
import { shift } from "../text/span";
import { type Finding, withOtherWords } from "./check";
import { checkOf } from "./registry";

/** The findings with those that are settled made light; the same list where none is. */
export function lightenSettled(
  doc: LogDocument,
  ctx: LogContext,
  found: readonly Finding[],
): readonly Finding[] {
  const settled = settledReadings(doc, ctx);
  if (settled.length === 0) return found;
  const byPlace = new Map<number, SettledBy>();
  const byPin = new Map<string, SettledBy>();
  for (const { reading, start, by } of settled) {
    byPlace.set(shift(reading.cell.span, start).start, by);
    const place = testPointOf(reading.subject, ctx);
    const pin = place && pinOf(place);
    if (place && pin !== undefined) byPin.set(pinText({ ref: place.ref, pin }), by);
  }
  return found.map((finding) => {
    const by = answerTo(finding, byPlace, byPin);
    return by ? lightened(finding, by, doc.uri) : finding;
  });
}

/** The later reading that answers a finding in the way its check names, if there is one. */
function answerTo(
  finding: Finding,
  byPlace: ReadonlyMap<number, SettledBy>,
  byPin: ReadonlyMap<string, SettledBy>,
): SettledBy | undefined {
  switch (checkOf(finding.code)?.settledBy) {
    case "later-reading":
      return byPlace.get(finding.span.start);
    case "later-reading-of-each-pin":
      return allOf(pinsOf(finding), byPin);
    case undefined:
      return undefined;
  }
}

const pinsOf = ({ data }: Finding): readonly string[] =>
  (data as { pins?: string[] } | undefined)?.pins ?? [];

/** The last of them, where there is one for every pin. */
const allOf = (pins: readonly string[], by: ReadonlyMap<string, SettledBy>): SettledBy | undefined =>
  pins.every((pin) => by.has(pin)) ? by.get(pins.at(-1) ?? "") : undefined;

const lightened = (finding: Finding, { reading, span }: SettledBy, uri: string): Finding => ({
  ...withOtherWords(finding, {
    cause: `Settled: ${reading.value.typed} after the repair.`,
    step: undefined,
    more: beside(finding),
  }),
  severity: "hint",
  related: [
    { uri, span, message: `within limits after the repair: ${reading.value.typed}` },
    ...(finding.related ?? []),
  ],
});

/** What it said of the cause and the next step is history, to be read where it is asked for. */
const beside = ({ cause, step, more }: Finding): string | undefined =>
  [cause, step, more].filter(Boolean).join(" ") || undefined;
