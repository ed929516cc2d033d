import fc from "fast-check";
import type { PhrasingContent } from "mdast";
import { expect, it } from "vitest";
import { parseMarkdown, readMarkdown } from "../../server/src/syntax/markdown";
import { nodeText } from "../../server/src/syntax/plain-text";

const kinds = (text: string, frontMatter: boolean): string[] =>
  parseMarkdown(text, { frontMatter }).children.map(({ type }) => type);

it("reads front matter only where asked to, and only where it is closed", () => {
  expect(kinds("---\na: 1\n---\n# b\n", true)).toEqual(["yaml", "heading"]);
  expect(kinds("---\na: 1\n---\n# b\n", false)).toEqual(["thematicBreak", "heading", "heading"]);
  expect(kinds("---\n- a\n", true)).toEqual(["thematicBreak", "list"]);
});

it("never throws", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 60 }), fc.boolean(), (text, frontMatter) => {
      expect(parseMarkdown(text, { frontMatter }).type).toBe("root");
    }),
  );
  expect(parseMarkdown(">".repeat(10_000), { frontMatter: false }).children).toEqual([]);
});

it("tells the names a text defines, also in lists and quotes, and takes those of others", () => {
  const text = "- [A  b]: /u\n\n> [^n]: note\n\n[q] [^m]\n";
  expect(readMarkdown(text, { links: [], footnotes: [] }).names).toEqual({
    links: ["A B"],
    footnotes: ["N"],
  });
  const { tree, names } = readMarkdown(text, { links: ["Q"], footnotes: ["M"] });
  expect(names).toEqual({ links: ["A B"], footnotes: ["N"] });
  const last = tree.children.at(-1);
  expect(last?.type === "paragraph" && last.children.map(({ type }) => type)).toEqual([
    "linkReference",
    "text",
    "footnoteReference",
  ]);
});

it("forgets the names of one text before the next", () => {
  readMarkdown("[x]: /u\n", { links: ["Y"], footnotes: [] });
  const { tree, names } = readMarkdown("[x] [y]", { links: [], footnotes: [] });
  expect(names).toEqual({ links: [], footnotes: [] });
  expect(tree.children).toMatchObject([{ children: [{ type: "text", value: "[x] [y]" }] }]);
});

it("has the plain text of text, code and pictures", () => {
  const [paragraph] = parseMarkdown("a *b `c`* ![d](e) [f](g) <i>h</i>", { frontMatter: false }).children;
  expect(nodeText(paragraph!)).toBe("a b c d f h");
});

it("reads the plain text of nodes nested deeper than calls can be", () => {
  let node: PhrasingContent = { type: "text", value: "b" };
  for (let i = 0; i < 100_000; i++)
    node = { type: "emphasis", children: [{ type: "text", value: "a" }, node] };
  expect(nodeText(node)).toBe(`${"a".repeat(100_000)}b`);
});
