import { cellName } from "../compute/matrix/shape";
import { spanOfCell } from "../review/matrix/log-review";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { reviewsIn } from "./from-matrix";

export default documentCheck({
  code: "matrix-reserved-exercised",
  title: "A reserved crossing that was exercised",
  severity: "warning",
  scope: "document",
  why: "The board file reserves crossings that start something: bridging one can clear the owner's records or fire a coil.",
  remedy:
    "Look at what it started before going on, and tell the owner where records were lost. Where it was only filled in by the way, write a dash. Its result proves nothing here and is not used.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Switch matrix

| Row / column | 1  | 2  | 3  |
|--------------|----|----|----|
| 1            | ok | ok | ok |
| 2            | ok | ok | ok |
| 3            | ok | ok | ok |
                           ^^ matrix-reserved-exercised: row 3, column 3 (Clear memory)
`),
        fixes: [
          {
            title: "Write a dash: it was not bridged",
            makes: `
 | 2            | ok | ok | ok |
-| 3            | ok | ok | ok |
+| 3            | ok | ok | - |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Switch matrix

| Row / column | 1  | 2  | 3  |
|--------------|----|----|----|
| 1            | ok | ok | ok |
| 2            | ok | ok | ok |
| 3            | ok | ok | -  |
`),
    ],
  },
  *run(input) {
    for (const { log, review, tables } of reviewsIn(input)) {
      for (const cell of review.reservedExercised) {
        const span = spanOfCell(tables, cell);
        if (span)
          yield {
            span,
            fact: `The crossing at ${cellName(log.shape, cell)} is reserved by the board file, but has a result.`,
            cause: "The result is not used.",
            step: "Look at what it started. Write a dash if it was not bridged.",
          };
      }
    }
  },
  fixes: {
    writeDash: ({ span }) => [{ title: "Write a dash: it was not bridged", edits: [{ span, newText: "-" }] }],
  },
});
