// What a letter brings up by itself: a list that nobody asked for must never stand in the way of a reading.
import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { completeLetters, completeLog } from "../../../server/src/features/completion";
import { openAt } from "../../support/workspace";

async function labels(body: string): Promise<readonly string[]> {
  const { view, offset } = await openAt(exampleLog(body));
  return completeLetters(view, offset).map(({ label }) => label);
}

const row = (cells: string): string =>
  `## Diode check\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n| ${cells} |\n`;

test.each([
  ["a designator's column", row("U$0 |  |  | ")],
  ["a note", row("U14 | 2 | 0.58 | with U$0")],
  ["behind a bracket", "Lifted [U$0 for this.\n"],
  ["a heading that names a chip", "## Diode check U$0\n"],
])("%s: designators", async (_, body) => {
  expect(await labels(body)).toContain("U14");
});

test.each([
  ["a reading", row("U14 | 2 | O$0 | ")],
  ["a reading's unit", row("U14 | 2 | 0.58 m$0 | ")],
  ["a pin", row("U14 | V$0 |  | ")],
  ["a word of a note", row("U14 | 2 | 0.58 | w$0")],
  ["prose", "Was warm, so U$0\n"],
  ["the beginning of a sentence", "U$0\n"],
  ["a word in brackets", "See [n$0\n"],
  ["a listing", "```\n[U$0\n```\n"],
  ["the middle of a name", row("U$014 | 2 | 0.58 | ")],
])("%s: nothing", async (_, body) => {
  expect(await labels(body)).toEqual([]);
});

test("below a heading of readings, alone on its line: the tables of the chips that begin so, unread ones first", async () => {
  const first = (await labels("## Diode check\n\nU$0\n"))[0];
  expect(first).toBe("U14 readings table");
  expect((await labels("## Diode check\n\nu$0\n"))[0]).toBe("U14 readings table");
  expect((await labels(`${row("U14 | 1 | 0.58 | ")}\nU$0\n`))[0]).toBe("U15 readings table");
  expect((await labels("## Diode check\n\nQ$0\n")).every((label) => label.startsWith("Q"))).toBe(true);
  expect(await labels("## Letters\n\nU$0\n")).toEqual([]);
  expect(await labels("## Diode check\n\nWas warm.\nU$0\n")).toEqual([]);
});

test("the front matter: its keys", async () => {
  const { view, offset } = await openAt("---\nmendlog: 1\nse$0\n---\n");
  expect(completeLetters(view, offset).map(({ label }) => label)).toContain("serial");
});

test("a number in prose opens no headings, a heading begun on a line of its own does", async () => {
  const asked = async (body: string) => {
    const { view, offset } = await openAt(exampleLog(body));
    return completeLog(view, offset).map(({ label }) => label);
  };
  expect(await asked("The owner says lane\n#$0")).toEqual([]);
  expect(await asked("#3$0\n")).not.toContain("# Diode check");
  expect(await asked("Words.\n\n#$0")).toContain("# Diode check");
  expect(await asked("Words.\n## d$0")).toContain("## Diode check");
});
