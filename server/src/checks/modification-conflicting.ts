import { placeIn } from "../log/timeline";
import { modificationsIn } from "../review/parts/modifications";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "modification-conflicting",
  title: "Two modifications that exclude each other",
  severity: "warning",
  scope: "document",
  why: "Two ways to the same end on the same pads work against each other: a battery that charges a capacitor, or a line pulled both ways.",
  remedy: "Take one of the two out again and write that down, or correct the row.",
  examples: {
    bad: [
      exampleLog(`## Work

| Ref | Action           | Part            |
|-----|------------------|-----------------|
| BT1 | fit modification | remote-cell     |
| BT1 | fit modification | cell-to-holder  |
                           ^^^^^^^^^^^^^^ modification-conflicting: "Holder in place of the cell" does not go with "Cell off the
`),
    ],
    good: [
      exampleLog(`## Work

| Ref | Action           | Part        |
|-----|------------------|-------------|
| BT1 | fit modification | remote-cell |
`),
    ],
  },
  *run({ doc, ctx }) {
    const done = modificationsIn(doc, ctx.board?.value).filter(({ modification }) => modification);
    for (const [index, { row, cell, modification }] of done.entries()) {
      const before = done
        .slice(0, index)
        .find(
          (other) =>
            modification?.conflicts.includes(other.modification?.id ?? "") ||
            other.modification?.conflicts.includes(modification?.id ?? ""),
        );
      if (!before?.modification || !modification) continue;
      yield {
        span: placeIn(row, cell),
        fact: `"${modification.title}" does not go with "${before.modification.title}", which is fitted above.`,
        step: "Take one of the two out, or correct the row.",
        related: [{ uri: doc.uri, span: placeIn(before.row, before.cell), message: "the other one" }],
      };
    }
  },
  noFix: "Which of the two stays is decided at the bench.",
});
