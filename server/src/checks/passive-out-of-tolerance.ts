import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "passive-out-of-tolerance",
  title: "A resistor or capacitor outside its tolerance",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "Read in place, other paths can only lower a resistor's reading and only raise a capacitor's. So a resistor that reads too high, or a capacitor that reads too low, is open, drifted or dried out no matter what else is on the board; the other side of the tolerance says nothing. With an end lifted (say so in the note) both sides count.",
  remedy:
    "Replace the part. If the reading is only too close to the limit for the meter, lift one end and read it again.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Resistance

| Ref | Reading | Note   |
|-----|---------|--------|
| R12 | 6k2     |        |
        ^^^ passive-out-of-tolerance: R12: 4.7 kΩ in place reads 6.2 kΩ; it may read at most 5.17 kΩ
`),
      exampleLog(`## Resistance

| Ref | Reading | Note   |
|-----|---------|--------|
| R12 | 3k1     | lifted |
        ^^^ passive-out-of-tolerance: R12: 4.7 kΩ out of circuit reads 3.1 kΩ; 4.23 kΩ to 5.17 kΩ is allowed
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
