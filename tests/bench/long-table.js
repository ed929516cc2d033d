// What a digit costs in one long table, to the log's findings, against one parse of the same log by the Markdown parser in
// the same run, in CPU time.
//
//   node tests/bench/long-table.js [rows...]
import remarkFrontmatter from "remark-frontmatter";
import remarkGfm from "remark-gfm";
import remarkParse from "remark-parse";
import { unified } from "unified";
import { load } from "./sources.js";

const ROWS = process.argv.slice(2).map(Number);
const LENGTHS = ROWS.length > 0 ? ROWS : [30, 300, 3000, 10_000];
const EDITS = 90;
/** Not counted: the engine still learns what is asked of it. */
const FIRST = 30;

const { Service, EXAMPLE_BOARD } = await load(
  `export { Service } from "./service"; export { EXAMPLE_BOARD } from "./checks/example-board";`,
  new URL("../../server/src/", import.meta.url),
);
const parser = unified().use(remarkParse).use(remarkGfm).use(remarkFrontmatter).freeze();
const cpu = (work) => {
  const began = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(began);
  return (user + system) / 1000;
};
const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];

const row = (i) => `| U${1 + (i % 40)}  | ${1 + (i % 14)}   | 0.${500 + (i % 90)}   |      |\n`;
const log = (rows) =>
  `---\nmendlog: 1\nboard: example\n---\n\n# Long\n\n## Diode check\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n${Array.from({ length: rows }, (_, i) => row(i)).join("")}`;

for (const rows of LENGTHS) {
  const texts = new Map([["mem:/x.board.yaml", EXAMPLE_BOARD]]);
  const service = new Service({ read: async (uri) => texts.get(uri), list: async () => [...texts.keys()] });
  await service.load();
  const text = log(rows);
  const at = text.indexOf("0.5", text.length >> 1) + 2;
  const parse = median(Array.from({ length: rows > 1000 ? 3 : 9 }, () => cpu(() => parser.parse(text))));
  const edited = (i) => text.slice(0, at) + (i % 10) + text.slice(at + 1);
  service.open("mem:/a.md", text);
  service.findings("mem:/a.md");
  const digits = Array.from({ length: EDITS }, (_, i) =>
    cpu(() => {
      service.open("mem:/a.md", edited(i));
      service.findings("mem:/a.md");
    }),
  );
  const digit = median(digits.slice(FIRST));
  console.log(
    `${String(rows).padStart(6)} rows: parse ${parse.toFixed(1).padStart(8)} ms, digit ${digit.toFixed(1).padStart(8)} ms, ratio ${(digit / parse).toFixed(3)}`,
  );
}
