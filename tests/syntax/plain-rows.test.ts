import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { createBlockCache, parseBlocks } from "../../server/src/syntax/blocks";
import { parseMarkdown } from "../../server/src/syntax/markdown";
import { plainFront, plainTree } from "../../server/src/syntax/plain-block";
import { withoutPlainRows } from "../../server/src/syntax/plain-rows";
import { cpuTime } from "../support/cpu-time";
import { joinedTree, wholeTree } from "./trees";

const HEAD = "| Ref | Pin | Reading |\n|-----|-----|---------|\n";
const rows = (count: number): string =>
  Array.from({ length: count }, (_, i) => `| U14 | ${i + 1} | 0.${500 + (i % 90)} |\n`).join("");

/** Lines of a table and of what may come between, around and instead of them. */
const LINES = [
  "| U14 | 1 | 0.58 |",
  "| U14 | 2 | OL |",
  "|U14|3|0.5|",
  "| U14 |",
  "| U14 ||  |",
  "|| |",
  "||",
  "|",
  "| a | b | c | d |",
  "| U14 | 4 | *0.5* |",
  "| U14 | 4 | 1 \\| 2 |",
  "| see www.example.org | a | b |",
  "| http://example.org | a | b |",
  "| a@example.org | ~1~ | [x] |",
  "| a | b ",
  "  | a | b | c |",
  "    | a | b | c |",
  "| 3,3 µF | Ω | ± 5 % |",
  "| AUD_BYP | SEG__C_Q | _a |",
  "| a_ b_c | d_|_e |",
  "| < 1 | <0.5 | <.5 |",
  "| Marlow & Pike | a &b | & |",
  "SEG_C_Q and _that_ & more < 5",
  "# A_B < 3 & C",
  "| a\u00a0 |\u00a0b | c |",
  "| &amp; | b | c |",
  "| \t a | b | c |",
  "| Ref | Pin | Reading |",
  "|-----|-----|---------|",
  "|:-:|--:|:--|",
  "|---|",
  "plain words",
  "",
  "# heading",
  "## Diode check U14 (74LS04) ",
  "###  two  blanks",
  "# closed #",
  "#",
  "The +5 V rail reads 5.02 V: good.",
  "(in the machine) 12 V",
  "12. one",
  "12 V",
  "3) three",
  "a | b",
  "trailing  ",
  "| only a header |",
  "|:-|",
  "| - | :-: | - |",
  "- item",
  "> quote",
  "```",
  "<div>",
  "<!--",
  "-->",
  "[x]: /u",
  "===",
];

/** Those among which all of a block may well be plain. */
const PLAINER = [
  "",
  "",
  "",
  "## Diode check U14 (74LS04)",
  "### a",
  "#### 12 V | 5 V",
  "The +5 V rail reads 5.02 V: good.",
  "Æ 3,3 µF",
  "Of SEG_C_Q, LAMP__ROW_3 & a_b_c",
  "Less than <0.5 or < 1 V",
  "## SEG_C < 3 & 4_5",
  "| SEG_C_Q | < 1 | a & b |",
  `\n${HEAD}| LAMP_ROW_3 | <0.5 | A & B_C |\n| D__E | <1 V | < .5 |\n| a | b | c_d |`,
  'it\'s $5, "new" {and} 50 %!',
  "12 V",
  "2) two",
  "x ",
  "| U14 | 1 | 0.58 |",
  "|U14||",
  "| a |",
  "",
  `\n| a |\n|---|\n| b |`,
  `\n${HEAD}${rows(3).trimEnd()}\n`,
  `\n|Ref|Pin|Reading|\n|:-|:-:|--:|\n${rows(2).trimEnd()}\n| a | b | c | d |`,
];

const documentOf = (lines: readonly string[]) =>
  fc
    .tuple(
      fc.array(
        fc.oneof(
          { weight: 3, arbitrary: fc.constantFrom(...lines) },
          { weight: 1, arbitrary: fc.constant(`${HEAD}${rows(4).trimEnd()}`) },
        ),
        { minLength: 1, maxLength: 16 },
      ),
      fc.constantFrom("\n", "\r\n"),
      fc.boolean(),
    )
    .map(([all, end, closed]) => all.join("\n").replaceAll("\n", end) + (closed ? end : ""));

/** Among fences that are opened, closed and left open, with much and little in them. */
const FENCED = [
  ...[
    "```",
    " ```",
    "  ~~~~ txt",
    "   ```` js  a  b ",
    "~~~",
    "    ```",
    "``` a`b",
    " ~~~~~  ",
    "\t```",
    "- ```",
    "  ```\t",
  ],
  ...[
    "",
    "# heading",
    "## Diode check U14 (74LS04)",
    "words *and* marks",
    "   # no heading",
    "- item",
    "<pre>",
    "</pre>",
    "> quote",
  ],
  rows(30).trimEnd(),
  `# a\n\n${HEAD}${rows(30).trimEnd()}\n\n    deeper\n  two\n one`,
  `${"    words and more words\n\n".repeat(20)}# b\n`,
  `${"\tone\n".repeat(90)}two`,
];

const runs = { numRuns: Number(process.env.MENDLOG_FUZZ ?? 1) * 500 };

describe("rows without markup", () => {
  it.each([
    ["among all that may stand beside them", LINES],
    ["among words without markup", PLAINER],
    ["and so is code, among fences", FENCED],
  ])("are read to the last position as the parser reads them, %s", (_, lines) => {
    fc.assert(
      fc.property(documentOf(lines), (text) => {
        const read = parseBlocks(text, createBlockCache());
        expect(joinedTree(read)).toEqual(wholeTree(parseMarkdown(text, { frontMatter: true }), 0));
      }),
      runs,
    );
  });

  it("need no parser where all of the block is plain", () => {
    const most = { line: 1000, words: 10_000 };
    expect(plainTree(`## Diode check\n\nAt room temperature.\n\n${HEAD}${rows(3)}`, most)).toBeDefined();
    const names = `## SEG_C_Q & SEG_D\n\nLess than < 1 V at LAMP_ROW_3.\n\n${HEAD}| AUD_BYP | <0.5 | a & b |\n`;
    expect(plainTree(names, most)).toBeDefined();
    expect(plainTree(`${"word ".repeat(300)}.\n`, most)).toBeUndefined();
  });

  it.each([
    "- item\n",
    "a *b*\n",
    "a _b_\n",
    "a&b;\n",
    "a <b\n",
    "> c\n",
    "    d\n",
    "a\n| b |\n",
    "| a |\n",
    `${HEAD}words\n`,
  ])("need the parser where a block holds %j", (text) =>
    expect(plainTree(text, { line: 1000, words: 10_000 })).toBeUndefined(),
  );

  it("are taken out between the first and the last of their table", () => {
    const text = `# a\n\n${HEAD}${rows(5)}\nwords\n\n${HEAD}${rows(4)}`;
    const short = withoutPlainRows(text, 1000);
    expect(short?.gaps.map(({ lines }) => lines)).toEqual([3, 2]);
    expect(short?.text).toBe(
      `# a\n\n${HEAD}| U14 | 1 | 0.500 |\n| U14 | 5 | 0.504 |\n\nwords\n\n${HEAD}| U14 | 1 | 0.500 |\n| U14 | 4 | 0.503 |\n`,
    );
  });

  it.each([
    ["a fence", `\`\`\`\n${HEAD}${rows(5)}\`\`\`\n`],
    ["a comment", `<!--\n${HEAD}${rows(5)}-->\n`],
    ["an HTML block", `<div>\n${HEAD}${rows(5)}</div>\n`],
    ["a paragraph of a list", `- item\n${HEAD}${rows(5)}`],
    ["a fence that is not closed", `~~~\n${HEAD}${rows(5)}`],
  ])("in %s are what they are there", (_, text) => {
    const read = parseBlocks(text, createBlockCache());
    expect(joinedTree(read)).toEqual(wholeTree(parseMarkdown(text, { frontMatter: true }), 0));
  });

  it("and the code of a fence that swallows a long log cost a small part of the parser's time", () => {
    const section = (n: number): string => `# Pass ${n}\n\nWords with *marks*.\n\n${HEAD}${rows(30)}\n`;
    const log = Array.from({ length: 60 }, (_, n) => section(n)).join("");
    for (const open of ["\n  ``` txt\n", "\n- item\n\nwords `code`\n\n ~~~~\n"]) {
      const text = `${open}${log}`;
      const parser = cpuTime(() => parseMarkdown(text, { frontMatter: true }));
      const own = cpuTime(() => parseBlocks(text, createBlockCache()));
      expect(own / parser).toBeLessThan(0.3);
      expect(parseBlocks(text, createBlockCache()).blocks).toHaveLength(1);
    }
  });

  it("cost a small part of the parser's time, in a table that would be too long for it as well", () => {
    const table = `# a\n\n${HEAD}${rows(3000)}`;
    parseMarkdown(table, { frontMatter: true });
    const parser = cpuTime(() => parseMarkdown(table, { frontMatter: true }));
    const own = cpuTime(() => parseBlocks(table, createBlockCache()));
    expect(own / parser).toBeLessThan(0.3);
    const long = parseBlocks(`# a\n\n${HEAD}${rows(20_000)}`, createBlockCache());
    expect(long.blocks[0]?.source.tables[0]?.rows).toHaveLength(20_000);
  });
});

describe("front matter without control characters", () => {
  const line = fc.constantFrom(
    "a: 1",
    "",
    "  - x",
    "--- a",
    "---a",
    " ---",
    "# no heading",
    "| a |",
    "\ta: 1",
    "é: ü",
    "...",
  );
  const fences = fc.constantFrom("---", "---", "---", "--- ", "----");
  const ends = fc.constantFrom("\n", "\n", "\r\n");

  it("is read to the last position as the parser reads it", () => {
    let read = 0;
    fc.assert(
      fc.property(
        fc.array(line, { maxLength: 5 }),
        fences,
        fences,
        ends,
        fc.boolean(),
        (lines, open, close, end, closed) => {
          const text = [open, ...lines, close].join(end) + (closed ? end : "");
          const plain = plainFront(text);
          if (!plain) return;
          read++;
          expect(plain).toEqual(parseMarkdown(text, { frontMatter: true }));
        },
      ),
      runs,
    );
    expect(read).toBeGreaterThan(50);
  });
});
