import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "continuity-open",
  title: "No beep along a net",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "All pins of a net are joined. Where a meter does not beep from one to another, the track, a via, a joint or a socket contact between them is open. A few ohms where a track should be is the same fault on its way.",
  remedy:
    "With the power off, measure on the legs, then along the track from joint to joint. Flex the board gently meanwhile. Bridge it with a wire, and measure again.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Continuity

| From  | To    | Reading |
|-------|-------|---------|
| U14-2 | U15-1 | no beep |
                  ^^^^^^^ continuity-open: both are on ROW_1
`),
      exampleLog(`## Continuity

| From     | To       | Reading            |
|----------|----------|--------------------|
| U14 pin 2 | U15 pin 1 | beeps when pressed |
                          ^^^^^^^^^^^^^^^^^^ continuity-open: both are on ROW_1
| U15-5    | R12-2    | 18                 |
                        ^^ continuity-open: a track reads below 5 Ω
`),
    ],
    good: [
      exampleLog(`## Continuity

| From  | To    | Reading |
|-------|-------|---------|
| U14-2 | U15-1 | beep    |
| U15-5 | R12-2 | 0.3     |
| U14-2 | GND   | no beep |
`),
      exampleLog(`## Continuity

| From  | To    | Reading | Expected |
|-------|-------|---------|----------|
| U14-2 | U15-1 | no beep | no beep  |
`),
    ],
  },
  run: (input) => fromJudgements(input, "continuity-open"),
  noFix: "The fault is on the board, not in the log.",
});
