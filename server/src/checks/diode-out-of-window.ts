import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "diode-out-of-window",
  title: "A diode reading outside its window",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "With the red lead on ground, a chip's pin drops about as much as the diode between it and the substrate. A pin that reads open, shorted or far off disproves the chip or something else on its net. The window comes from the board file where it has one, else from what the device and the pin are: a ground pin reads next to nothing, a supply pin reads as the loaded rail does, a pin tied to either reads as what it is tied to, and a pin that is not connected is not judged.",
  remedy:
    "Compare the same pin of a sister chip and the other pins of the net. Lift the pin or pull the socketed chip to tell the chip from the track. A reading inside the window proves nothing.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 1.42    |
              ^^^^ diode-out-of-window: clamp is likely open
| U14 | 4   | OL      |
              ^^ diode-out-of-window: reads open
| U14 | 6   | 0.002   |
              ^^^^^ diode-out-of-window: U14 pin 6 (3Y) reads 2 mV; usual is 0.4 V to 0.7 V
| U14 | 7   | 0.55    |
              ^^^^ diode-out-of-window: U14 pin 7 (GND) reads 0.55 V; usual is at most 50 mV
| U20 | 5   | 0.61    |
              ^^^^ diode-out-of-window: U20 pin 5 (1Q) reads 0.61 V; the board file says 0.5 V to 0.56 V
`),
      exampleLog(`## Diode check

| Pin | U14  | U15  |
|-----|------|------|
| 1   | 0.58 | 1.10 |
               ^^^^ diode-out-of-window: U15 pin 1
`),
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| U14 | 7   | 0.001   |
| U14 | 14  | 0.31    |
| U15 | 13  | 0.002   |
| U20 | 5   | 0.53    |
`),
    ],
  },
  run: (input) => fromJudgements(input, "diode-out-of-window"),
  noFix: "The reading is what was measured; the fault is on the board.",
});
