import fc from "fast-check";
import { expect, it } from "vitest";
import { createBlockCache, parseBlocks } from "../../server/src/syntax/blocks";
import type { Heading } from "../../server/src/syntax/headings";
import { slice } from "../../server/src/text/span";
import { nastyDocument } from "./fragments";

const headings = (text: string): readonly Heading[] =>
  parseBlocks(text, createBlockCache()).blocks.flatMap(({ source }) => source.headings);

it.each([
  ["# Diode check", 1, "Diode check", "Diode check"],
  ["### *Diode* `check` ###  ", 3, "Diode check", "*Diode* `check`"],
  ["   ## a # b", 2, "a # b", "a # b"],
  ["## a##", 2, "a##", "a##"],
  ["#\tTab \t#\t", 1, "Tab", "Tab"],
  ["# a \\#", 1, "a #", "a \\#"],
  ["###### ![Board](b.png) [link](x)", 6, "Board link", "![Board](b.png) [link](x)"],
  ["Supply rails\n---", 2, "Supply rails", "Supply rails"],
  ["Two  \r\nlines\r\n====", 1, "Two\nlines", "Two  \r\nlines"],
  ["# mail a@b.example now", 1, "mail a@b.example now", "mail a@b.example now"],
  ["#", 1, "", ""],
  ["## ##", 2, "", ""],
])("reads %j", (text, depth, words, content) => {
  const [one] = headings(text);
  expect(one).toMatchObject({ depth, text: words, setext: /[\r\n]/.test(text) });
  expect(slice(text, one!.contentSpan)).toBe(content);
});

it("spans the marks and the underline", () => {
  const text = "text\n\n  # a #\n\nb\n===\n";
  const [first, second] = parseBlocks(text, createBlockCache()).blocks[0]!.source.headings;
  expect(slice(text, first!.span)).toBe("# a #");
  expect(slice(text, second!.span)).toBe("b\n===");
});

it("puts the content of an empty heading behind its marks", () => {
  expect(headings("# #")[0]!.contentSpan).toEqual({ start: 2, end: 2 });
  expect(headings("##")[0]!.contentSpan).toEqual({ start: 2, end: 2 });
});

it("lists no heading of a list, a quote or a fence", () => {
  expect(headings("- # a\n\n> # b\n\n```\n# c\n```\n")).toEqual([]);
});

it("finds the content where the parser has the heading's children", () => {
  let compared = 0;
  fc.assert(
    fc.property(nastyDocument, (text) => {
      for (const { source } of parseBlocks(text, createBlockCache()).blocks) {
        const nodes = source.tree.children.filter((node) => node.type === "heading");
        for (const [i, node] of nodes.entries()) {
          const from = node.children[0]?.position?.start.offset;
          const to = node.children.at(-1)?.position?.end.offset;
          if (from === undefined || to === undefined) continue;
          expect(source.headings[i]!.contentSpan).toEqual({ start: from, end: to });
          compared++;
        }
      }
    }),
    { numRuns: 400 },
  );
  expect(compared).toBeGreaterThan(100);
});
