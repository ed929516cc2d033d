import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { highlightedAt } from "../../support/features";

const BODY = `## Diode check U14

ROW_1 runs from U14.2 to U15 pin 1.

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 0.58    |
| U15 | 1   | 0.57    |

## Work done

| Ref | Action   | Part   |
|-----|----------|--------|
| U14 | replaced | 74LS04 |
`;

/** The places in brackets and braces, line by line, of the first of these words. */
async function places(word: string, text = BODY, front = "symptoms: [U14 gets hot]\n"): Promise<string[]> {
  const at = text.indexOf(word) + 1;
  const marked = await highlightedAt(exampleLog(`${text.slice(0, at)}$0${text.slice(at)}`, front));
  return (marked ?? "").split("\n").filter((line) => /[{}]|\[(?!U14 gets)/.test(line));
}

test("a part: heading, words, cells, symptoms, and where it was worked on", async () => {
  expect(await places("U14")).toEqual([
    "symptoms: [[U14] gets hot]",
    "## Diode check [U14]",
    "ROW_1 runs from [U14].2 to U15 pin 1.",
    "| [U14] | 2   | 0.58    |",
    "| {U14} | replaced | 74LS04 |",
  ]);
});

test("a pin: where it is named and what was read there", async () => {
  expect(await places("2   |")).toEqual([
    "ROW_1 runs from U14.[2] to U15 pin 1.",
    "| U14 | [2]   | {0.58}    |",
  ]);
  expect(await places("0.57")).toEqual([
    "ROW_1 runs from U14.2 to U15 pin [1].",
    "| U15 | [1]   | {0.57}    |",
  ]);
});

test("a net: its name, its pins and what was read on it", async () => {
  expect(await places("ROW_1")).toEqual([
    "[ROW_1] runs from U14.[2] to U15 pin [1].",
    "| U14 | [2]   | {0.58}    |",
    "| U15 | [1]   | {0.57}    |",
  ]);
});

test("in a wide table a pin is that of every chip, a reading that of one", async () => {
  const wide = `## Diode check

U15.2 and U14.2

| Pin | U14  | U15  |
|-----|------|------|
| 2   | 0.58 | 0.57 |
`;
  expect(await places("2   |", wide, "")).toEqual(["U15.[2] and U14.[2]", "| [2]   | {0.58} | {0.57} |"]);
  expect(await places("0.57", wide, "")).toEqual(["U15.[2] and U14.2", "| [2]   | 0.58 | {0.57} |"]);
});

test("nothing for what names nothing", async () => {
  expect(await highlightedAt(exampleLog(BODY.replace("runs", "ru$0ns")))).toBeUndefined();
  expect(await highlightedAt(exampleLog(BODY.replace("replaced", "repl$0aced")))).toBeUndefined();
});
