import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "continuity-bridge",
  title: "A beep between two nets",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "Two nets that beep are joined by something the board file does not have: a solder bridge, a whisker, a shorted part, or a link somebody fitted. Fuses, coils, closed switches and small resistors between them can beep too, and a charged board makes a meter beep that should not.",
  remedy:
    "Make sure that the board is off and discharged, and read the ohms. Look between the two tracks under a lens. Lift one end of what lies between them and measure again. Where the link belongs there, correct the board file.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Continuity

| From  | To    | Reading |
|-------|-------|---------|
| U14-2 | U15-5 | beep    |
                  ^^^^ continuity-bridge: they are two nets, ROW_1 and PULLED
`),
      exampleLog(`## Continuity

| From   | To  | Ohms |
|--------|-----|------|
| U32-14 | GND | 0.2  |
                 ^^^ continuity-bridge: they are two nets, D0 and GND
`),
    ],
    good: [
      exampleLog(`## Continuity

| From   | To     | Reading |
|--------|--------|---------|
| U14-2  | U15-5  | no beep |
| U32-14 | U33-14 | OL      |
| U34-9  | U32-14 | beep    |
`),
      exampleLog(`## Continuity

| From | To  | Reading | Note                               |
|------|-----|---------|------------------------------------|
| +5V  | GND | beep    | beeps with the chips in, ohms next |
| +5V  | GND | 85      |                                    |
`),
    ],
  },
  run: (input) => fromJudgements(input, "continuity-bridge"),
  noFix: "The fault is on the board, not in the log.",
});
