// The eight examples of "Tables (extension)" in the GitHub Flavored Markdown spec, version 0.29-gfm (2019-04-06),
// examples 198 to 205 (github.github.com/gfm/#tables-extension-): what goes in, and the cells the spec's HTML has.
// The whole spec is run in spec.test.ts where it is installed.
import { describe, expect, it } from "vitest";
import { createBlockCache, parseBlocks } from "../../../server/src/syntax/blocks";
import { seenCells } from "./cells";

const source = (markdown: string) => parseBlocks(markdown, createBlockCache()).blocks[0]!.source;

describe("tables in the GFM spec", () => {
  it("198: header, delimiter row, data", () => {
    expect(seenCells("| foo | bar |\n| --- | --- |\n| baz | bim |\n")).toEqual([
      [
        ["foo", "bar"],
        ["baz", "bim"],
      ],
    ]);
  });

  it("199: the delimiter row aligns, and outer pipes may be left out", () => {
    const markdown = "| abc | defghi |\n:-: | -----------:\nbar | baz\n";
    expect(seenCells(markdown)).toEqual([
      [
        ["abc", "defghi"],
        ["bar", "baz"],
      ],
    ]);
    expect(source(markdown).tables[0]!.delimiter.cells.map(({ align }) => align)).toEqual([
      "center",
      "right",
    ]);
  });

  it("200: a pipe is escaped by a backslash, in code and emphasis too", () => {
    expect(seenCells("| f\\|oo  |\n| ------ |\n| b `\\|` az |\n| b **\\|** im |\n")).toEqual([
      [["f|oo"], ["b `|` az"], ["b **|** im"]],
    ]);
  });

  it("201: another block ends the table", () => {
    const markdown = "| abc | def |\n| --- | --- |\n| bar | baz |\n> bar\n";
    expect(seenCells(markdown)).toEqual([
      [
        ["abc", "def"],
        ["bar", "baz"],
      ],
    ]);
    expect(source(markdown).tree.children.map(({ type }) => type)).toEqual(["table", "blockquote"]);
  });

  it("202: a line without pipes is a row; an empty line ends the table", () => {
    const markdown = "| abc | def |\n| --- | --- |\n| bar | baz |\nbar\n\nbar\n";
    expect(seenCells(markdown)).toEqual([
      [
        ["abc", "def"],
        ["bar", "baz"],
        ["bar", ""],
      ],
    ]);
    expect(source(markdown).tree.children.map(({ type }) => type)).toEqual(["table", "paragraph"]);
  });

  it("203: a delimiter row of another width makes no table, and we say so", () => {
    const markdown = "| abc | def |\n| --- |\n| bar |\n";
    expect(seenCells(markdown)).toEqual([]);
    expect(source(markdown).almostTables).toMatchObject([
      { reason: "delimiter-count", headerCount: 2, delimiterCount: 1 },
    ]);
  });

  it("204: short rows are filled, long rows cut", () => {
    expect(seenCells("| abc | def |\n| --- | --- |\n| bar |\n| bar | baz | boo |\n")).toEqual([
      [
        ["abc", "def"],
        ["bar", ""],
        ["bar", "baz"],
      ],
    ]);
  });

  it("205: a table may have no rows", () => {
    expect(seenCells("| abc | def |\n| --- | --- |\n")).toEqual([[["abc", "def"]]]);
  });
});
