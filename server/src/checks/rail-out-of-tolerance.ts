import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "rail-out-of-tolerance",
  title: "A supply rail out of tolerance",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "Logic fed outside its supply window fails in ways that look like any other fault, and above it the chips die. Ripple above its limit resets processors and corrupts memory. Where the board file gives no ripple limit but names the reservoir, the most that it can leave is computed; where it names a regulator and the rail before it, their readings together show whether the regulator has enough to work with.",
  remedy:
    "Correct the rails before you believe any powered reading. A reading too close to its limit is shown as information: read it again with a better meter.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Supply rails, loaded

| Rail | DC   | Ripple |
|------|------|--------|
| +5V  | 4.31 | 120 mV |
         ^^^^ rail-out-of-tolerance: 4.75 V to 5.25 V
                ^^^^^^ rail-out-of-tolerance: +5V ripple reads 120 mV loaded; the limit is 50 mV
`),
      exampleLog(`## Supply rails, loaded

| Rail    | DC  | Ripple |
|---------|-----|--------|
| +9V raw | 8.8 | 3.4 V  |
                  ^^^^^ rail-out-of-tolerance: +9V raw ripple reads 3.4 V; C1 of 4700 µF leaves at most 2.66 V
`),
    ],
    good: [
      exampleLog(`## Supply rails, loaded

| Rail | DC   | Ripple |
|------|------|--------|
| +5 V | 5.02 | 12 mV  |
`),
      exampleLog(`## Supply rails, loaded

| Rail    | DC  | Ripple |
|---------|-----|--------|
| +9V raw | 9.1 | 2.0 V  |
`),
    ],
  },
  run: (input) => fromJudgements(input, "rail-out-of-tolerance"),
  noFix: "The reading is what was measured; the fault is on the board.",
});
