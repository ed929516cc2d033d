import { defined } from "../base/defined";
import { spanOfCell } from "../review/matrix/log-review";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { reviewsIn } from "./from-matrix";

export default documentCheck({
  code: "matrix-shorted",
  title: "Two rows or two columns that answer together",
  severity: "warning",
  scope: "document",
  why: "Lines that are joined show each other's switches. Seen once it may as well be a missing diode; seen at every crossing it is a short.",
  remedy:
    "With the power off, measure between the two lines. Look for solder, residue at the header and a chip that joins them. Note which other crossing shows as `closes 3,2 too`.",
  examples: {
    bad: [
      exampleLog(`## Switch matrix

| Row / column | 1  | 2             | 3             |
|--------------|----|---------------|---------------|
| 1            | ok | closes 1,3 too | closes 1,2 too |
                      ^^^^^^^^^^^^^^ matrix-shorted: are shorted
| 2            | ok | closes 2,3 too | closes 2,2 too |
| 3            | ok | ok            | -             |
`).replace("| 3            | ok | ok            | -", "| 3            | ok | closes 3,3 too | -"),
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
    for (const { review, tables, cured } of reviewsIn(input)) {
      for (const { kind, lines, shownBy, verdict, says } of review.shorts) {
        if (lines.every((number) => cured({ kind, number }))) continue;
        const [first] = shownBy;
        const span = first && spanOfCell(tables, first);
        if (span)
          yield defined({
            span,
            ...says,
            severity: verdict === "suspect" ? ("information" as const) : undefined,
          });
      }
    }
  },
  noFix: "The result is what was seen; the fault is on the board.",
});
