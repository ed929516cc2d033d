import { spanOfCell, spanOfLine } from "../review/matrix/log-review";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { reviewsIn } from "./from-matrix";

export default documentCheck({
  code: "matrix-dead",
  title: "A dead row, column or crossing of a matrix",
  severity: "warning",
  scope: "document",
  why: "What the dead crossings have in common is the fault: a whole row or column is its driver, its input or its pin; a lone crossing is a track, or in the machine the switch or lamp itself.",
  remedy:
    "Look at what the line's crossings share, repair it, and test a crossing on it again under a heading such as `Switch matrix after repair`. The finding goes when one works there.",
  examples: {
    bad: [
      exampleLog(`## Switch matrix

| Row / column | 1    | 2  | 3    |
|--------------|------|----|------|
| 1            | ok   | ok | ok   |
| 2            | dead | no | dead |
  ^ matrix-dead: All 3 crossings tested on row 2 (SW_ROW_2) are dead
| 3            | ok   | ok | -    |
`),
      exampleLog(`## Switch matrix

| Row | Column | Result |
|-----|--------|--------|
| 1   | 1      | ok     |
| 1   | 2      | ok     |
| 2   | 2      | dead   |
                 ^^^^ matrix-dead: The crossing at row 2, column 2 (Hole) is dead; its row and its column answer elsewhere
| 2   | 3      | ok     |
| 3   | 1      | ok     |
`),
    ],
    good: [
      exampleLog(`## Switch matrix before repair

| Row / column | 1    | 2    | 3    |
|--------------|------|------|------|
| 1            | ok   | ok   | ok   |
| 2            | dead | dead | dead |
| 3            | ok   | ok   | -    |

## Switch matrix after repair

| Row / column | 1  | 2  | 3  |
|--------------|----|----|----|
| 2            | ok | ok | ok |
`),
    ],
  },
  *run(input) {
    for (const { log, review, tables, cured, curedCell } of reviewsIn(input)) {
      const { dead } = review;
      if (dead.nothingAnswers !== undefined) {
        const first = dead.lines[0];
        const cell = dead.cells[0];
        const span = (first && spanOfLine(tables, first)) ?? (cell && spanOfCell(tables, cell));
        if (span && !log.tables.some(({ phase, entries }) => phase > tables[0]!.phase && entries.length > 0))
          yield { span, ...dead.nothingAnswers };
        continue;
      }
      for (const line of dead.lines) {
        const span = spanOfLine(tables, line);
        if (span && !cured(line)) yield { span, ...line.says };
      }
      for (const cell of dead.cells) {
        const span = spanOfCell(tables, cell);
        if (span && !curedCell(cell)) yield { span, ...cell.says };
      }
    }
  },
  noFix: "The result is what was seen; the fault is on the board.",
});
