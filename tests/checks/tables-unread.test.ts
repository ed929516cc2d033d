// Tables of which something is lost: readings nobody can place, and cells beyond the header.
import { describe, expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { applyEdits } from "../../server/src/text/edits";
import { openWorld } from "../support/workspace";

const URI = "mem:/ws/log.md";

async function findings(body: string, ...codes: string[]) {
  const { service } = await openWorld(exampleLog(body));
  return { service, found: service.findings(URI).filter(({ code }) => codes.includes(code)) };
}

async function fixed(body: string, code: string): Promise<string> {
  const { service, found } = await findings(body, code);
  const [fix] = found[0] ? service.fixes(URI, found[0]) : [];
  if (!fix) throw new Error("no fix");
  return applyEdits(service.text(URI) ?? "", fix.edits).slice(exampleLog("").length);
}

describe("column-not-read", () => {
  test.each([
    [
      "a header of one's own",
      "## Diode check U14\n\n| Pin | Wert |\n|---|---|\n| 1 | 1,42 |\n| 2 | more |\n",
      "| Pin | Reading |",
    ],
    ["no header", "## Supply rails\n\n|  | Measured |\n|---|---|\n| logic | 4.2 |\n", "| Rail | Measured |"],
    [
      "states",
      "## Logic probe U14\n\n| Pin | What |\n|---|---|\n| 1 | high |\n| 2 | odd |\n",
      "| Pin | State |",
    ],
  ])("%s gets a name that is read", async (_, body, header) => {
    const text = await fixed(body, "column-not-read");
    expect(text).toContain(header);
    expect((await findings(text, "column-not-read")).found).toEqual([]);
  });

  test.each([
    [
      "## Supply rails\n\n|  | Measured |\n|---|---|\n| logic | 4.2 |\n",
      "This column has no name, so these readings have no place. If this column says where they were taken, call it Rail.",
    ],
    [
      "## Diode check U14\n\n| Pin |  |\n|---|---|\n| 1 | 0.58 |\n| 2 | more |\n",
      "This column has no name, so its 2 readings are not checked. If these are the readings, call it Reading, or head it with the designator of its chip.",
    ],
  ])("of a header that is empty it speaks plainly: %j", async (body, message) => {
    const { found } = await findings(body, "column-not-read");
    expect(found.map((one) => one.message)).toEqual([message]);
  });

  test("the finding behind it is seen once the column has its name", async () => {
    const text = await fixed(
      "## Diode check U14\n\n| Pin | Wert |\n|---|---|\n| 2 | 1,42 |\n| 3 | more |\n",
      "column-not-read",
    );
    expect((await findings(text, "diode-out-of-window")).found).toHaveLength(1);
  });

  test("pins across and chips down are read as they stand", async () => {
    const body =
      "## Diode check\n\n| Chip | Pin 1 | Pin 2 | Pin 3 |\n|---|---|---|---|\n| U14 | 0.57 | 1.42 | 0.58 |\n";
    expect((await findings(body, "column-not-read")).found).toEqual([]);
    const { service, found } = await findings(body, "diode-out-of-window");
    expect(found.map(({ span }) => service.text(URI)?.slice(span.start, span.end))).toEqual(["1.42"]);
  });

  test.each([
    ["a table still empty", "## Diode check\n\n| Pin | Reading |\n|---|---|\n| 1 | |\n"],
    [
      "a column of one's own beside the readings",
      "## Diode check U14\n\n| Pin | Reading | At home |\n|---|---|---|\n| 1 | 0.58 | 0.6 |\n",
    ],
    [
      "words",
      "## Diode check U14\n\n| Pin | Meaning |\n|---|---|\n| 1 | input |\n| 2 | output of gate 1 |\n",
    ],
    ["a matrix", "## Switch matrix\n\n| Row / column | 1 | 2 |\n|---|---|---|\n| 1 | ok | ok |\n"],
    [
      "chips by their designators",
      "## Diode check\n\n| Pin | U14 | U99 |\n|---|---|---|\n| 1 | 0.58 | 0.57 |\n",
    ],
  ])("nothing is said of %s", async (_, body) => {
    expect((await findings(body, "column-not-read")).found).toEqual([]);
  });
});

describe("cells-beyond-header", () => {
  test.each([
    ["| U14 | 1 | 0.58 | twice |", "| U14 | 1 | 0.58; twice |"],
    ["| U14 | 1 | | twice | hot", "| U14 | 1 | twice; hot"],
    ["| U14 | 1 | 0.58 | a \\| b |", "| U14 | 1 | 0.58; a \\| b |"],
  ])("%s becomes %s", async (row, expected) => {
    const body = `## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n${row}\n`;
    expect((await fixed(body, "cells-beyond-header")).trimEnd().split("\n").at(-1)).toBe(expected);
  });
});

describe("volts in a column of millivolts", () => {
  const table = (reading: string) =>
    `## Diode check\n\n| Ref | Pin | Reading (mV) |\n|---|---|---|\n| U14 | 1 | ${reading} |\n`;
  test.each([
    ["0.58", /If you meant volts, write "0.58 V"/],
    ["0,61", /If you meant volts, write "0,61 V"/],
    ["0.2", /Shorted to ground/],
    ["0.58 mV", /Shorted to ground/],
  ])("%s is asked about: %s", async (reading, says) => {
    const { found } = await findings(table(reading), "diode-out-of-window");
    expect(found.map(({ message }) => message)).toEqual([expect.stringMatching(says)]);
  });
});

describe("unknown-heading", () => {
  const rows = "\n\n| Pin | Wert |\n|---|---|\n| 1 | 0,58 |\n| 2 | 580 mV |\n| 3 | 612 |\n";
  test.each([
    ["Diodentest U14", "Diode test U14"],
    ["Diode chekc, lane 3", "Diode check, lane 3"],
  ])("%s becomes %s", async (heading, expected) => {
    const text = await fixed(`## ${heading}${rows}`, "unknown-heading");
    expect(text.split("\n")[0]).toBe(`## ${expected}`);
  });

  test("numbers under a word that says nothing are told of; a price list is not", async () => {
    expect((await findings(`## Monday${rows}`, "unknown-heading")).found).toHaveLength(1);
    const prices = "## Quote\n\n| Part | Price |\n|---|---|\n| U14 | one euro |\n| U15 | two |\n";
    expect((await findings(prices, "unknown-heading")).found).toEqual([]);
    const costs = "## Quote\n\n| Part | Price |\n|---|---|\n| U14 | 1.20 |\n| U15 | 2.50 |\n";
    expect((await findings(costs, "unknown-heading")).found).toEqual([]);
    const list = "## Stock\n\n| Part | Pieces |\n|---|---|\n| U14 | 12 |\n| U15 | 3 |\n";
    expect((await findings(list, "unknown-heading")).found).toEqual([]);
  });
});
