import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { lensesOf, lensTitle } from "../../../server/src/features/code-lens";
import { slice } from "../../../server/src/text/span";
import { demoLogs, openDemo } from "../../support/demo";
import { openAt } from "../../support/workspace";

async function lenses(text: string): Promise<string[]> {
  const { view } = await openAt(`${text}$0`);
  return lensesOf(view)
    .filter(({ of }) => of === "empty")
    .map((lens) => `${slice(view.doc.text, lens.span).trim()} | ${lensTitle(view, lens)?.title}`);
}

test("a heading of readings with nothing below it says what to do", async () => {
  const body = "# Job\n\n## Diode check\n\n## Diode check U14\n\n  \n## Supply rails\n\n## Switch matrix\n";
  expect(await lenses(exampleLog(body))).toEqual([
    "## Diode check | Nothing here yet: type a designator, or insert a table",
    "## Diode check U14 | Nothing here yet: type U14, or insert a table",
    "## Supply rails | Nothing here yet: insert a table",
    "## Switch matrix | Nothing here yet: insert a table",
  ]);
});

test("without a board a chip needs its number, and the rails begin with the one that every board has", async () => {
  expect(
    await lenses("---\nmendlog: 1\n---\n\n## Diode check\n\n## Supply rails\n\n## Switch matrix\n"),
  ).toEqual([
    "## Diode check | Nothing here yet: type a designator and its number, such as U5 7404, or insert a table",
    "## Supply rails | Nothing here yet: insert a table",
  ]);
});

test("a caution before the work is not the work", async () => {
  const body =
    "## Diode check\n\n> Caution: power off, and the big capacitor discharged.\n> Then wait.\n\n## Supply rails\n\n> **Caution**: the lead slips.\n";
  expect(await lenses(exampleLog(body))).toEqual([
    "## Diode check | Nothing here yet: type a designator, or insert a table",
    "## Supply rails | Nothing here yet: insert a table",
  ]);
});

test.each([
  ["a quotation", exampleLog("## Diode check\n\n> It was warm, says the owner.\n")],
  ["words below a caution", exampleLog("## Diode check\n\n> Caution: power off.\n\nNot needed.\n")],
  ["prose", exampleLog("## Diode check\n\nNot needed: nothing is warm.\n")],
  ["a word being typed", exampleLog("## Diode check\n\nU\n")],
  ["a comment", exampleLog("## Diode check\n\n<!-- later -->\n")],
  ["a table", exampleLog("## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n")],
  ["a table under a smaller heading", exampleLog("## Diode check\n\n### U14\n\nSee above.\n")],
  ["a heading that no procedure knows", exampleLog("## Thoughts\n")],
  ["a procedure that the board has no table for", exampleLog("## Inspection\n\n## Lamp matrix\n")],
  ["a board that has left", exampleLog("## Diode check\n", "stage: returned\n")],
])("%s says nothing", async (_, text) => {
  expect(await lenses(text)).toEqual([]);
});

test("the lens goes when something is typed below its heading, and is not filled in any more", async () => {
  const { view, service, uri } = await openAt(exampleLog("## Diode check\n\n$0\n"));
  const [lens] = lensesOf(view).filter(({ of }) => of === "empty");
  service.open(uri, exampleLog("## Diode check\n\nU\n"));
  const now = service.view(uri);
  expect(now && lens && lensTitle(now, lens)).toBeUndefined();
  expect(lens).toBeDefined();
});

test("the demo's logs have none, as every section of theirs is filled in", async () => {
  const service = await openDemo();
  const found = demoLogs.flatMap(([uri, text]) => {
    service.open(uri, text);
    const view = service.view(uri);
    return view ? lensesOf(view).filter(({ of }) => of === "empty") : [];
  });
  expect(found).toEqual([]);
});
