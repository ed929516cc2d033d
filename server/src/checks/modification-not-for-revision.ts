import { placeIn } from "../log/timeline";
import { modificationsIn } from "../review/parts/modifications";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { placesInBoard } from "./in-board";

export default documentCheck({
  code: "modification-not-for-revision",
  title: "A modification that is not for this revision",
  severity: "warning",
  scope: "document",
  why: "A later issue often has the change on the board already; made twice, it undoes itself or loads the supply.",
  remedy: "Check the revision on the board and in the front matter, or leave the modification out.",
  examples: {
    bad: [
      exampleLog(
        `## Work

| Ref | Action           | Part        |
|-----|------------------|-------------|
| BT1 | fit modification | remote-cell |
                           ^^^^^^^^^^^ modification-not-for-revision: revision B
`,
        "revision: B\n",
      ),
    ],
    good: [
      exampleLog(
        `## Work

| Ref | Action           | Part        |
|-----|------------------|-------------|
| BT1 | fit modification | remote-cell |
`,
        "revision: A\n",
      ),
    ],
  },
  *run({ doc, ctx, front }) {
    const { revision } = front;
    if (revision === undefined) return;
    for (const { row, cell, modification } of modificationsIn(doc, ctx.board?.value)) {
      if (!modification || modification.revisions.length === 0) continue;
      if (modification.revisions.includes(revision)) continue;
      yield {
        span: placeIn(row, cell),
        fact: `"${modification.title}" is for revision ${modification.revisions.join(" and ")}; this board is revision ${revision}.`,
        step: "Check which one it is before you cut anything.",
        related: placesInBoard(["modifications", modification.id], "its revisions are here", ctx),
      };
    }
  },
  noFix: "The board shows which revision it is.",
});
