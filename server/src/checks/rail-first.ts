// A rail that is off at its own place and at the chips' supply pins is one finding: the rail's, which carries the pins.

import type { LogContext } from "../judge/context";
import { suppliesOff } from "../judge/together/of-supply-pins";
import type { LogDocument } from "../log/document";
import type { Reading } from "../log/model";
import { settledIn } from "../review/timeline/settled";
import { shift } from "../text/span";
import { type Finding, withOtherWords } from "./check";
import type { CheckCode } from "./codes";
import { alsoAt } from "./supply-off-at-chips";

const OF_RAILS: ReadonlySet<CheckCode> = new Set<CheckCode>([
  "rail-out-of-tolerance",
  "rail-shorted",
  "outside-expected",
]);
const OF_PINS: ReadonlySet<CheckCode> = new Set<CheckCode>([
  "level-undefined",
  "diode-out-of-window",
  "pin-shorted",
  "supply-off-at-chips",
]);

/** The findings with those of supply pins behind their rail's, where that still stands; the same list where none does. */
export function railFirst(doc: LogDocument, ctx: LogContext, found: readonly Finding[]): readonly Finding[] {
  if (!found.some(({ code }) => OF_RAILS.has(code)) || !found.some(({ code }) => OF_PINS.has(code)))
    return found;
  const answers = settledIn(doc, ctx);
  const isSettled = ({ reading, start }: { readonly reading: Reading; readonly start: number }): boolean =>
    answers?.at(start + reading.cell.span.start) !== undefined;
  const hidden = new Set<Finding>();
  const instead = new Map<Finding, Finding>();
  for (const { pins, own } of suppliesOff(doc, ctx)) {
    const last = own.filter((one) => !isSettled(one)).at(-1);
    const at = last && shift(last.reading.cell.span, last.start).start;
    const rail = found.find(({ code, span }) => span.start === at && OF_RAILS.has(code));
    const standing = pins.filter((one) => !isSettled(one));
    if (!rail || standing.length === 0) continue;
    const places = new Set(standing.map(({ reading, start }) => shift(reading.cell.span, start).start));
    const carried = found.filter(({ code, span }) => OF_PINS.has(code) && places.has(span.start));
    if (carried.length === 0) continue;
    for (const one of carried) hidden.add(one);
    const before = instead.get(rail) ?? rail;
    instead.set(rail, {
      ...withOtherWords(before, { cause: [before.cause, alsoAt(standing.length)].filter(Boolean).join(" ") }),
      related: [
        ...standing.map(({ ref, pin, reading, start }) => ({
          uri: doc.uri,
          span: shift(reading.cell.span, start),
          message: `${ref} pin ${pin} reads ${reading.value.typed}`,
        })),
        ...(before.related ?? []),
      ],
    });
  }
  if (hidden.size === 0) return found;
  return found.flatMap((finding) => (hidden.has(finding) ? [] : [instead.get(finding) ?? finding]));
}
