import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "coil-overload",
  title: "A coil that would overload its driver",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "A coil with shorted turns draws more than its driver carries: it destroys the repaired board the moment it is plugged in. The current is the supply divided by the resistance read.",
  remedy:
    "Do not connect it. Take off the leads' own resistance, compare a coil of the same number, and replace it before the board goes back. A current above the fuse alone is shown as information: fuses carry short pulses above their rating.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Coil resistance

| Ref | Reading |
|-----|---------|
| Q5  | 1.1 ohm |
        ^^^^^^^ coil-overload: Q5: The coil of Q5 reads 1.1 Ω. The coil draws 21.82 A; its driver carries 8 A
| Q5  | short   |
        ^^^^^ coil-overload: Q5: The coil of Q5 reads a short. Only the wiring limits its current
`),
    ],
    good: [
      exampleLog(`## Coil resistance

| Ref | Reading  |
|-----|----------|
| Q5  | 11.8 ohm |
`),
    ],
  },
  run: (input) => fromJudgements(input, "coil-overload"),
  noFix: "The reading is what was measured; the fault is in the coil.",
});
