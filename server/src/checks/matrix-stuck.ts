import { spanOfCell, spanOfLine } from "../review/matrix/log-review";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { reviewsIn } from "./from-matrix";

export default documentCheck({
  code: "matrix-stuck",
  title: "A crossing that answers with nothing closed",
  severity: "warning",
  scope: "document",
  why: "A crossing that is closed at power-up is closed in every later test: it makes phantoms elsewhere and stops self-tests.",
  remedy:
    "On the bare board look for solder or residue between the row and the column; a whole line that answers is held by its own chip or shorted to a supply. Then test it again.",
  examples: {
    bad: [
      exampleLog(`## Switch matrix

| Row / column | 1  | 2     | 3  |
|--------------|----|-------|----|
| 1            | ok | ok    | ok |
| 2            | ok | stuck | ok |
                      ^^^^^ matrix-stuck: row 2, column 2 (Hole) answers with nothing closed
| 3            | ok | ok    | -  |
`),
    ],
    good: [
      exampleLog(`## Switch matrix before repair

| Row / column | 1  | 2     | 3  |
|--------------|----|-------|----|
| 1            | ok | ok    | ok |
| 2            | ok | stuck | ok |
| 3            | ok | ok    | -  |

## Switch matrix after repair

| Row | Column | Result |
|-----|--------|--------|
| 2   | 2      | ok     |
`),
    ],
  },
  *run(input) {
    for (const { review, tables, cured, curedCell } of reviewsIn(input)) {
      for (const line of review.stuck.lines) {
        const span = spanOfLine(tables, line);
        if (span && !cured(line)) yield { span, ...line.says };
      }
      for (const cell of review.stuck.cells) {
        const span = spanOfCell(tables, cell);
        if (span && !curedCell(cell)) yield { span, ...cell.says };
      }
    }
  },
  noFix: "The result is what was seen; the fault is on the board.",
});
