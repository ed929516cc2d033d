import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { AlmostTable } from "../../server/src/syntax/almost-tables";
import type { SyntaxBlock } from "../../server/src/syntax/block";
import { createBlockCache, parseBlocks } from "../../server/src/syntax/blocks";
import { applyEdits } from "../../server/src/text/edits";
import { slice } from "../../server/src/text/span";

const block = (text: string): SyntaxBlock => parseBlocks(text, createBlockCache()).blocks[0]!.source;

function only(text: string): AlmostTable {
  const { almostTables } = block(text);
  expect(almostTables).toHaveLength(1);
  return almostTables[0]!;
}

const fixed = (text: string): string => applyEdits(text, [only(text).fix]);

describe("a delimiter row with the wrong number of cells", () => {
  const text = "Readings:\n| Ref | Pin | Reading |\n|:----|---:|\n| U14 | 1 | 0.58 |\n\nmore";

  it("is found, with the counts and the places", () => {
    const one = only(text);
    expect(one).toMatchObject({ reason: "delimiter-count", headerCount: 3, delimiterCount: 2 });
    expect(slice(text, one.span)).toBe("| Ref | Pin | Reading |\n|:----|---:|\n| U14 | 1 | 0.58 |");
    expect(slice(text, one.header)).toBe("| Ref | Pin | Reading |");
    expect(slice(text, one.delimiter!)).toBe("|:----|---:|");
  });

  it("is put right, keeping the alignments typed", () => {
    expect(fixed(text)).toBe(text.replace("|:----|---:|", "| :-- | --: | ------- |"));
  });

  it("is found where it has too many, without outer pipes, and on \\r\\n lines", () => {
    expect(only("a | b\r\n--- | --- | ---\r\n1 | 2\r\n")).toMatchObject({
      headerCount: 2,
      delimiterCount: 3,
    });
    expect(fixed("a | b\r\n--- | --- | ---\r\n1 | 2\r\n")).toBe("a | b\r\n| --- | --- |\r\n1 | 2\r\n");
  });

  it("is found where the header has one cell", () => {
    expect(only("| a |\n|---|---|\n")).toMatchObject({ headerCount: 1, delimiterCount: 2 });
  });

  it("is found where it is a bare rule, which makes the header a heading", () => {
    const given = "| Pin | U14 |\n---\n| 1 | 0.58 |\n";
    expect(only(given)).toMatchObject({ reason: "delimiter-count", headerCount: 2, delimiterCount: 1 });
    expect(fixed(given)).toBe("| Pin | U14 |\n| --- | --- |\n| 1 | 0.58 |\n");
    expect(block("Display | lamps\n---\n\ntext\n").almostTables).toEqual([]);
    expect(block("Display | lamps\n---\ntext\n").almostTables).toEqual([]);
    expect(only("Pin | U14\n---\n1 | 2\n").reason).toBe("delimiter-count");
  });
});

describe("a delimiter row that is none", () => {
  it.each([
    ["| a | b |\n|--|-x-|\n", 2],
    ["| a | b |\n| = | = |\n| 1 | 2 |\n", 2],
    ["| a | b |\n|===|===|\n", 2],
    ["| a | b |\n|___|___|___|\n", 3],
    ["| a | b |\n| \u2014 | \u2014 |\n", 2],
    ["| a | b |\n|--:--|---|\n", 2],
    ["| a | b |\n|---||\n", 2],
    ["| a | b |\n|- -|---|\n", 2],
  ])("is found in %j", (text, delimiterCount) => {
    expect(only(text)).toMatchObject({ reason: "delimiter-malformed", headerCount: 2, delimiterCount });
    expect(block(fixed(text)).tables[0]).toMatchObject({ columnCount: 2 });
  });

  it("is not seen in a row of readings", () => {
    expect(block("| a | b |\n| -12.1 | 0.58 |\n").almostTables).toEqual([]);
    expect(block("| a | b |\n| 1 - 2 | x |\n").almostTables).toEqual([]);
  });
});

describe("a delimiter row left out", () => {
  const text = "| a | b |\n| 1 | 2 |\n| - | 3 |\n";

  it("is found over three lines alike, and put in", () => {
    expect(only(text)).toMatchObject({ reason: "delimiter-missing", headerCount: 2, delimiterCount: 0 });
    expect(only(text).delimiter).toBeUndefined();
    expect(fixed(text)).toBe("| a | b |\n| --- | --- |\n| 1 | 2 |\n| - | 3 |\n");
    expect(fixed(text.replaceAll("\n", "\r\n"))).toBe(
      "| a | b |\r\n| --- | --- |\r\n| 1 | 2 |\r\n| - | 3 |\r\n",
    );
  });

  it.each([
    ["two lines", "| a | b |\n| 1 | 2 |\n"],
    ["lines with one stroke", "a | b\nc | d\ne | f\n"],
    ["unlike lines", "|a|b|\n|1|2|\n|1|2|3|\n"],
  ])("is not seen in %s", (_what, given) => {
    expect(block(given).almostTables).toEqual([]);
  });
});

it.each([
  ["a table", "| a | b |\n|---|---|\n| 1 | 2 |\n| - | - |\n"],
  ["code", "```\n| a | b |\n|---|\n```\n"],
  ["a quote", "> | a | b |\n> |---|\n"],
  ["a list", "- | a | b |\n  |---|\n"],
  ["a comment", "<!-- | a | b |\n|---| -->\n"],
])("says nothing of %s", (_what, given) => {
  expect(block(given).almostTables).toEqual([]);
});

const runs = 1500 * Number(process.env.MENDLOG_FUZZ ?? 1);

it("offers a fix that always makes a table of the header's width, right there", () => {
  const cell = fc.constantFrom(
    "a",
    "",
    "0.58",
    "\\|",
    "`x",
    "-",
    "--",
    ":-",
    "=",
    "-x-",
    "U14",
    "*",
    "1. a",
    "# b",
    ">",
  );
  const row = fc
    .record({
      cells: fc.array(cell, { minLength: 1, maxLength: 4 }),
      before: fc.constantFrom("", "|", "| ", " | "),
      between: fc.constantFrom("|", " | "),
      after: fc.constantFrom("", "|", " |", " | "),
    })
    .map(({ cells, before, between, after }) => before + cells.join(between) + after);
  let seen = 0;
  fc.assert(
    fc.property(
      fc.array(row, { minLength: 2, maxLength: 5 }),
      fc.constantFrom("\n", "\r\n", "\r"),
      (rows, end) => {
        const text = rows.join(end) + end;
        for (const one of block(text).almostTables) {
          seen++;
          const now = block(applyEdits(text, [one.fix]));
          const table = now.tables.find(({ header }) => header.span.start === one.header.start);
          expect(table?.columnCount).toBe(one.headerCount);
          expect(table?.header.span).toEqual(one.header);
        }
      },
    ),
    { numRuns: runs },
  );
  expect(seen).toBeGreaterThan(100);
});
