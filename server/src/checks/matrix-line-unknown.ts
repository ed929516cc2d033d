import { shift } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { matricesIn } from "./from-matrix";
import { saidOf } from "./problem-fixes";

export default documentCheck({
  code: "matrix-line-unknown",
  title: "A row, column or crossing that the matrix does not have",
  severity: "warning",
  scope: "document",
  why: "A result at a crossing that does not exist is a result of another crossing, or of another matrix. It is left out of what the tests prove and of what they accuse.",
  remedy:
    "Number rows and columns from 1 as the board file lists them, or write their net names. Where a switch is named, write its name as the board file has it, or its row and column as `3,2`.",
  examples: {
    bad: [
      exampleLog(`## Switch matrix

| Row / column | 1  | 2  | 3  |
|--------------|----|----|----|
| 1            | ok | ok | ok |
| 2            | ok | ok | ok |
| 3            | ok | ok | -  |
| 4            | ok | ok | ok |
  ^ matrix-line-unknown: its rows are 1 to 3
`),
    ],
    good: [
      exampleLog(`## Switch matrix

| Row      | Column | Result |
|----------|--------|--------|
| SW_ROW_1 | 1      | ok     |
| row 2    | 2      | ok     |
| 3        | 1      | ok     |
| 2        | 3      | ok     |
`),
    ],
  },
  *run(input) {
    for (const { tables } of matricesIn(input)) {
      for (const { start, strangers } of tables) {
        for (const { span, message } of strangers) yield { span: shift(span, start), ...saidOf({ message }) };
      }
    }
  },
  noFix: "Which crossing was meant only the person at the bench can say.",
});
