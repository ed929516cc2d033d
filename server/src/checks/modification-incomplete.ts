import { defined } from "../base/defined";
import { someOf } from "../compute/nets/net-text";
import { placeIn } from "../log/timeline";
import { modificationsIn, neededParts } from "../review/parts/modifications";
import { nearest } from "../text/nearest";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { replaceWithData } from "./fixes";

export default documentCheck({
  code: "modification-incomplete",
  title: "A modification without all that belongs to it",
  severity: "warning",
  scope: "document",
  why: "Half a modification is worse than none: a cut track without its jumper, or clamp diodes missing where the next modification counts on them.",
  remedy:
    "Fit what is missing and write it under parts fitted, or write the modification that this one needs as a row of its own. Where the board file has no such modification, correct its name or add it there.",
  examples: {
    bad: [
      exampleLog(`## Work

| Ref | Action           | Part          |
|-----|------------------|---------------|
| J3  | fit modification | line-series   |
                           ^^^^^^^^^^^ modification-incomplete: needs line-clamps
`),
      exampleLog(`## Work

| Ref | Action           | Part        |
|-----|------------------|-------------|
| J3  | fit modification | line-clamps |
                           ^^^^^^^^^^^ modification-incomplete: 12 of 1N4148

## Parts fitted

| Part   | Quantity |
|--------|----------|
| 1N4148 | 4        |
`),
      {
        text: exampleLog(`## Work

| Ref | Action           | Part       |
|-----|------------------|------------|
| BT1 | fit modification | remote-cel |
                           ^^^^^^^^^^ modification-incomplete: Did you mean remote-cell?
`),
        fixes: [
          {
            title: "Change to remote-cell",
            makes: `
 |-----|------------------|------------|
-| BT1 | fit modification | remote-cel |
+| BT1 | fit modification | remote-cell |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Work

| Ref | Action           | Part        |
|-----|------------------|-------------|
| J3  | fit modification | line-clamps |

## Parts fitted

| Part   | Quantity |
|--------|----------|
| 1N4148 | 12       |
`),
    ],
  },
  *run({ doc, ctx }) {
    const board = ctx.board?.value;
    if (!board || board.modifications.size === 0) return;
    const done = modificationsIn(doc, board);
    if (done.length === 0) return;
    const ids = new Set(done.flatMap(({ modification }) => modification?.id ?? []));
    const needed = neededParts(
      doc,
      done.flatMap(({ modification }) => modification ?? []),
    );
    const told = new Set<string>();
    for (const { row, cell, modification } of done) {
      const span = placeIn(row, cell);
      if (!modification) {
        if (!row.part) continue;
        const near = nearest(cell.text, board.modifications.keys());
        yield defined({
          span,
          fact: `${board.title} has no modification "${cell.text}".`,
          step: near ? `Did you mean ${near}?` : `There are ${someOf([...board.modifications.keys()])}.`,
          data: near ? { newText: near } : undefined,
        });
        continue;
      }
      if (told.has(modification.id)) continue;
      told.add(modification.id);
      const needs = modification.requires.filter((id) => !ids.has(id));
      const missing = needed.filter((part) => part.modification === modification);
      if (needs.length === 0 && missing.length === 0) continue;
      const list = missing.map(({ part, quantity, has }) =>
        has === 0 ? `${quantity} of ${part}` : `${quantity} of ${part} (${has} written)`,
      );
      const sentences = [
        ...(needs.length > 0 ? [`It needs ${needs.join(" and ")}, which has no row here.`] : []),
        ...(list.length > 0 ? [`It takes ${someOf(list, 4)}, which parts fitted does not list.`] : []),
      ];
      yield {
        span,
        fact: `"${modification.title}" is not complete.`,
        cause: sentences.join(" "),
        step: "Add what is missing.",
        more: list.length > 4 ? `It takes ${list.join(", ")}.` : undefined,
      };
    }
  },
  fixes: { change: (finding) => replaceWithData(finding, (name) => `Change to ${name}`) },
});
