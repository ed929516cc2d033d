import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "pin-shorted",
  title: "A pin shorted to ground, or a ground pin that is not on it",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "A signal pin of a few ohms to ground is held down by a dead chip, a solder bridge or a part beside it, and under power its driver fights that short. A ground pin that is not on ground leaves its chip unfed.",
  remedy:
    "Lift the pin or pull the chip and read again: that tells the chip from its net. For a ground pin look at the joint, the socket contact and the track.",
  examples: {
    bad: [
      exampleLog(`## Resistance to ground

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 3   | 0.4 ohm |
              ^^^^^^^ pin-shorted: U14 pin 3 (2A) reads 400 mΩ to ground; below 2 Ω is a short
`),
    ],
    good: [
      exampleLog(`## Resistance to ground

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 3   | 2k2     |
| U14 | 7   | 0.2 ohm |
`),
    ],
  },
  run: (input) => fromJudgements(input, "pin-shorted"),
  noFix: "The fault is on the board, not in the log.",
});
