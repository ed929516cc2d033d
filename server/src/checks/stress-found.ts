import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "stress-found",
  title: "A place that reacts to heat, cold or force",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "A fault that comes or goes with heat, cold, bending or tapping at one place is there or close by. By heat and cold it is a chip or a joint, by force a joint, a contact, a via or a track.",
  remedy:
    "Reflow or reseat that place first and try again. Renew the part where it still reacts. Then warm the board as a whole and try once again.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Heat and tap test

| Ref | Done       | Result     |
|-----|------------|------------|
| U14 | cold spray | fault goes |
                     ^^^^^^^^^^ stress-found: U14 (cold spray): fault goes
| U15 | tapping    | resets     |
                     ^^^^^^ stress-found: U15 (tapping): resets
`),
    ],
    good: [
      exampleLog(`## Heat and tap test

| Ref | Done       | Result    |
|-----|------------|-----------|
| U14 | cold spray | no change |
| U15 | tapping    | same      |
`),
    ],
  },
  run: (input) => fromJudgements(input, "stress-found"),
  noFix: "The fault is on the board, not in the log.",
});
