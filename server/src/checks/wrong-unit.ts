import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "wrong-unit",
  title: "A unit of another kind",
  severity: "error",
  scope: "block",
  rowByRow: true,
  why: "Ohms in a column of volts is a reading in the wrong place or a typing slip. Compared with the column's limits it would give a false verdict.",
  remedy: "Correct the unit, or move the reading to a table under the heading it belongs to.",
  examples: {
    bad: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 58 ohm  |
              ^^^^^^ wrong-unit: is a resistance
`),
    ],
    good: [
      exampleLog(`## Resistance

| Ref | Reading |
|-----|---------|
| R12 | 4.6 k   |
`),
    ],
  },
  run: (input) => fromJudgements(input, "wrong-unit"),
  noFix: "Only the person at the bench knows whether the unit or the place is wrong.",
});
