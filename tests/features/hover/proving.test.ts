import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { hoverAt } from "../../support/features";

const BODY = `## Prov$0ing

| Item   | Result | Note          |
|--------|--------|---------------|
| memory | ok     |               |
| soak   |        | <b>no time</b> |
| rails  | fail   |               |
`;

test("the heading of a proving table tells what of the board's list is proven", async () => {
  const hover = await hoverAt(exampleLog(BODY));
  expect(hover?.on).toBe("Proving");
  const lines = hover?.markdown.split("\n") ?? [];
  expect(lines[0]).toBe("**Proving list of Example board:** 1 of 4 proven");
  expect(lines.find((line) => line.includes("Work memory"))).toMatch(/^- proven: .*says "ok"/);
  expect(lines.find((line) => line.includes("Supplies"))).toMatch(/^- \*\*failed\*\*: .*says "fail"/);
  expect(lines.find((line) => line.includes("Every switch"))).toMatch(/^- \*unproven\*: .*0 of 6/);
  // What was typed makes no HTML.
  expect(lines.find((line) => line.includes("One hour"))).toContain("the log says why: \\<b\\>no time");
});

test("so does the value of the stage, below what the stages are", async () => {
  const hover = await hoverAt(exampleLog(BODY.replace("$0", ""), "stage: prov$0ing\n"));
  expect(hover?.on).toBe("proving");
  expect(hover?.markdown).toMatch(/One of: `received`[\s\S]*---[\s\S]*1 of 4 proven/);
});
