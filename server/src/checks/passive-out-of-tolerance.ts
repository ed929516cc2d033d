import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "passive-out-of-tolerance",
  title: "A resistor or capacitor outside its tolerance",
  severity: "warning",
  scope: "block",
  why: "Read in place, other paths can only lower a resistor's reading and only raise a capacitor's. So a resistor that reads too high, or a capacitor that reads too low, is open, drifted or dried out whatever else is on the board; the other side of the tolerance says nothing. With an end lifted (say so in the note) both sides count.",
  remedy:
    "Replace the part. Where only the meter's uncertainty straddles the limit, lift one end and read it again.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Resistance

| Ref | Reading | Note   |
|-----|---------|--------|
| R12 | 6k2     |        |
        ^^^ passive-out-of-tolerance: open or has drifted high
`),
      exampleLog(`## Resistance

| Ref | Reading | Note   |
|-----|---------|--------|
| R12 | 3k1     | lifted |
        ^^^ passive-out-of-tolerance: Out of circuit
`),
      exampleLog(`## Capacitance and ESR

| Ref | Capacitance |
|-----|-------------|
| C5  | 3.1 µF      |
        ^^^^^^ passive-out-of-tolerance: dried out
`),
    ],
    good: [
      exampleLog(`## Resistance

| Ref | Reading |
|-----|---------|
| R12 | 3k1     |

## Capacitance and ESR

| Ref | Capacitance |
|-----|-------------|
| C5  | 14 µF       |
`),
    ],
  },
  run: (input) => fromJudgements(input, "passive-out-of-tolerance"),
  noFix: "The reading is what was measured; the fault is on the board.",
});
