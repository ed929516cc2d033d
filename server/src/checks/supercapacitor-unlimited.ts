import { placeIn } from "../log/timeline";
import { formatValue } from "../quantity/format-value";
import { unlimitedCapacitors } from "../review/parts/backup-cell";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { placesOfPart } from "./in-board";

export default documentCheck({
  code: "supercapacitor-unlimited",
  title: "A super-capacitor without its series resistor",
  severity: "error",
  scope: "document",
  why: "An empty super-capacitor looks like a short to what charges it. The resistor before it limits the inrush to what the diode, the track and the regulator can take; bridged or far too small, they burn or the rail folds at every switch-on.",
  remedy:
    "Take the bridge out and fit the resistor again, tens of ohms and rated for the rail's voltage across it at first. Then read the rail while the capacitor charges, with the supply's current limited.",
  examples: {
    bad: [
      exampleLog(`## Work

| Ref | Action  | Part                | Note           |
|-----|---------|---------------------|----------------|
| BT1 | fitted  | 1 F 5.5 V super-cap |                |
| R12 | bridged |                     | charges faster |
  ^^^ supercapacitor-unlimited: R12 before the super-capacitor is bridged
`),
    ],
    good: [
      exampleLog(`## Work

| Ref | Action  | Part                | Note                    |
|-----|---------|---------------------|-------------------------|
| BT1 | fitted  | 1 F 5.5 V super-cap | series resistor as ever |
| R12 | bridged |                     | lamp test input         |
`),
    ],
  },
  *run({ doc, ctx }) {
    for (const { row, resistor, left, before } of unlimitedCapacitors(doc, ctx)) {
      const at = row.ref ?? row.actionText ?? row.part ?? row.note;
      if (!at) continue;
      const state = left === 0 ? "is bridged" : `is only ${formatValue(left, "ohm")}`;
      const was = before
        ? `Through its ${formatValue(before.ohms, "ohm")} it was at most ${formatValue(before.amperes, "A")} from ${formatValue(before.volts, "V")}.`
        : undefined;
      yield {
        span: placeIn(row, at),
        fact: `${resistor} before the super-capacitor ${state}: an empty one draws all that the rail gives.`,
        cause: "The diode, the track or the regulator burns.",
        step: "Fit the resistor again before you apply power.",
        more: was,
        related: placesOfPart(resistor, ctx),
      };
    }
  },
  noFix: "The bridge is on the board, and not in the log.",
});
