import { defined } from "../base/defined";
import { placeIn, workRows } from "../log/timeline";
import { stopsCharging } from "../review/parts/backup-cell";
import { emptyPlaces } from "../review/parts/suggest";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "removed-and-not-replaced",
  title: "A part was taken off and nothing was fitted there",
  severity: "warning",
  scope: "document",
  why: "An empty place is easily forgotten between two evenings, and the board goes back without a part.",
  remedy:
    "Write down what was fitted there, or name the modification that does without it. Until the stage is proving this is only a reminder.",
  examples: {
    bad: [
      exampleLog(
        `## Work

| Ref | Action  | Part |
|-----|---------|------|
| C5  | removed |      |
  ^^ removed-and-not-replaced: nothing says what was fitted
`,
      ),
    ],
    good: [
      exampleLog(
        `## Work

| Ref | Action  | Part       |
|-----|---------|------------|
| C5  | removed |            |
| C5  | fitted  | 10 uF 25 V |
`,
      ),
    ],
  },
  *run({ doc, ctx, front }) {
    const due = front.stage === "proving" || front.stage === "returned";
    const empty = new Set(emptyPlaces({ doc, ctx }));
    if (empty.size === 0) return;
    for (const row of workRows(doc)) {
      if (row.kind !== "work" || row.action !== "remove" || !row.ref) continue;
      // What charged a battery stays out where a lithium cell takes its place.
      if (row.refs.every((ref) => /^[RD]\d/.test(ref)) && stopsCharging(row, ctx)) continue;
      const open = row.refs.filter((ref) => empty.delete(ref));
      if (open.length === 0) continue;
      yield defined({
        span: placeIn(row, row.ref),
        severity: due ? undefined : ("information" as const),
        fact: `${open.join(", ")} ${open.length === 1 ? "was" : "were"} removed, and nothing says what was fitted there.`,
        step: "Add a row for the new part, or for the modification that does without it.",
      });
    }
  },
  noFix: "Only the board shows what is there now.",
});
