// Findings of before a repair that a later reading has answered stay to be seen, as a hint that says so.

import { pinName } from "../compute/nets/net-reading";
import type { LogContext } from "../judge/context";
import { pinName as pinOf, placeOf } from "../judge/place";
import type { LogDocument } from "../log/document";
import { type SettledBy, settledReadings } from "../review/settled";
import { shift } from "../text/span";
import type { Finding } from "./check";

/** Checks whose finding is of the reading itself, so that another reading of its place answers it. */
const OF_A_READING: ReadonlySet<string> = new Set([
  "diode-out-of-window",
  "rail-shorted",
  "rail-out-of-tolerance",
  "coil-overload",
  "passive-out-of-tolerance",
  "junction-disproved",
  "level-undefined",
  "outside-expected",
]);
/** Checks whose finding is of several pins, named in its data: all of them have to be answered. */
const OF_PINS: ReadonlySet<string> = new Set(["net-disagreement", "shared-net-fault"]);

/** The findings with those that are settled made light; the same list where none is. */
export function lightenSettled(
  doc: LogDocument,
  ctx: LogContext,
  found: readonly Finding[],
): readonly Finding[] {
  const settled = settledReadings(doc, ctx);
  if (settled.size === 0) return found;
  const byPlace = new Map<number, SettledBy>();
  const byPin = new Map<string, SettledBy>();
  for (const { start, block } of doc.blocks) {
    for (const table of block.tables) {
      for (const reading of table.readings) {
        const by = settled.get(reading);
        if (!by) continue;
        byPlace.set(shift(reading.cell.span, start).start, by);
        const place = placeOf(reading.subject, ctx);
        const pin = place && pinOf(place);
        if (place && pin !== undefined) byPin.set(pinName({ ref: place.ref, pin }), by);
      }
    }
  }
  return found.map((finding) => {
    const by = OF_A_READING.has(finding.code)
      ? byPlace.get(finding.span.start)
      : OF_PINS.has(finding.code)
        ? allOf(pinsOf(finding), byPin)
        : undefined;
    return by ? lightened(finding, by, doc.uri) : finding;
  });
}

const pinsOf = ({ data }: Finding): readonly string[] =>
  (data as { pins?: string[] } | undefined)?.pins ?? [];

/** The last of them, where there is one for every pin. */
const allOf = (pins: readonly string[], by: ReadonlyMap<string, SettledBy>): SettledBy | undefined =>
  pins.every((pin) => by.has(pin)) ? by.get(pins.at(-1) ?? "") : undefined;

const lightened = (finding: Finding, { reading, span }: SettledBy, uri: string): Finding => ({
  ...finding,
  severity: "hint",
  message: `Settled by a later reading, ${reading.value.typed} after the repair. ${finding.message}`,
  related: [
    { uri, span, message: `read within limits after the repair: ${reading.value.typed}` },
    ...(finding.related ?? []),
  ],
});
