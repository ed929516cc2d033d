import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { lensesOf, lensTitle } from "../../../server/src/features/code-lens";
import type { LogView } from "../../../server/src/features/view";
import { demoText, openDemo } from "../../support/demo";
import { openAt } from "../../support/workspace";

const suspectsIn = (view: LogView) => lensesOf(view).filter(({ of }) => of === "log" || of === "section");

/** Every lens as "the line it stands above: what it says". */
async function lensesIn(text: string): Promise<string[]> {
  const { view } = await openAt(`${text}$0`);
  return suspectsIn(view).map((lens) => {
    const { start } = lens.span;
    const from = view.doc.text.lastIndexOf("\n", start - 1) + 1;
    const line = view.doc.text.slice(from).split("\n")[0] ?? "";
    const told = lensTitle(view, lens);
    return `${line} | ${told?.title}${told?.writes ? " | writes" : ""}`;
  });
}

const BODY = `## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 1.42    |

## Resistance

| Ref | Reading |
|-----|---------|
| R12 | 12 k    |

## Diode check, a chip without trouble

| Ref | Pin | Reading |
|-----|-----|---------|
| U15 | 3   | 0.58    |
`;

test("one over the symptoms, one over each heading whose readings point somewhere", async () => {
  const lenses = await lensesIn(exampleLog(BODY, "symptoms: [dead]\n"));
  expect(lenses).toEqual([
    expect.stringMatching(
      /^symptoms: \[dead\] \| Suspects: .*R12 .*U14 .*· next: .* about \d+ (?:s|min) \| writes$|^symptoms: \[dead\] \| Suspects: .*U14 .*R12 .*· next: .* about \d+ (?:s|min) \| writes$/,
    ),
    expect.stringMatching(/^## Diode check \| 1 finding here points to U14 (about|over) \d+ %/),
    expect.stringMatching(/^## Resistance \| 1 finding here points to R12 (about|over) \d+ %/),
  ]);
});

test("without symptoms it stands at the top of the log", async () => {
  expect((await lensesIn(exampleLog(BODY)))[0]).toMatch(/^--- \| Suspects: /);
});

test("none for a board that has left, none where nothing is wrong, none without a board", async () => {
  expect(await lensesIn(exampleLog(BODY, "stage: returned\n"))).toEqual([]);
  expect(await lensesIn(exampleLog(BODY, "stage: scrapped\n"))).toEqual([]);
  expect(await lensesIn(exampleLog(BODY.replace("1.42", "0.55").replace("12 k", "4.7 k")))).toEqual([]);
  expect(await lensesIn(exampleLog(BODY).replace("board: example", "board: none"))).toEqual([]);
});

test("where a slip is likelier than any part, the slip is named", async () => {
  const twice = BODY.replace("| U14 | 2   | 1.42    |", "| U14 | 2   | 1.42    |\n| U14 | 2   | 0.56    |");
  const [top] = await lensesIn(exampleLog(twice.replace("12 k", "4.7 k")));
  expect(top).toMatch(/Suspects: a mistake in the reading of U14 pin 2 (about|over) \d+ %, .*U14 about/);
});

test("a lens of another place or of a text that has moved is not filled in", async () => {
  const { view } = await openAt(`${exampleLog(BODY)}$0`);
  const [top, section] = suspectsIn(view);
  expect(lensTitle(view, { ...section!, span: { start: 1, end: 2 } })).toBeUndefined();
  expect(lensTitle(view, { ...top!, of: "section" })).toBeUndefined();
});

test("the demo's open logs have lenses that fit on a line", async () => {
  const service = await openDemo();
  const uri = "mem:/demo/logs/2026-018-controller.md";
  service.open(uri, demoText(uri));
  const view = service.view(uri)!;
  const titles = suspectsIn(view).map((lens) => lensTitle(view, lens)?.title ?? "");
  expect(titles).toHaveLength(5);
  for (const title of titles) {
    expect(title).toMatch(/U12|U14/);
    expect(title.length).toBeLessThan(160);
  }
});
