// The bench sheet: every place of the log with an empty cell, what is known of it, and the way back.
import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { sheetMarkdown, sheetOf } from "../../../server/src/report/sheet";
import { openWorld } from "../../support/workspace";

async function sheet(body: string, front = "") {
  const { service } = await openWorld(exampleLog(body, front));
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("no log");
  return sheetOf(view);
}
const DIODE =
  "## Diode check\n\n| Ref | Pin | Reading | Note |\n|---|---|---|---|\n| U14 | 2 | 0.58 | twice |\n| U20 | 5 |  |  |\n";

describe("a long table", () => {
  test("prints each place with its pin, its net and its window, and no reading", async () => {
    const { tables } = await sheet(DIODE);
    expect(tables).toHaveLength(1);
    expect(tables[0]).toMatchObject({ number: 1, heading: "Diode check", line: 8 });
    expect(tables[0]?.headers).toEqual(["Where", "Name", "Expected", "Reading (V)", "Note"]);
    expect(tables[0]?.rows[0]?.slice(0, 2)).toEqual(["U14 pin 2", "1Y, ROW_1"]);
    expect(tables[0]?.rows[1]).toEqual(["U20 pin 5", "1Q", "0.5 V to 0.56 V", "", ""]);
    expect(JSON.stringify(tables)).not.toMatch(/0\.58|twice/);
  });
});

test("a wide table is a row a pin of each chip", async () => {
  const { tables } = await sheet(
    "## Diode check\n\n| Pin | U14 | U15 |\n|---|---|---|\n| 1 | 0.58 | |\n| 2 | | |\n",
  );
  expect(tables[0]?.rows.map(([where]) => where)).toEqual([
    "U14 pin 1",
    "U15 pin 1",
    "U14 pin 2",
    "U15 pin 2",
  ]);
});

test("a matrix is its grid by the board's names, and what must not be bridged says so", async () => {
  const { tables } = await sheet("## Switch matrix\n\n| Switch | Result |\n|---|---|\n| Coin | ok |\n");
  expect(tables[0]?.rows).toEqual([
    ["1", "Coin:", "Start:", "Tilt:"],
    ["2", "Gate:", "Hole:", "Bell:"],
    ["3", "Door:", "Service:", "Clear memory (do not bridge)"],
  ]);
});

test("tables of work are empty rows, and proving keeps its items", async () => {
  const { tables } = await sheet(
    "## Work done\n\n| Ref | Action | Part |\n|---|---|---|\n| U14 | replaced | 74LS04 |\n\n## Proving\n\n| Item | Result |\n|---|---|\n| Work memory | ok |\n",
  );
  expect(tables[0]?.rows).toHaveLength(6);
  expect(tables[0]?.rows.flat().join("")).toBe("");
  expect(tables[1]?.rows).toEqual([["Work memory", ""]]);
});

test("cautions come first, each once, and the rows lead back to the log", async () => {
  const made = await sheet(
    `${DIODE}\n## Diode check after repair\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 2 | |\n`,
    "job: 2026-014\n",
  );
  expect(made.log).toBe("2026-014");
  const text = sheetMarkdown(made);
  expect(text.indexOf("## Cautions")).toBeLessThan(text.indexOf("Diode check"));
  const all = made.tables.flatMap(({ cautions }) => cautions);
  expect(all.length).toBeGreaterThan(0);
  expect(new Set(all).size).toBe(all.length);
  expect(text).toContain("| 2.1 | U14 pin 2 |");
});

test("a log without tables has a sheet that says so", async () => {
  expect((await sheet("Nothing yet.\n")).tables).toEqual([]);
});
