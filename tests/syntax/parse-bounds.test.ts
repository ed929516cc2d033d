import { expect, test } from "vitest";
import { createBlockCache, type ParsedDocument, parseBlocks } from "../../server/src/syntax/blocks";
import { growsTooFast, MAX_MARKS, MAX_NESTING } from "../../server/src/syntax/parse-bounds";
import { cpuTime } from "../support/cpu-time";

/** Texts that took the parser seconds, at the size that it takes of each to do so. */
const HOSTILE: Readonly<Record<string, string>> = {
  "lists in a line": `${"- ".repeat(3200)}x\n`,
  "numbered lists in a line": `${"1. ".repeat(2000)}x\n`,
  "quotes in a line": `${"> ".repeat(5000)}x\n`,
  "quotes without spaces": `${">".repeat(5000)}x\n`,
  "quotes and lists in turn": `${"> - ".repeat(1500)}x\n`,
  "lists nested over lines": Array.from({ length: 400 }, (_, n) => `${"  ".repeat(n)}- x`).join("\n"),
  "pictures that open": "![".repeat(6000),
  "pictures in pictures": "![".repeat(1600) + "](a)".repeat(1600),
  emphasis: "**a_".repeat(4000),
  "emphasis over lines": "**a_\n".repeat(4000),
  "emphasis in a quote": "> **a_\n".repeat(4000),
  brackets: "[".repeat(60_000),
  "comments in a paragraph": `x${"<!--".repeat(4000)}`,
  "instructions in a cell": `| a |\n|---|\n| ${"<?".repeat(8000)} |\n`,
  "words behind an open bracket": `[${"a\n".repeat(16_000)}]: b`,
  "a note with thousands of lines": `[^a]: a\n${"word\n".repeat(9000)}`,
  "a quote with thousands of lines": `> a\n${"word\n".repeat(9000)}`,
  "a list of thousands": "- x\n".repeat(16_000),
  "a table that is none": `a | b\n--|--|--\n${"x **a_ ".repeat(4000)}`,
};

test.each(Object.entries(HOSTILE))("%s are left unread, and what is beside them is read", (_, text) => {
  const document = `# One\n\nU14\n\n# Two\n\n${text}\n\n# Three\n\nU15\n`;
  let read: ParsedDocument | undefined;
  expect(
    cpuTime(() => {
      read = parseBlocks(document, createBlockCache());
    }),
  ).toBeLessThan(1000);
  const blocks = read!.blocks;
  expect(blocks.map(({ source }) => source.limit !== undefined)).toEqual([false, true, false]);
  expect(blocks.map(({ source }) => source.text).join("")).toBe(document);
});

test("tells the line that is too much", () => {
  const text = `fine\n\n${"- ".repeat(MAX_NESTING + 1)}x\n`;
  expect(growsTooFast(text)).toEqual({ limit: "nesting", at: 6 });
  expect(growsTooFast(`fine\n${"[".repeat(MAX_MARKS)}`)).toBeUndefined();
  expect(growsTooFast(`fine\n${"[".repeat(MAX_MARKS + 1)}`)).toEqual({ limit: "marks", at: 5 });
});

test.each([
  [
    "a table of thousands of rows with marks",
    `| Ref | Note |\n|---|---|\n${"| U14 | *was* [low] |\n".repeat(5000)}`,
  ],
  ["a table without outer pipes", `Ref | Note\n--- | ---\n${"U14 | *was* [low]\n".repeat(5000)}`],
  ["a long list of tasks", "- [ ] U14 *socket*\n".repeat(3000)],
  ["rows of dashes", "| - | - | - |\n".repeat(3000)],
  ["paragraphs", "[U14] was *low*.\n\n".repeat(3000)],
  ["a list ten deep", Array.from({ length: 10 }, (_, n) => `${"    ".repeat(n)}- x`).join("\n")],
  ["a listing", `    ${"LDA ($10),Y\n    ".repeat(2000)}`],
])("%s is read", (_, text) => {
  expect(growsTooFast(text)).toBeUndefined();
});
