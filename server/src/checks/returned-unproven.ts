import { defined } from "../base/defined";
import { frontSpan } from "../log/front";
import { type ItemReview, provingReview } from "../review/proving";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

const WORK = `## Inspection

| Item  | Result |
|-------|--------|
| Board | ok     |

## Work done

| Ref | Action | Part |
|-----|--------|------|
| U14 | clean  |      |
`;

export default documentCheck({
  code: "returned-unproven",
  title: "Returned with an item of the board's proving list unproven",
  severity: "warning",
  scope: "document",
  why: "The board file lists what a board must be seen to do before it leaves. If the log does not show an item, or shows it failed, the owner finds out. What was seen before the last repair no longer counts.",
  remedy:
    "Prove the items named and write them into the proving table. Where an item could not be tested, leave its result empty and say why in the note, for the owner to check; an item that failed goes back to the bench.",
  examples: {
    bad: [
      exampleLog(
        `${WORK}
## Proving

| Item                        | Result |
|-----------------------------|--------|
| Every switch row and column | ok     |
| Memory                      | fail   |
`,
        'returned: 2026-03-20\nstage: returned\n       ^^^^^^^^ returned-unproven: "Work memory" (failed), "Supplies on load" and 1 more\n',
      ),
    ],
    good: [
      exampleLog(
        `${WORK}
## Supply rails, loaded, after repair

| Rail    | Reading |
|---------|---------|
| +5V     | 5.01 V  |
| +9V raw | 9.1 V   |
| +24V    | 24.2 V  |

## Proving

| Item                        | Result | Note                                      |
|-----------------------------|--------|-------------------------------------------|
| Every switch row and column | ok     |                                           |
| Work memory                 | pass   |                                           |
| One hour on the bench       | -      | owner collected it early, told to watch it |
`,
        "returned: 2026-03-20\nstage: returned\n",
      ),
      exampleLog(WORK, "stage: proving\n"),
    ],
  },
  *run({ doc, ctx, front }) {
    const span = frontSpan(doc, ["stage"]);
    if (front.stage !== "returned" || !span) return;
    const failedFirst = ({ state }: ItemReview): number => (state === "failed" ? 0 : 1);
    const open = provingReview(doc, ctx)
      .items.filter(isOpen)
      .sort((a, b) => failedFirst(a) - failedFirst(b));
    const [first] = open;
    if (!first) return;
    const related = open.flatMap(({ item, said, state }) =>
      said.slice(0, 1).map((each) => ({
        uri: doc.uri,
        span: each.span,
        message: `${item.title}: ${each.text}${state === "failed" ? "" : ", which does not prove it"}`,
      })),
    );
    yield defined({
      span,
      fact: `The stage is "returned", but ${open.length} ${open.length === 1 ? "item" : "items"} of the proving list ${open.length === 1 ? "is" : "are"} not proven.`,
      cause: `Open: ${named(open)}.`,
      step: "Write their proof into the proving table, or the reason into its note.",
      more: open.map(({ item, wants }) => `${item.title}: ${wants}`).join(" "),
      related: related.length > 0 ? related : undefined,
    });
  },
  noFix: "What is unproven has to be tried, or the reason given; only the person at the bench can do either.",
});

/** A reason given excuses what was not tested, never what failed. */
const isOpen = ({ state, reason }: ItemReview): boolean =>
  state === "failed" || (state === "unproven" && reason === undefined);

/** Items named in a message. */
const NAMED = 2;

function named(open: readonly ItemReview[]): string {
  const words = open
    .slice(0, NAMED)
    .map(({ item, state }) => `"${item.title}"${state === "failed" ? " (failed)" : ""}`);
  const rest = open.length - words.length;
  return rest > 0 ? `${words.join(", ")} and ${rest} more` : words.join(" and ");
}
