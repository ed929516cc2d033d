import { defined } from "../base/defined";
import { crossingsToClear } from "../compute/matrix/crossings";
import { type Crossing, cellName, nameOfCell, shapeOf } from "../compute/matrix/shape";
import { failedLines, type LineEvidence } from "../review/matrix/failed-lines";
import { documentCheck, type RelatedPlace } from "./check";
import { exampleLog } from "./example-board";
import { newTextOf } from "./fixes";
import { isBeingProven } from "./from-matrix";

export default documentCheck({
  code: "matrix-crossing-to-clear",
  title: "Switches to clear in the machine before the board goes back",
  severity: "warning",
  scope: "document",
  why: "When a part on a row and a part on a column have failed together, a lamp or coil supply has got onto the matrix, most likely at the switch where the two lines cross. Until it is cleared, the repaired board fails again at once.",
  remedy:
    "Have the named switches looked at with the machine's mains off and its supplies discharged; local codes and licensed practice apply. Name them in the log for the owner. Until the stage is proving this is only a reminder.",
  examples: {
    bad: [
      {
        text: exampleLog(
          `## Inspection

| Item  | Result |
|-------|--------|
| Board | ok     |

## Diode check before repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U30 | 1   | 1.42    |
              ^^^^ diode-out-of-window
| U31 | 2   | OL      |
              ^^ diode-out-of-window
              ^^ matrix-crossing-to-clear: row 1, column 2 (Start)

## Work done

| Ref | Action | Part |
|-----|--------|------|
| U14 | clean  |      |
`,
          "stage: proving\n",
        ),
        fixes: [
          {
            title: "Tell the owner at the end of the log",
            makes: `

+Before the board is plugged in, with the mains off and the supplies discharged, look for a switch, wire or diode that touches a lamp or coil supply at row 1, column 2 (Start).
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(
        `Owner to look at the lead of the Start button before plugging the board in.

## Work done

| Ref | Action  | Part   |
|-----|---------|--------|
| U30 | replace | 74LS14 |
| U31 | replace | 74145  |

## Diode check after repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U30 | 1   | 0.58    |
| U31 | 2   | 0.58    |

## Switch matrix before repair

| Row / column | 1    | 2    | 3    |
|--------------|------|------|------|
| 1            | dead | dead | dead |
| 2            | ok   | dead | ok   |
| 3            | ok   | dead | -    |

## Switch matrix after repair

| Row / column | 1  | 2  | 3  |
|--------------|----|----|----|
| 1            | ok | ok | ok |
| 2            | ok | ok | ok |
| 3            | ok | ok | -  |
`,
        "stage: proving\n",
      ),
    ],
  },
  *run(input) {
    const { doc, ctx } = input;
    const due = isBeingProven(input);
    for (const matrix of ctx.board?.value.matrices.values() ?? []) {
      const evidence = failedLines(doc, ctx, matrix);
      const rows = evidence.filter(({ line }) => line.kind === "row");
      const columns = evidence.filter(({ line }) => line.kind === "column");
      const [row, column] = [rows[0], columns[0]];
      if (!row || !column) continue;
      const shape = shapeOf(matrix);
      const crossings = crossingsToClear(shape, { rows: numbersOf(rows), columns: numbersOf(columns) });
      if (!crossings.ok) continue;
      const cells = crossings.cells;
      // Named in the log is told to whoever reads it; what is left is to do it.
      if (due && cells.every((cell) => isNamed(doc.text, cell, nameOfCell(shape, cell)))) continue;
      const [first, last] = row.span.start < column.span.start ? [row, column] : [column, row];
      const related: RelatedPlace[] = [first, last].map(({ span, says }) => ({
        uri: doc.uri,
        span,
        message: says,
      }));
      const names = cells.map((cell) => cellName(shape, cell)).join("; ");
      yield defined({
        span: last.span,
        fact: `${matrix.title}: ${row.says} and ${column.says}.`,
        cause: crossings.says.cause,
        step: `${crossings.caution} ${crossings.says.step}`,
        more: crossings.says.fact,
        related,
        severity: due ? undefined : ("information" as const),
        data: {
          newText: `Before the board is plugged in, with the mains off and the supplies discharged, look for a switch, wire or diode that touches a lamp or coil supply at ${names}.`,
        },
      });
    }
  },
  fixes: {
    tellOwner(finding, { text }) {
      const newText = newTextOf(finding);
      if (newText === undefined) return [];
      const eol = text.includes("\r\n") ? "\r\n" : "\n";
      const gap = text.endsWith(eol + eol) ? "" : text.endsWith(eol) ? eol : eol + eol;
      const span = { start: text.length, end: text.length };
      return [
        { title: "Tell the owner at the end of the log", edits: [{ span, newText: gap + newText + eol }] },
      ];
    },
  },
});

const numbersOf = (evidence: readonly LineEvidence[]): readonly number[] =>
  evidence.map(({ line }) => line.number);

/** The crossing is spoken of somewhere: by its name, or by its row and column. */
function isNamed(text: string, { row, column }: Crossing, name: string | undefined): boolean {
  if (name !== undefined && new RegExp(`(?<!\\w)${escaped(name)}(?!\\w)`, "i").test(text)) return true;
  return new RegExp(`row\\s*${row}\\b[\\s,]*(?:and\\s+)?col(?:umn)?\\s*${column}\\b`, "i").test(text);
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
