import { defined } from "../base/defined";
import type { Proving } from "../compute/matrix/proving";
import { cellName, lineName, type MatrixShape } from "../compute/matrix/shape";
import { someOf } from "../compute/nets/net-text";
import { provingOf } from "../review/matrix/log-review";
import type { Saying } from "../text/saying";
import { shift } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { isBeingProven, matricesIn } from "./from-matrix";

export default documentCheck({
  code: "matrix-unproven",
  title: "Rows and columns that no recorded test has exercised",
  severity: "warning",
  scope: "document",
  why: "A row or column that has not answered once since its parts were changed is unproven, however many others have. A few crossings along the diagonal prove all of them.",
  remedy:
    "Test the crossings named, or have them written into the log as rows to fill in. Until the stage is proving this is only a reminder. Crossings the board file reserves are never asked for.",
  examples: {
    bad: [
      exampleLog(
        `## Switch matrix

| Row | Column | Switch | Result |
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ matrix-unproven: Switch matrix: 4 lines not yet exercised
|-----|--------|--------|--------|
| 1   | 1      | Coin   | ok     |
`,
        "stage: diagnosing\n",
      ),
    ],
    good: [
      exampleLog(`## Switch matrix

| Row | Column | Switch | Result |
|-----|--------|--------|--------|
| 1   | 1      | Coin   | ok     |
| 2   | 3      | Bell   | ok     |
| 3   | 2      |        | ok     |
`),
    ],
  },
  *run(input) {
    const due = isBeingProven(input);
    const board = input.ctx.board?.value;
    for (const log of board ? matricesIn(input) : []) {
      const plan = board && provingOf(log, board);
      const last =
        log.tables.findLast(({ entries }) => entries.length > 0) ?? (due ? log.tables.at(-1) : undefined);
      if (!plan || !last || plan.unproven.length === 0) continue;
      // A line on which nothing works is reported as dead; before proving there is no more to say of it.
      if (!due && plan.next.length === 0) continue;
      yield defined({
        span: shift(last.table.source.header.span, last.start),
        ...sayingOf(log.matrix.title, log.shape, plan),
        severity: due ? undefined : ("information" as const),
      });
    }
  },
  noFix:
    "The crossings have to be tested. The code action that inserts the test rows writes them down to be filled in.",
});

/** Lines and crossings named in a message; a bare matrix has dozens. */
const NAMED = 4;

function sayingOf(
  title: string,
  shape: MatrixShape,
  { unproven, next, unprovable, sentence }: Proving,
): Saying {
  const lines = someOf(
    unproven.map((line) => lineName(shape, line)),
    NAMED,
  );
  const tests = next.map((cell) => cellName(shape, cell));
  return {
    fact: `${title}: ${unproven.length} ${unproven.length === 1 ? "line" : "lines"} not yet exercised.`,
    cause: `${lines.charAt(0).toUpperCase()}${lines.slice(1)}.`,
    step: tests.length > 0 ? `Test ${someOf(tests, NAMED)}.` : unprovable[0]?.sentence,
    more: sentence,
  };
}
