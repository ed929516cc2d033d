import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "level-undefined",
  title: "A voltage that is no logic level",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "Between the highest low and the lowest high a chip may read either. A node is there when nothing drives it, when two outputs fight over it, when an output cannot pull its load, or when it moves faster than the meter follows.",
  remedy:
    "Look at the node with a logic probe or a scope first: a moving signal reads as its average. If it does not move, read both ends of the track, then find which output should drive it.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Logic levels

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 1.52 V  |
              ^^^^^^ level-undefined: between low
| U14 | 14  | 4.31 V  |
              ^^^^^^ level-undefined: U14 pin 14 (VCC): 4.31 V; this supply pin should read 4.75 V to 5.25 V
`),
    ],
    good: [
      exampleLog(`## Logic levels

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 3.40 V  |
| U14 | 2   | 0.12 V  |
| U14 | 7   | 0.002 V |
| U14 | 14  | 5.01 V  |
`),
    ],
  },
  run: (input) => fromJudgements(input, "level-undefined"),
  noFix: "The reading is what was measured; the fault is on the board.",
});
