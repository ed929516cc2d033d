// Texts of any size that make a reader's work grow: every structure of Markdown, of YAML and of a table, beside itself, in
// itself and never closed. Invented, from the grammars: CommonMark 0.31.2, GFM's tables, footnotes and strikethrough, and
// YAML 1.2.2.

/** Makes a text of about so many characters. */
export type Structure = (chars: number) => string;

const times = (piece: string, chars: number): string =>
  piece.repeat(Math.max(1, Math.floor(chars / piece.length)));
/** Half of it opens, half closes. */
const paired = (open: string, middle: string, close: string, chars: number): string => {
  const n = Math.max(1, Math.floor(chars / (open.length + close.length)));
  return open.repeat(n) + middle + close.repeat(n);
};
const numbered = (piece: (n: number) => string, chars: number): string => {
  let text = "";
  for (let n = 0; text.length < chars; n++) text += piece(n);
  return text;
};
/** Each line further in than the one before, until the text is full. */
const stairs = (step: string, line: string, chars: number): string => {
  const deep = Math.max(1, Math.floor(Math.sqrt((2 * chars) / step.length)));
  return Array.from({ length: deep }, (_, n) => step.repeat(n) + line).join("\n");
};
/** Pieces that are repeated along a line, and again over lines. */
const alongAndDown = (name: string, piece: string): [string, Structure][] => [
  [`${name}, along a line`, (chars) => `${times(piece, chars)}x\n`],
  [`${name}, line by line`, (chars) => `${times(`${piece}x\n`, chars)}`],
  [`${name}, in a quote`, (chars) => `${times(`> ${piece}x\n`, chars)}`],
  [`${name}, in cells`, (chars) => `| a | b |\n|---|---|\n${times(`| ${piece} | x |\n`, chars)}`],
  [`${name}, in one cell`, (chars) => `| a | b |\n|---|---|\n| ${times(piece, chars)} | x |\n`],
  [`${name}, in a heading`, (chars) => `## ${times(piece, chars)}x\n`],
  [`${name}, paragraphs`, (chars) => `${times(`${piece}x\n\n`, chars)}`],
];

/** What one may type in a line. */
const INLINE: Readonly<Record<string, string>> = {
  brackets: "[",
  "brackets that close": "]",
  "brackets in turn": "[]",
  "references in turn": "[a][b]",
  pictures: "![",
  links: "[a](",
  "links never ended": "[a](<b",
  "links with titles never ended": '[a](b "',
  "whole links": "[a](b)",
  "footnote calls": "[^a]",
  stars: "*",
  "stars apart": "* ",
  "stars and letters": "*a",
  "stars that close": "a*",
  "stars in two": "**a ",
  "stars in three": "***a ",
  "emphasis of two kinds": "**a_",
  "emphasis in turn": "*a_b",
  "long and short emphasis": "*a**b**",
  underscores: "_a ",
  strikes: "~a",
  "strikes of two": "~~a ",
  backticks: "`",
  "backticks apart": "` ",
  "backticks in two": "a``b`",
  "code spans": "`a` ",
  "code spans of growing marks": "`a``b```c````",
  dollars: "$a",
  escapes: "\\",
  "escaped marks": "\\*",
  entities: "&amp;",
  "entities never ended": "&a",
  "numeric entities": "&#1;",
  "tags never ended": "<a ",
  tags: "<a>",
  "tags with attributes": '<a b="',
  "closing tags": "</a",
  "comments never ended": "<!--",
  comments: "<!-- a -->",
  instructions: "<?",
  declarations: "<!A ",
  cdata: "<![CDATA[",
  autolinks: "<http://a",
  "bare addresses": "http://a.b ",
  "bare addresses with brackets": "http://a.b(((",
  "bare addresses in one": "www.a",
  "mail addresses": "a@b.c ",
  "mail addresses in one": "a.b@",
  "at signs": "@",
  pipes: "|",
  "pipes in turn": "a|",
  "escaped pipes": "\\|",
  colons: ":",
  designators: "U14 ",
  "designators in one": "U14-",
  "parts with numbers": "U14 (7404) ",
  "pin names": "U14.1 ",
  values: "0.58 V ",
  digits: "1",
  points: "1.",
  "digits and commas": "1,2",
  letters: "a",
  words: "replaced and not ",
  blanks: " ",
  "blanks and dots": ". ",
  tabs: "\t",
  "no-break blanks": "\u00a0",
  "astral signs": "\u{1F600}",
  "combining marks": "a\u0301",
  "half a pair": "\ud83d",
  "right to left": "\u05d0\u202e",
  dates: "2026-01-01 ",
  times: "12:30 ",
  money: "12.50 EUR ",
  hyphens: "-",
  dashes: "--- ",
  equals: "=",
  slashes: "/",
  quotes: '"',
  apostrophes: "'a ",
  parentheses: "(",
  braces: "{",
};

/** What may begin a line. */
const CONTAINERS: Readonly<Record<string, string>> = {
  "bullet lists": "- ",
  "lists of plus": "+ ",
  "numbered lists": "1. ",
  "lists with parentheses": "1) ",
  quotes: "> ",
  "quotes without blanks": ">",
  "quotes and lists": "> - ",
  tasks: "- [ ] ",
  "lists by tabs": "-\t",
  footnotes: "[^a]: ",
  definitions: "[a]: ",
};

export const MARKDOWN: Readonly<Record<string, Structure>> = Object.fromEntries([
  ...Object.entries(INLINE).flatMap(([name, piece]) => alongAndDown(name, piece)),
  ...Object.entries(CONTAINERS).flatMap(([name, mark]): [string, Structure][] => [
    [`${name}, in a line`, (chars) => `${times(mark, chars)}x\n`],
    [`${name}, under each other`, (chars) => times(`${mark}x\n`, chars)],
    [`${name}, under each other and apart`, (chars) => times(`${mark}x\n\n`, chars)],
    [`${name}, stairs of two`, (chars) => `${stairs("  ", `${mark}x`, chars)}\n`],
    [`${name}, stairs of four`, (chars) => `${stairs("    ", `${mark}x`, chars)}\n`],
    [`${name}, stairs of tabs`, (chars) => `${stairs("\t", `${mark}x`, chars)}\n`],
    [`${name}, stairs of themselves`, (chars) => `${stairs(mark, `${mark}x`, chars)}\n`],
    [
      `${name}, ever fewer`,
      (chars) => `${stairs(mark, `${mark}x`, chars).split("\n").reverse().join("\n")}\n`,
    ],
    [`${name}, ten in each line`, (chars) => times(`${mark.repeat(10)}x\n`, chars)],
    [`${name}, forty-five in each line`, (chars) => times(`${mark.repeat(45)}x\n`, chars)],
    [
      `${name}, forty-five in each line and lazy`,
      (chars) => `${mark.repeat(45)}x\n${times("lazy\n", chars)}`,
    ],
    [`${name}, with blank lines in them`, (chars) => times(`${mark}\n`, chars)],
    [`${name}, with a fence in each`, (chars) => times(`${mark}\`\`\`\n`, chars)],
    [
      `${name}, with a table in each`,
      (chars) => times(`${mark}| a |\n${" ".repeat(mark.length)}|---|\n\n`, chars),
    ],
    [`${name}, one long`, (chars) => `${mark}${times("word ", chars)}\n`],
    [`${name}, one with many lines`, (chars) => `${mark}a\n${times("  word\n", chars)}`],
    [`${name}, one with many paragraphs`, (chars) => `${mark}a\n\n${times("    word\n\n", chars)}`],
  ]),
  // What opens and closes.
  ["links in links", (c: number) => paired("[a", "b", "](c)", c)],
  ["pictures in pictures", (c: number) => paired("![a", "b", "](c)", c)],
  ["brackets in brackets", (c: number) => paired("[", "a", "]", c)],
  ["parentheses in a link", (c: number) => `[a](${paired("(", "b", ")", c)})`],
  ["emphasis in emphasis", (c: number) => paired("*a ", "b", " c*", c)],
  ["emphasis by turns in itself", (c: number) => paired("*a _b ", "b", " c_ d*", c)],
  ["strikes in strikes", (c: number) => paired("~a ", "b", " c~", c)],
  ["quotes and lists deep", (c: number) => times(`${"> - ".repeat(20)}a\n`, c)],
  ["tags in tags", (c: number) => paired("<b>", "a", "</b>", c)],
  ["code marks, each one longer", (c: number) => numbered((n) => `${"`".repeat(1 + (n % 400))}a`, c)],
  [
    "code marks, each one longer, once",
    (c: number) => {
      let t = "";
      for (let n = 1; t.length < c; n++) t += `${"`".repeat(n)}a`;
      return t;
    },
  ],
  [
    "stars, each run longer",
    (c: number) => {
      let t = "";
      for (let n = 1; t.length < c; n++) t += `${"*".repeat(n)}a`;
      return t;
    },
  ],
  ["stars, opening then closing", (c: number) => paired("**a ", "b", " c**", c)],
  // Definitions and calls.
  ["definitions of many names", (c: number) => numbered((n) => `[a${n}]: b\n`, c)],
  ["definitions and calls", (c: number) => numbered((n) => `[a${n}]: b\n\n[a${n}] [a${n + 1}]\n\n`, c)],
  [
    "calls of one definition in many sections",
    (c: number) => `[a]: b\n\n${numbered((n) => `# H${n}\n\n[a] [b${n}]\n\n`, c)}`,
  ],
  [
    "definitions in many sections",
    (c: number) => numbered((n) => `# H${n}\n\n[a${n}]: b\n\n[a${n - 1}]\n\n`, c),
  ],
  ["definitions over lines", (c: number) => times("[a\n]: b\n", c)],
  ["definitions with titles never ended", (c: number) => times('[a]: b "c\n', c)],
  ["a definition's label of many lines", (c: number) => `[${times("a\n", c)}]: b\n`],
  ["footnotes of many names", (c: number) => numbered((n) => `[^${n}]: b\n`, c)],
  ["footnotes called and made", (c: number) => numbered((n) => `a[^${n}]\n\n[^${n}]: b\n\n`, c)],
  ["footnotes in footnotes", (c: number) => numbered((n) => `${"    ".repeat(n % 10)}[^${n}]: b\n`, c)],
  // Blocks.
  ["headings", (c: number) => numbered((n) => `# H${n}\n\n`, c)],
  ["headings without text", (c: number) => times("#\n", c)],
  ["headings of one name", (c: number) => times("# Diode check\n\n", c)],
  ["headings ever deeper", (c: number) => numbered((n) => `${"#".repeat(1 + (n % 6))} H\n`, c)],
  ["headings that name a chip", (c: number) => numbered((n) => `## U${n} (7404)\n\n`, c)],
  ["headings with many marks behind", (c: number) => `# a ${times("#", c)}\n`],
  ["headings with many marks behind and text", (c: number) => `# a ${times("# ", c)} b\n`],
  ["underlined headings", (c: number) => times("a\n===\n", c)],
  ["rules", (c: number) => times("---\n", c)],
  ["rules of stars", (c: number) => times("* * *\n", c)],
  ["a rule that is none", (c: number) => `${times("* ", c)}x\n`],
  ["a rule along", (c: number) => `${times("- ", c)}\n`],
  ["a paragraph of many lines", (c: number) => times("some words\n", c)],
  ["a paragraph of many short lines", (c: number) => times("a\n", c)],
  ["a paragraph on one line", (c: number) => `${times("some words ", c)}\n`],
  ["hard breaks", (c: number) => times("a  \n", c)],
  ["hard breaks by mark", (c: number) => times("a\\\n", c)],
  ["blanks before line ends", (c: number) => `a${times(" ", c)}\nb\n`],
  ["blanks in every line", (c: number) => times(`a${" ".repeat(100)}b\n`, c)],
  ["blank lines", (c: number) => times("\n", c)],
  ["blank lines with blanks", (c: number) => times("   \n", c)],
  ["line ends by return", (c: number) => times("a\r", c)],
  ["a fence", (c: number) => `\`\`\`\n${times("# code\n", c)}`],
  ["a fence indented and full of headings", (c: number) => ` \`\`\`\n${times("# code\n", c)}`],
  ["fences never closed in lists", (c: number) => times("- ```\n  # a\n", c)],
  ["fences", (c: number) => times("```\na\n```\n", c)],
  [
    "fences each longer",
    (c: number) => {
      let t = "";
      for (let n = 3; t.length < c; n++) t += `${"`".repeat(n)}\n`;
      return t;
    },
  ],
  [
    "fences each shorter",
    (c: number) => {
      const all: string[] = [];
      let size = 0;
      for (let n = 3; size < c; n++) {
        all.push("`".repeat(n));
        size += n;
      }
      return `${all.reverse().join("\n")}\n`;
    },
  ],
  ["fences of two kinds", (c: number) => times("```\n~~~\n# a\n", c)],
  ["indented fences of two kinds", (c: number) => times(" ```\n # a\n# b\n ~~~\n", c)],
  ["comments opened by indented lines", (c: number) => times(" <!--\n# a\n", c)],
  ["headings behind open comments", (c: number) => `<!--\n${times("# a\n", c)}`],
  ["an indented comment full of headings", (c: number) => ` <!--\n${times("# a\n", c)}`],
  ["scripts full of headings", (c: number) => `<script>\n${times("# a\n", c)}`],
  ["HTML blocks", (c: number) => times("<div>\n\n", c)],
  ["HTML blocks with headings", (c: number) => times("<div>\n# a\n", c)],
  ["HTML of every block kind", (c: number) => times("<pre>\n<!--\n<?\n<!A\n<![CDATA[\n", c)],
  ["indented code", (c: number) => times("    code\n", c)],
  ["indented code and blank lines", (c: number) => times("    code\n\n", c)],
  ["front matter in the middle", (c: number) => times("---\na: b\n---\n\n", c)],
  // Tables.
  ["a table", (c: number) => `| a | b |\n|---|---|\n${times("| 1 | 2 |\n", c)}`],
  ["a table without outer pipes", (c: number) => `a | b\n---|---\n${times("1 | 2\n", c)}`],
  ["a table of one column", (c: number) => `| a |\n|---|\n${times("| 1 |\n", c)}`],
  ["a table with broad rows", (c: number) => `| a |\n|---|\n${times(`|${"1|".repeat(200)}\n`, c)}`],
  [
    "a table with many columns",
    (c: number) => {
      const n = Math.floor(c / 12);
      return `|${"a|".repeat(n)}\n|${"---|".repeat(n)}\n|${"1|".repeat(n)}\n|${"2|".repeat(n)}\n`;
    },
  ],
  [
    "a square table",
    (c: number) => {
      const n = Math.floor(Math.sqrt(c / 2));
      return `|${"a|".repeat(n)}\n|${"-|".repeat(n)}\n${`|${"1|".repeat(n)}\n`.repeat(n)}`;
    },
  ],
  ["tables", (c: number) => times("| a |\n|---|\n| 1 |\n\n", c)],
  ["tables without rows", (c: number) => times("| a |\n|---|\n\n", c)],
  [
    "tables of one name",
    (c: number) =>
      times("## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | 0.58 |\n\n", c),
  ],
  ["header lines", (c: number) => times("| a | b |\n", c)],
  ["delimiter lines", (c: number) => times("|---|---|\n", c)],
  ["header and delimiter of other counts", (c: number) => times("| a | b |\n|---|\n", c)],
  ["delimiters in a paragraph", (c: number) => times("a\n|---|---|\n", c)],
  ["a delimiter row along", (c: number) => `| a |\n|${times("---|", c)}\n`],
  ["a header along", (c: number) => `|${times("a|", c)}\n|---|\n`],
  ["escapes in a cell", (c: number) => `| a |\n|---|\n| ${times("\\|", c)} |\n`],
  ["code in a row never ended", (c: number) => `| a |\n|---|\n| ${times("`a|", c)} |\n`],
  ["a row of blanks", (c: number) => `| a |\n|---|\n|${times(" ", c)}|\n`],
  ["a row of empty cells", (c: number) => `| a |\n|---|\n|${times("|", c)}\n`],
  ["almost tables", (c: number) => times("| a | b |\n| 1 | 2 |\n| 1 | 2 |\n\n", c)],
  ["almost a table of many rows", (c: number) => `| a | b |\n|---|\n${times("| 1 | 2 |\n", c)}`],
  ["almost delimiters", (c: number) => times("| a | b |\n|-- -|---|\n", c)],
  ["text in a table", (c: number) => `| a | b |\n|---|---|\n${times("some words\n", c)}`],
  // Suppressions and links of our own.
  ["suppressions", (c: number) => times("<!-- mendlog-allow diode-out-of-window: a -->\n\n", c)],
  ["suppressions never closed", (c: number) => times("<!-- mendlog-allow \n\n", c)],
  ["suppressions with much white space", (c: number) => `<!-- mendlog-allow ${times(" ", c)} -->\n`],
]);

const READINGS: Readonly<Record<string, string>> = {
  "Diode check": "| Ref | Pin | Reading |",
  "Supply rails": "| Rail | Reading | Ripple |",
  "Logic levels": "| Ref | Pin | Reading |",
  Continuity: "| From | To | Reading |",
  "Work done": "| Ref | Done | Hours |",
  "Parts fitted": "| Ref | Part | Price |",
  "Chip test": "| Ref | Result | Note |",
  Swap: "| Ref | With | Result |",
  Inspection: "| Ref | Finding | Note |",
  "Parts on board": "| Ref | Device | Note |",
};

/** Tables of readings, by kind: the same row, other rows, other parts, all wrong. */
export const TABLES: Readonly<Record<string, Structure>> = Object.fromEntries(
  Object.entries(READINGS).flatMap(([heading, header]): [string, Structure][] => {
    const top = `## ${heading}\n\n${header}\n|---|---|---|\n`;
    return [
      [`${heading}, one row again`, (c) => top + times("| U14 | 1 | 0.58 |\n", c)],
      [
        `${heading}, many parts`,
        (c) => top + numbered((n) => `| U${n} | ${1 + (n % 14)} | 0.${n % 100} |\n`, c),
      ],
      [`${heading}, pins of one part`, (c) => top + numbered((n) => `| U14 | ${n} | 1.${n % 100} |\n`, c)],
      [`${heading}, numbers of parts`, (c) => top + numbered((n) => `| U${n} (7404) | 7404 | bad |\n`, c)],
      [`${heading}, rails`, (c) => top + numbered((n) => `| +${n}V | 4.6 V | U${n} replaced |\n`, c)],
      [`${heading}, a long cell`, (c) => `${top}| U14 | 1 | ${times("0.58 ", c)} |\n`],
      [`${heading}, a long place`, (c) => `${top}| ${times("U14, ", c)} | 1 | 0.58 |\n`],
      [`${heading}, pins in a cell`, (c) => `${top}| U14 | ${numbered((n) => `${n}, `, c)} | 0.58 |\n`],
      [`${heading}, a range of pins`, (c) => `${top}| U14 | 1-${times("9", c)} | 0.58 |\n`],
      [
        `${heading}, a section each`,
        (c) =>
          numbered((n) => `## ${heading} U${n}\n\n${header}\n|---|---|---|\n| U${n} | 1 | 0.58 |\n\n`, c),
      ],
      [
        `${heading}, before and after`,
        (c) =>
          times(
            `${top}| U14 | 1 | 0.58 |\n\n## Work done\n\n| Ref | Done |\n|---|---|\n| U14 | replaced |\n\n`,
            c,
          ),
      ],
    ];
  }),
);

/** YAML in front matter and in knowledge files. */
export const YAML: Readonly<Record<string, Structure>> = {
  "lists in brackets": (c) => `a: ${times("[", c)}`,
  "maps in braces": (c) => `a: ${times("{", c)}`,
  "brackets that close": (c) => `a: ${paired("[", "b", "]", c)}\n`,
  "a broad list": (c) => `a: [${times("b, ", c)}]\n`,
  "a broad list never closed": (c) => `a: [${times("b, ", c)}`,
  "a broad map": (c) => `a: { ${numbered((n) => `b${n}: c, `, c)} }\n`,
  "a broad map never closed": (c) => `a: { ${numbered((n) => `b${n}: c, `, c)}`,
  "braces with one key": (c) => `a: { ${times("b: c, ", c)} }\n`,
  "closing brackets": (c) => `a: ${times("]", c)}\n`,
  keys: (c) => numbered((n) => `k${n}: v\n`, c),
  "one key again": (c) => times("k: v\n", c),
  "keys without blanks": (c) => times("k:v\n", c),
  "keys without colons": (c) => times("k\n", c),
  "keys in a line": (c) => `${times("a: ", c)}b\n`,
  "long keys": (c) => `${times("k", c)}: v\n`,
  "question marks": (c) => times("? a\n", c),
  "question marks in a line": (c) => `${times("? ", c)}a\n`,
  "list in a line": (c) => `${times("- ", c)}a\n`,
  "list items": (c) => `a:\n${times("  - b\n", c)}`,
  "list items ever deeper": (c) => `a:\n${stairs(" ", "- ", c)}\n`,
  "maps ever deeper": (c) => `${stairs(" ", "a:", c)}\n`,
  "maps ever deeper by tabs": (c) => `${stairs("\t", "a:", c)}\n`,
  "maps by tabs": (c) => `a:\n${times("\tb: c\n", c)}`,
  "lines badly indented": (c) => `a:\n${times("   b: c\n  d: e\n", c)}`,
  "lines indented by turns": (c) => times("a: b\n  c: d\n", c),
  "lines indented ever less": (c) => `a:\n${stairs(" ", "b: c", c).split("\n").reverse().join("\n")}\n`,
  "quotes never closed": (c) => times('a: "b\n', c),
  "one quote never closed": (c) => `a: "${times("b ", c)}`,
  "one quote of many lines never closed": (c) => `a: "${times("b\n", c)}`,
  "apostrophes never closed": (c) => times("a: 'b\n", c),
  "apostrophes within": (c) => `a: '${times("''", c)}'\n`,
  "escapes in quotes": (c) => `a: "${times("\\n", c)}"\n`,
  "bad escapes in quotes": (c) => `a: "${times("\\q", c)}"\n`,
  "a long plain value": (c) => `a: ${times("b ", c)}\n`,
  "a plain value of many lines": (c) => `a:\n${times("  b\n", c)}`,
  "a block value": (c) => `a: |\n${times("  b\n", c)}`,
  "block values": (c) => times("a: |\n", c),
  "folded values": (c) => numbered((n) => `a${n}: >\n  b\n\n  c\n`, c),
  anchors: (c) => numbered((n) => `k${n}: &a${n} v\n`, c),
  "anchors in a line": (c) => `a: ${times("&a ", c)}b\n`,
  aliases: (c) => `a: &a b\n${numbered((n) => `k${n}: *a\n`, c)}`,
  "aliases of nothing": (c) => numbered((n) => `k${n}: *a${n}\n`, c),
  "aliases of aliases": (c) =>
    `a0: &a0 [x, x]\n${numbered((n) => `a${n + 1}: &a${n + 1} [*a${n}, *a${n}]\n`, c)}`,
  merges: (c) => `a: &a { b: c }\n${numbered((n) => `k${n}: { <<: *a }\n`, c)}`,
  tags: (c) => numbered((n) => `k${n}: !t${n} v\n`, c),
  "tags in a line": (c) => `a: ${times("!t ", c)}b\n`,
  documents: (c) => times("---\na: b\n", c),
  "document ends": (c) => times("...\n", c),
  directives: (c) => times("%YAML 1.2\n", c),
  comments: (c) => times("# a\n", c),
  "comments behind": (c) => numbered((n) => `k${n}: v # a\n`, c),
  "a long comment": (c) => `a: b # ${times("c ", c)}\n`,
  "blank lines": (c) => `a: b\n${times("\n", c)}c: d\n`,
  "blanks behind": (c) => `a: b${times(" ", c)}\nc: d\n`,
  "blanks before": (c) => `${times(" ", c)}a: b\n`,
  "blank lines of blanks": (c) => `a: b\n${times("    \n", c)}c: d\n`,
  colons: (c) => `a: ${times(":", c)}\n`,
  "colons apart": (c) => `a: ${times(": ", c)}\n`,
  commas: (c) => `a: [${times(",", c)}]\n`,
  percent: (c) => times("%", c),
  "at signs": (c) => `a: ${times("@", c)}\n`,
  backticks: (c) => times("a: `b\n", c),
  "line ends by return": (c) => times("a: b\r", c),
  "astral signs": (c) => `a: ${times("\u{1F600}", c)}\n`,
};
