import { defined } from "../base/defined";
import type { Phantom } from "../compute/matrix/phantoms";
import { cellName } from "../compute/matrix/shape";
import type { LocatedResults } from "../review/matrix/from-log";
import { spanOfCell, spanOfHeld } from "../review/matrix/log-review";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { reviewsIn } from "./from-matrix";

export default documentCheck({
  code: "matrix-phantom",
  title: "A crossing that shows although open",
  severity: "warning",
  scope: "document",
  why: "Three closed corners of a rectangle show the fourth where the diode opposite to it is missing or shorted. In play that is a switch nobody touched.",
  remedy:
    "With the power off, measure the diode that is named. Where none is, hold the other corners one after the other and note what shows, as `1,1 + 1,2 + 2,1` in the column of the switch.",
  examples: {
    bad: [
      exampleLog(`## Switch matrix

| Switch          | Result         |
|-----------------|----------------|
| 1,1             | ok             |
| 2,2             | ok             |
| Door            | ok             |
| 2,3             | ok             |
| 1,1 + 1,2 + 2,1 | closes 2,2 too |
                    ^^^^^^^^^^^^^^ matrix-phantom: The crossing at row 2, column 2 (Hole) showed although open, with 3 corners closed
`),
    ],
    good: [
      exampleLog(`## Switch matrix

| Switch          | Result |
|-----------------|--------|
| 1,1             | ok     |
| 2,2             | ok     |
| Door            | ok     |
| 2,3             | ok     |
| 1,1 + 1,2 + 2,1 | ok     |
`),
    ],
  },
  *run(input) {
    for (const { log, review, tables, curedCell } of reviewsIn(input)) {
      for (const diode of review.phantoms.suspects) {
        const phantom = diode.explains[0];
        const span = phantom && spanOfPhantom(tables, phantom);
        if (span && !curedCell(diode))
          yield defined({
            span,
            ...diode.says,
            severity: diode.only ? undefined : ("information" as const),
          });
      }
      for (const phantom of review.phantoms.unexplained) {
        const { cell } = phantom;
        const span = spanOfPhantom(tables, phantom);
        if (span && !curedCell(cell))
          yield {
            span,
            severity: "information",
            fact: `The crossing at ${cellName(log.shape, cell)} showed although open.`,
            cause: "No rectangle of closed crossings explains it.",
            step: "Test it alone, and look for residue or a second closed switch.",
          };
      }
    }
  },
  noFix: "The result is what was seen; the fault is on the board.",
});

/** Where several were held and it showed, else where the closure that showed it was recorded. */
const spanOfPhantom = (tables: readonly LocatedResults[], { cell, closed }: Phantom) =>
  spanOfHeld(tables, cell) ?? (closed[0] && spanOfCell(tables, closed[0]));
