// Findings of single pins that one cause explains: the cause is told once, and they are not told again. What it does not
// explain stays as it is, and so do the verdicts of the readings.

import type { Finding } from "./check";
import type { CheckCode } from "./codes";
import type { CauseData } from "./from-causes";

const CAUSES: ReadonlySet<CheckCode> = new Set<CheckCode>([
  "lead-off-ground",
  "leads-swapped",
  "pins-miscounted",
  "column-shifted",
  "readings-offset",
  "wrong-scale",
  "chip-as-a-whole",
  "bus-held-low",
  "supply-off-at-chips",
]);

/** Findings that rest on one reading, by its place. */
const OF_ONE_READING: ReadonlySet<CheckCode> = new Set<CheckCode>([
  "diode-out-of-window",
  "impossible-value",
  "point-missing",
  "rail-out-of-tolerance",
  "passive-out-of-tolerance",
  "rail-shorted",
  "pin-shorted",
  "outside-expected",
  "level-undefined",
  "pin-outside-package",
]);

/** Findings that compare the pins of one chip, by the place of one of them: void where those were not read right. */
const OF_ONE_CHIP: ReadonlySet<CheckCode> = new Set<CheckCode>(["like-pin-outlier", "logic-contradiction"]);

/** Findings that compare pins, by their `data.pins`: explained where all of them are, void where one was not read right. */
const OF_SEVERAL_PINS: ReadonlySet<CheckCode> = new Set<CheckCode>(["net-disagreement", "shared-net-fault"]);

/** The findings without those that a common cause among them explains; the same list where there is none. */
export function causeFirst(found: readonly Finding[]): readonly Finding[] {
  const causes = found.filter(({ code }) => CAUSES.has(code));
  if (causes.length === 0) return found;
  const places = new Set<number>();
  const pins = new Set<string>();
  const spoilt = new Set<number | string>();
  for (const { data } of causes) {
    const cause = data as CauseData;
    for (const at of cause.explains) places.add(at);
    for (const pin of cause.pins) pins.add(pin);
    for (const one of [...cause.spoilt.places, ...cause.spoilt.pins]) spoilt.add(one);
  }
  return found.filter(({ code, span, data }) => {
    if (OF_ONE_READING.has(code)) return !places.has(span.start);
    if (OF_ONE_CHIP.has(code)) return !places.has(span.start) && !spoilt.has(span.start);
    if (!OF_SEVERAL_PINS.has(code)) return true;
    const own = (data as { pins?: readonly string[] } | undefined)?.pins ?? [];
    return own.length === 0 || !(own.every((pin) => pins.has(pin)) || own.some((pin) => spoilt.has(pin)));
  });
}
