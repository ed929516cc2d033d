import { defined } from "../base/defined";
import { swapOutcome } from "../log/timeline/swaps";
import { staysIn } from "../log/timeline/work";
import { blockCheck, type Finding, type Fix } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "swap-left-open",
  title: "A swap that does not say which part stayed",
  severity: "information",
  scope: "block",
  why: "What stays in the board is a part fitted: it belongs in the parts list, the bill and the owner's report. What was put back does not. Until the row says which, the part counts as put back.",
  remedy: 'Write "left in" or "put back" under Then, or in the note.',
  examples: {
    bad: [
      {
        text: exampleLog(`## Swap test

| Ref | Part   | Result | Then |
|-----|--------|--------|------|
| U14 | 74LS04 | same   |      |
                 ^^^^ swap-left-open: U14: the row does not say whether the other part was left in or put back
`),
        fixes: [
          {
            title: 'Write "put back"',
            makes: `
 |-----|--------|--------|------|
-| U14 | 74LS04 | same   |      |
+| U14 | 74LS04 | same   | put back |
`,
          },
          {
            title: 'Write "left in"',
            makes: `
 |-----|--------|--------|------|
-| U14 | 74LS04 | same   |      |
+| U14 | 74LS04 | same   | left in |
`,
          },
        ],
      },
      exampleLog(`## Swap test

| Ref | Result |
|-----|--------|
| U14 | worse  |
        ^^^^^ swap-left-open: U14: the row does not say whether the other part was left in or put back
`),
    ],
    good: [
      exampleLog(`## Swap test

| Ref | Result         | Note               |
|-----|----------------|--------------------|
| U14 | same, put back |                    |
| U15 | worse          | original refitted  |
`),
    ],
  },
  *run({ block }) {
    for (const table of block.tables) {
      if (table.kind.holds !== "swaps") continue;
      const at = table.columns.findIndex((column) => column.spec?.role === "action");
      for (const row of table.rows) {
        const { ref, result } = row.cells;
        if (!ref || !result || swapOutcome(result.text) === undefined || staysIn(row) !== undefined) continue;
        const cell = table.source.rows[row.index]?.cells[at];
        yield defined({
          span: result.span,
          fact: `${ref.text}: the row does not say whether the other part was left in or put back.`,
          cause: "Until it does, it counts as put back.",
          step: "Write it into the row.",
          data: cell?.text === "" ? { from: cell.span.start - result.span.start } : undefined,
        });
      }
    }
  },
  fixes: {
    sayPutBack: (finding, { text }): Fix[] => say(finding, text, "put back"),
    sayLeftIn: (finding, { text }): Fix[] => say(finding, text, "left in"),
  },
});

/** Into the empty cell, in the room that its blanks leave. */
function say({ data, span }: Finding, text: string, words: string): Fix[] {
  const from = (data as { readonly from: number } | undefined)?.from;
  if (from === undefined) return [];
  const start = span.start + from;
  const room = /^ */.exec(text.slice(start))?.[0].length ?? 0;
  const end = start + Math.max(0, Math.min(room - 1, words.length));
  return [{ title: `Write "${words}"`, edits: [{ span: { start, end }, newText: words }] }];
}
