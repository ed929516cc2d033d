// Cells that name several pins, and sentences that Markdown takes for rows.
import { describe, expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { applyEdits } from "../../server/src/text/edits";
import { openWorld } from "../support/workspace";

const HEAD = "## Diode check\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n";
const URI = "mem:/ws/log.md";

async function fixed(body: string, code: string): Promise<string> {
  const { service } = await openWorld(exampleLog(body));
  const finding = service.findings(URI).find((one) => one.code === code);
  const [fix] = finding ? service.fixes(URI, finding) : [];
  if (!fix) throw new Error("no fix");
  return applyEdits(service.text(URI) ?? "", fix.edits).slice(exampleLog("").length);
}
const codes = async (body: string) =>
  (await openWorld(exampleLog(body))).service.findings(URI).map(({ code }) => code);

describe("several pins", () => {
  test.each([
    ["1,3", ["1", "3"]],
    ["1 & 3", ["1", "3"]],
    ["pins 1 and 3", ["1", "3"]],
    ["1-3", ["1", "2", "3"]],
    ["1, 3 - 5/9", ["1", "3", "4", "5", "9"]],
  ])("%s becomes a row each", async (typed, pins) => {
    const text = await fixed(`${HEAD}| U14 | ${typed} | 0.58 |\n`, "several-pins");
    expect(
      text
        .trim()
        .split("\n")
        .slice(4)
        .map((row) => row.split("|").map((cell) => cell.trim())),
    ).toEqual(pins.map((pin) => ["", "U14", pin, "0.58", ""]));
  });

  test.each(["1", "pin 1", "14 (VCC)", "VCC", "1A", "5-2", "1-", "-"])("near miss: %s", async (typed) => {
    expect(await codes(`${HEAD}| U14 | ${typed} | 0.58 |\n`)).not.toContain("several-pins");
  });

  test("two pins are the two ends of a coil", async () => {
    expect(
      await codes("## Coil resistance\n\n| Ref | Pin | Reading |\n|---|---|---|\n| J3 | 1-2 | 12 ohm |\n"),
    ).not.toContain("several-pins");
  });
});

describe("text in a table", () => {
  test.each(["\n", "\r\n"])("gets an empty line above it where lines end in %j", async (eol) => {
    const body = `${HEAD}| U14 | 1 | 0.58 |\nAll read alike.\nAnd the lead was fine.\n`.replaceAll("\n", eol);
    const text = await fixed(body, "text-in-table");
    expect(text).toContain(`| 0.58 |${eol}${eol}All read alike.${eol}And the lead`);
  });

  test("under a table that no procedure claims as well", async () => {
    expect(
      await codes("## What came with it\n\n| Box | Things |\n|---|---|\n| 1 | two |\nNothing else came.\n"),
    ).toContain("text-in-table");
  });

  test.each([
    ["a row that is being typed", `${HEAD}| U14 | 1 | 0.58 |\nU14\n`],
    ["a row without pipes at its ends", `${HEAD}U14 | 1 | 0.58\n`],
    ["an empty line between", `${HEAD}| U14 | 1 | 0.58 |\n\nAll read alike.\n`],
    ["a table of one column", "## What came with it\n\n| Things |\n|---|\n| a lid |\na power lead\n"],
  ])("near miss: %s", async (_, body) => expect(await codes(body)).not.toContain("text-in-table"));
});
