import { createBlockCache, parseBlocks } from "../../../server/src/syntax/blocks";
import { parseMarkdown } from "../../../server/src/syntax/markdown";
import { joinedTree, wholeTree } from "../../syntax/trees";

/** The block-wise and the whole reading of one text; a test holds them equal. */
export function readBothWays(text: string): { readonly joined: unknown[]; readonly whole: unknown[] } {
  const document = parseBlocks(text, createBlockCache());
  return {
    joined: joinedTree(document),
    whole: wholeTree(parseMarkdown(text, { frontMatter: true }), document.bom),
  };
}

/** An example by itself, among headings and definitions, on other line ends, and behind front matter. */
export const settings = (example: string): string[] => [
  example,
  `# before\n\n${example}\n# after\n\ntext\n\n# end\n`,
  `[foo]: /elsewhere\n\n# before\n${example}`.replaceAll("\n", "\r\n"),
  `---\nmendlog: 1\n---\n${example}\n## after\n[bar]: /elsewhere\n[^1]: note\n`,
];
