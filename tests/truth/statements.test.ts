// What a log bears out and what was once said of it all the same: each is false, and none may be said again.
import { describe, expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { diagnosisReport, diagnosisText } from "../../server/src/features/shared/diagnosis";
import { ownerMarkdown, ownerReport } from "../../server/src/report/owner";
import { partsList } from "../../server/src/review/parts/list";
import { openAt } from "../support/workspace";

const view = async (body: string) => (await openAt(`${exampleLog(body)}$0`)).view;
const report = async (body: string) => ownerReport(await view(body));
const diagnosed = async (body: string) => {
  const found = diagnosisReport(await view(body), 5);
  if (!found) throw new Error("no board");
  return diagnosisText("log.md", found);
};
const table = (heading: string, header: string, ...rows: readonly string[]) =>
  `## ${heading}\n\n| ${header} |\n|${"---|".repeat(header.split("|").length)}\n${rows.map((row) => `| ${row} |\n`).join("")}\n`;
const NO_FAILURE = "no reading outside its limits and no failed test";

describe("a chip that failed in a chip tester", () => {
  const FAILED = table("Chip test", "Ref | Result", "U14 | fail");

  test("was found wrong, says the diagnosis", async () => {
    const text = await diagnosed(FAILED);
    expect(text).not.toContain("Nothing was found wrong");
    expect(text).toContain("1. U14");
  });

  test("is in the owner's report, which does not say that no test failed", async () => {
    const text = ownerMarkdown(await report(FAILED));
    expect(text).not.toContain(NO_FAILURE);
    expect(text).toMatch(/\| U14 [^|]*\| chip test: fail \|/);
  });

  test("was found wrong even when it is replaced and waits to be read", async () => {
    const text = await diagnosed(
      FAILED + table("Work done", "Ref | Action | Part", "U14 | replaced | 74LS04"),
    );
    expect(text).not.toContain("Nothing was found wrong");
    expect(text).toContain("U14");
  });
});

describe("a known-good part put in and put back", () => {
  const ONE_ROW = table("Swap test", "Ref | Part | Result | Then", "U14 | 74LS04 | same | put back");
  const TWO_ROWS = table(
    "Work done",
    "Ref | Action | Part",
    "U14 | swapped for a known-good one | 74LS04",
    "U14 | old one put back |",
  );
  const UNSAID = table("Swap test", "Ref | Part | Result", "U14 | 74LS04 | same");

  test.each([
    ["in a table of swaps", ONE_ROW],
    ["in two rows of work", TWO_ROWS],
    ["where nothing says that it stayed", UNSAID],
  ])("is not fitted: %s", async (_, body) => {
    expect(partsList(await view(body)).fitted).toEqual([]);
    const { fitted, done } = await report(body);
    expect(fitted).toEqual([]);
    // The part that was tried is not in the column of parts that went in, nor named without a word of its leaving.
    expect(done.map(({ part }) => part)).not.toContain("74LS04");
    for (const { note } of done.filter(({ note }) => note?.includes("74LS04")))
      expect(note).toBe("74LS04 tried, not left in");
  });

  test.each([
    ["in a table of swaps", table("Swap test", "Ref | Part | Result", "U14 | 74LS04 | same")],
    ["in two rows of one table", TWO_ROWS],
  ])("takes back nothing that was replaced before: %s", async (_, trial) => {
    const body = table("Work done", "Ref | Action | Part", "U14 | replaced | 74LS04") + trial;
    expect(partsList(await view(body)).fitted).toMatchObject([{ part: "74LS04", refs: ["U14"] }]);
  });

  test("is fitted where it stayed", async () => {
    const body = table("Swap test", "Ref | Part | Result | Then", "U14 | 74LS04 | cured | left in");
    expect(partsList(await view(body)).fitted).toMatchObject([{ part: "74LS04", refs: ["U14"] }]);
    expect((await report(body)).done).toMatchObject([{ part: "74LS04" }]);
  });
});

describe("no failed test", () => {
  test.each([
    ["a swap that cured", table("Swap test", "Ref | Part | Result | Then", "U14 | 74LS04 | cured | left in")],
    ["a proving row that failed", table("Proving", "Item | Result", "Supplies on load | fail")],
    ["a soak that failed", table("Soak", "Time | Result", "10 min | reset by itself")],
    [
      "a crossing of a matrix that no board file has",
      table("Switch matrix", "Switch | Result", "Bonus gate | dead"),
    ],
    [
      "a memory test with failing bits",
      table("Memory test", "Ref | Address | Bits | Result", "U32 | 0100 | 2 | fail"),
    ],
  ])("is not said after %s", async (_, body) => {
    expect(ownerMarkdown(await report(body))).not.toContain(NO_FAILURE);
  });

  test.each([
    ["an empty log", ""],
    [
      "a swap that changed nothing",
      table("Swap test", "Ref | Part | Result | Then", "U14 | 74LS04 | same | put back"),
    ],
    ["a chip the tester did not refuse", table("Chip test", "Ref | Result", "U14 | pass")],
    ["a proving row that works", table("Proving", "Item | Result", "Supplies on load | ok")],
  ])("is said of %s", async (_, body) => {
    expect(ownerMarkdown(await report(body))).toContain(NO_FAILURE);
  });
});
