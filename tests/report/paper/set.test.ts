// A job of several boards: one report and one bill of all its logs, whichever of them is asked for.
import { expect, test } from "vitest";
import { openWorld } from "../../support/workspace";

const SHOP = `mendlog-shop: 1
name: Bench
currency: EUR
labour: { rate: "40.00", per: hour }
stock:
  - { part: 74LS04, quantity: 3, price: "0.55" }
`;
const log = (name: string, front: string, body: string) =>
  `//- ${name}.md\n---\nmendlog: 1\nboard: example\n${front}---\n\n${body}\n`;
const CONTROLLER =
  "## Hours\n\n- 2026-03-04: 1 h readings\n\n## Chip test\n\n| Ref | Result |\n|---|---|\n| U14 | fail |\n";
const DRIVER =
  "## Hours\n\n- 2026-03-04: 0.5 h more\n\n## Work done\n\n| Ref | Action | Part |\n|---|---|---|\n| U15 | replaced | 74LS04 |\n";

async function papers(driver = "job: 2026-014\nowner: K. Example\nserial: '2'\nstage: returned\n") {
  const { service } = await openWorld(
    log("a", "job: 2026-014\nowner: K. Example\nserial: '1'\nstage: returned\n", CONTROLLER) +
      log("b", driver, DRIVER) +
      log("c", "job: 2026-015\nowner: K. Example\n", "## Hours\n\n- 2026-03-04: 9 h\n") +
      `//- mendlog.shop.yaml\n${SHOP}`,
  );
  const json = async (paper: "bill" | "report", name: string) =>
    JSON.parse((await service.paper(paper, `mem:/ws/${name}.md`, "json")) ?? "");
  return { bill: await json("bill", "a"), other: await json("bill", "b"), report: await json("report", "a") };
}

test("the bill has the hours and parts of all boards, and the same total from either log", async () => {
  const { bill, other } = await papers();
  expect(bill.draft).toBeUndefined();
  // 1.5 h at 40.00 and one part at 0.55.
  expect(bill.table.lines.map(({ total }: { total: string }) => total)).toEqual(["60.00", "0.55"]);
  expect(bill.table.sums.at(-1).text).toBe("60.55");
  expect(other.table.sums).toEqual(bill.table.sums);
  expect(bill.title).toBe("Bill: Example board 1, Example board 2");
});

test("the report says of which board each thing is, and has the proving of both", async () => {
  const { report } = await papers();
  expect(report.found[0].where).toMatch(/^Example board 1: U14/);
  expect(report.done[0].where).toMatch(/^Example board 2: U15/);
  expect(report.proving).toHaveLength(8);
  expect(report.facts).toContainEqual({
    label: "With it",
    text: expect.stringMatching(/^Example board 2, proven: /),
  });
});

test("a log about several boards has each line under the board's short name, and the whole name once", async () => {
  const { service } = await openWorld(
    `//- set.md\n---\nmendlog: 1\njob: 2026-016\nboards:\n  upper: { board: example, serial: "1" }\n  lower: { board: example, serial: "2" }\nstage: repairing\n---\n\n## Upper\n\n### Chip test\n\n| Ref | Result |\n|---|---|\n| U14 | fail |\n\n## Lower\n\n### Work done\n\n| Ref | Action | Part |\n|---|---|---|\n| U15 | replaced | 74LS04 |\n//- mendlog.shop.yaml\n${SHOP}`,
  );
  const text = (await service.paper("report", "mem:/ws/set.md", "json")) ?? "";
  const report = JSON.parse(text);
  expect(report.title).toBe("Repair report: Example board 1, Example board 2");
  expect(report.found[0].where).toMatch(/^upper: U14/);
  expect(report.done[0].where).toMatch(/^lower: U15/);
  expect(report.proving.map(({ item }: { item: string }) => item.split(":")[0])).toEqual([
    ...Array(4).fill("upper"),
    ...Array(4).fill("lower"),
  ]);
  expect(report.facts).toContainEqual({ label: "Board", text: "upper: Example board" });
  expect(report.facts).toContainEqual({
    label: "With it",
    text: expect.stringMatching(/^lower: Example board 2, proven: /),
  });
  // In the title, and where the report says which board is which.
  expect(text.match(/Example board/g)).toHaveLength(4);
});

test("both are drafts while one board is still here", async () => {
  const { bill, report } = await papers("job: 2026-014\nowner: K. Example\nserial: '2'\nstage: repairing\n");
  expect(bill.draft).toContain('"repairing"');
  expect(report.draft).toMatch(/^Example board 2: The job is at "repairing"/);
});

test("another owner's log with the same number by a slip is none of the job", async () => {
  const { bill, report } = await papers("job: 2026-014\nowner: Somebody else\nstage: repairing\n");
  expect(bill.table.sums.at(-1).text).toBe("40.00");
  expect(report.title).toBe("Repair report: Example board 1");
});
