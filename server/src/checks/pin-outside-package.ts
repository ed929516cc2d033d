import { judgementsOf } from "../judge";
import { testPointOf } from "../judge/test-point";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { placesOfPart } from "./in-board";

export default blockCheck({
  code: "pin-outside-package",
  title: "A pin the package does not have",
  severity: "error",
  scope: "block",
  rowByRow: true,
  why: "Pin 16 of a 14-pin chip means the wrong pin was written down or the wrong chip was on the probe. Either way the reading belongs somewhere else.",
  remedy: "Count again from the notch, and check the designator.",
  examples: {
    bad: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 16  | 0.55    |
        ^^ pin-outside-package: pins 1 to 14
`),
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 14  | 0.31    |
| U14 | VCC | -       |
`),
    ],
  },
  *run({ block, ctx, judgements }) {
    for (const table of block.tables) {
      const seen = new Set<number>();
      for (const { reading } of judgementsOf(table, judgements)) {
        const { pin, ref } = reading.subject;
        if (!pin || !ref) continue;
        const place = testPointOf(reading.subject, ctx);
        if (!place?.device || place.device.pins.size === 0 || place.pin) continue;
        // A wide table says its pins once for several chips; the finding goes to the reading's own cell there.
        const wide = table.shape === "wide";
        const at = wide ? reading.cell.span : pin.span;
        if ((wide && reading.value.kind === "empty") || seen.has(at.start)) continue;
        seen.add(at.start);
        const { name, pins } = place.device.package;
        yield {
          span: at,
          fact: `${place.ref} is a ${place.part?.device ?? place.device.id} in a ${name}: it has pins 1 to ${pins} and no pin "${pin.text}".`,
          step: "Count again from the notch, or check the designator.",
          related: placesOfPart(place.ref, ctx),
          restsOn: place.ref,
        };
      }
    }
  },
  noFix: "The log does not show which pin was probed.",
});
