import { expect, it } from "vitest";
import { createBlockCache, parseBlocks } from "../../server/src/syntax/blocks";
import { slice } from "../../server/src/text/span";

function comments(text: string): unknown[] {
  const { source } = parseBlocks(text, createBlockCache()).blocks[0]!;
  return source.comments.map(({ span, inner, text: words, closed }) => {
    expect(slice(text, inner).trim()).toBe(words);
    return [slice(text, span), words, closed];
  });
}

it("finds comments at root level, one or several on a line", () => {
  expect(comments("<!-- a -->\ntext\n\n  <!--b--> <!-- c -->\n\n<!-- d\n\ne -->\n")).toEqual([
    ["<!-- a -->", "a", true],
    ["<!--b-->", "b", true],
    ["<!-- c -->", "c", true],
    ["<!-- d\n\ne -->", "d\n\ne", true],
  ]);
});

it("ends at the line in which one is closed, as Markdown does", () => {
  expect(comments("<!-- a --> <!-- b\nc -->\n")).toEqual([
    ["<!-- a -->", "a", true],
    ["<!-- b", "b", false],
  ]);
});

it("finds one that interrupts a paragraph or a table, and one on \\r\\n lines", () => {
  expect(comments("text\r\n<!-- a -->\r\n| b |\r\n|---|\r\n<!-- c -->\r\n")).toEqual([
    ["<!-- a -->", "a", true],
    ["<!-- c -->", "c", true],
  ]);
});

it("takes the short forms for whole, empty comments", () => {
  expect(comments("<!-->\n\n<!--->\n\n<!---->\n")).toEqual([
    ["<!-->", "", true],
    ["<!--->", "", true],
    ["<!---->", "", true],
  ]);
});

it("says of one that is never closed that it is not", () => {
  expect(comments("<!-- a\nb\n\nc")).toEqual([["<!-- a\nb\n\nc", "a\nb\n\nc", false]]);
});

it("finds none in a fence, a list, running text or other HTML", () => {
  expect(comments("```\n<!-- a -->\n```\n- <!-- b -->\n\ntext <!-- c -->\n\n<p><!-- d -->\n")).toEqual([]);
});
