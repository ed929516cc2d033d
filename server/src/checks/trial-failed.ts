import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "trial-failed",
  title: "A test program, an output or a game that failed",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "What failed as a whole is still wrong, even where every single reading is within its limits. The board and what is plugged into it are not told apart yet.",
  remedy:
    'Follow the code to the parts that the board file names, or exchange the plug of the output with a neighbour. After the repair run it again and write the new row under a heading with "after repair".',
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Test program

| Test  | Code |
|-------|------|
| run 1 | E 3  |
          ^^^ trial-failed: E 3 is "Work memory"; it points to U32, U33
| run 2 | E 3  |
          ^^^ trial-failed: it points to U32, U33
`),
      exampleLog(`## Coils fired

| Coil | Driver | Result    |
|------|--------|-----------|
| Gate | Q5     | locked on |
                  ^^^^^^^^^ trial-failed: Gate, Q5: locked on
| Bell |        | dead      |
                  ^^^^ trial-failed: Bell: dead
`),
      exampleLog(`## Play test

| Game   | Result | Note                      |
|--------|--------|---------------------------|
| game 1 | fail   | starts over at the finish |
           ^^^^ trial-failed: game 1: fail
`),
    ],
    good: [
      exampleLog(`## Test program

| Test  | Code |
|-------|------|
| run 1 | PASS |
`),
      exampleLog(`## Coils fired

| Coil | Driver | Result |
|------|--------|--------|
| Gate | Q5     | fires  |

## Play test

| Game   | Result |
|--------|--------|
| game 1 | ok     |
`),
    ],
  },
  run: (input) => fromJudgements(input, "trial-failed"),
  noFix: "The fault is on the board, not in the log.",
});
