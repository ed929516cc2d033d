import { pinText } from "../compute/nets/net-text";
import { limitWords } from "../judge/compare";
import { isOfRail, type SupplyOff, suppliesOff } from "../judge/together/of-supply-pins";
import type { Advice, Saying } from "../text/saying";
import { shift } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { type CauseData, figures } from "./from-causes";

export default documentCheck({
  code: "supply-off-at-chips",
  title: "A supply that is off at several chips",
  severity: "warning",
  scope: "document",
  why: "Where the supply pins of several chips on one rail are off in the same way, the rail is, or what leads to all of them. Chip by chip it looks like as many faults.",
  remedy:
    "Read the rail at its regulator. If it is off there, repair that first. If not, follow it to the chips. Where the pins read a short, do not apply power until the rail's resistance to ground is right.",
  settledBy: "later-reading-of-each-pin",
  examples: {
    bad: [
      exampleLog(`## Logic levels

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 14  | 4.31    |
              ^^^^ supply-off-at-chips: +5V reads 4.28 V to 4.33 V at 3 supply pins
| U15 | 14  | 4.33    |
| U20 | 14  | 4.28    |
`),
    ],
    good: [
      exampleLog(`## Logic levels

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 14  | 5.01    |
| U15 | 14  | 5.02    |
| U20 | 14  | 4.99    |
`),
    ],
  },
  *run({ doc, ctx }) {
    for (const off of suppliesOff(doc, ctx)) {
      const [first] = off.pins;
      if (!first || !isOfRail(off)) continue;
      const data: CauseData = {
        refs: [...new Set(off.pins.map(({ ref }) => ref))],
        pins: off.pins.map(pinText),
        explains: off.pins.map(({ reading, start }) => shift(reading.cell.span, start).start),
        spoilt: { places: [], pins: [] },
      };
      yield {
        span: shift(first.reading.cell.span, first.start),
        ...sayingOf(off),
        related: off.pins.map(({ ref, pin, reading, start }) => ({
          uri: doc.uri,
          span: shift(reading.cell.span, start),
          message: `${ref} pin ${pin} reads ${reading.value.typed}`,
        })),
        data,
      };
    }
  },
  noFix: "The readings are what was measured; the fault is on the board.",
});

function sayingOf(off: SupplyOff): Saying {
  const { rail, measure, pins } = off;
  const unit = measure === "ohms" ? "ohm" : "V";
  const read = figures(
    pins.map(({ value }) => value),
    unit,
  );
  const limits = pins[0]?.reference && limitWords(pins[0].reference);
  const what = `${rail ?? "The supply"} reads ${read ?? "open"} at ${pins.length} supply pins`;
  return { fact: `${what}${limits === undefined ? "" : `; ${limits}`}.`, ...adviceOn(off) };
}

function adviceOn({ measure, side, railIsRight }: SupplyOff): Advice {
  if (measure !== "volts")
    return side === "low"
      ? {
          cause: "One short on the rail shows at all of them.",
          step: "Do not apply power. Lift the parts on the rail one by one until the reading jumps.",
        }
      : {
          cause: "A track or joint to the supply that they share is open.",
          step: "Follow the rail from where it comes onto the board to these pins.",
        };
  if (railIsRight)
    return {
      cause: "The rail itself reads within limits, so a track or joint that they share is poor.",
      step: "Follow the rail from its test point to these pins.",
    };
  return side === "high"
    ? {
        cause: "The regulator is shorted through, or has lost its ground.",
        step: "Switch off before the logic is harmed, then read the regulator alone.",
      }
    : {
        cause: "The rail is low, or a track or joint that they share is poor.",
        step: "Read the rail at its regulator, then follow it to these pins.",
      };
}

/** "3 supply pins on it read so too": what a rail's own finding says of the pins that it carries. */
export const alsoAt = (count: number): string =>
  count === 1 ? "A supply pin on it reads so too." : `${count} supply pins on it read so too.`;
