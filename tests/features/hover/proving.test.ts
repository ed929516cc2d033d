import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { hoverAt, hoverTextAt, sectionsOf } from "../../support/features";

const BODY = `## Prov$0ing

| Item   | Result | Note          |
|--------|--------|---------------|
| memory | ok     |               |
| soak   |        | <b>no time</b> |
| rails  | fail   |               |
`;

test("the heading of a proving table tells what of the board's list is proven; what was typed makes no HTML", async () => {
  const [list, procedure] = sectionsOf(await hoverTextAt(exampleLog(BODY)));
  expect(list).toMatchInlineSnapshot(`
    "[Proving]
    **Proving list of Example board:** 1 of 4 proven

    - **failed**: Supplies on load (the proving table says "fail". Find the cause, repair it, and prove it again.)
    - proven: Work memory (the proving table says "ok")
    - *unproven*: Every switch row and column (0 of 6 rows and columns that answer. Test a crossing on every row and column of Switch matrix. Or write a row "Every switch row and column" into the proving table, with its result, or with the reason in the note.)
    - *unproven*: One hour on the bench (0 of 60 minutes of soak. The log says why: \\<b\\>no time\\</b\\>. Let it run for 1 h and check on it: no row says that it ran. Or write a row "One hour on the bench" into the proving table, with its result, or with the reason in the note.)"
  `);
  expect(procedure).toMatch(/^\*\*Proving\*\* · powered/);
});

test("so does the value of the stage, below what the stages are", async () => {
  const hover = await hoverAt(exampleLog(BODY.replace("$0", ""), "stage: prov$0ing\n"));
  expect(hover?.on).toBe("proving");
  expect(hover?.markdown).toMatch(/One of: `received`[\s\S]*---[\s\S]*1 of 4 proven/);
});
