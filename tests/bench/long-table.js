// What a digit costs in one long table, to the log's findings, against one parse of the same log by the Markdown parser in
// the same run, in CPU time. With --write the table goes into docs/performance.md.
//
//   node tests/bench/long-table.js [--write] [rows...]
import { availableParallelism } from "node:os";
import remarkFrontmatter from "remark-frontmatter";
import remarkGfm from "remark-gfm";
import remarkParse from "remark-parse";
import { unified } from "unified";
import { writeBetween } from "./page.js";
import { load } from "./sources.js";

const isWritten = process.argv.includes("--write");
const ROWS = process.argv
  .slice(2)
  .filter((word) => word !== "--write")
  .map(Number);
const LENGTHS = ROWS.length > 0 ? ROWS : [30, 300, 1000, 3000, 10_000];
const EDITS = 90;
/** Not counted: the engine still learns what is asked of it. */
const FIRST = 30;
const BEGIN = "<!-- long table: made by npm run bench:long-table -- --write -->";
const END = "<!-- end of long table -->";

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

const PARTS = 720;
const BOARD = `mendlog-board: 1
id: whole
title: A board of many chips
source: invented
parts:
${Array.from({ length: PARTS }, (_, i) => `  U${i + 1}: { device: "7404" }\n`).join("")}nets:
${Array.from({ length: PARTS - 1 }, (_, i) => `  N${i}: [U${i + 1}.2, U${i + 2}.1]\n`).join("")}`;

const head = (board) =>
  `---\nmendlog: 1\nboard: ${board}\n---\n\n# Long\n\n## Diode check\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n`;
/** Chips in turn, most of which the board file does not have, and which are read again and again. */
const spread = (i) => `| U${1 + (i % 40)}  | ${1 + (i % 14)}   | 0.${500 + (i % 90)}   |      |\n`;
/** One chip after the other, each in the board file, named in its first row. */
const inOrder = (i) =>
  `| ${i % 14 === 0 ? `U${1 + Math.floor(i / 14)}` : "  "} | ${1 + (i % 14)} | ${i % 14 === 6 ? "0.001" : `0.5${10 + ((i * 7) % 60)}`} | |\n`;
const LOGS = [
  ["read again and again", "example", spread],
  ["chip after chip", "whole", inOrder],
];
const logOf = (rows, board, row) => head(board) + Array.from({ length: rows }, (_, i) => row(i)).join("");

const lines = [];
for (const [name, board, row] of LOGS) {
  for (const rows of LENGTHS) {
    const texts = new Map([
      ["mem:/x.board.yaml", EXAMPLE_BOARD],
      ["mem:/y.board.yaml", BOARD],
    ]);
    const service = new Service({ read: async (uri) => texts.get(uri), list: async () => [...texts.keys()] });
    await service.load();
    const text = logOf(rows, board, row);
    const at = text.indexOf("0.5", text.length >> 1) + 2;
    const parse = median(Array.from({ length: rows > 1000 ? 3 : 9 }, () => cpu(() => parser.parse(text))));
    const shown = (now) => {
      service.open("mem:/a.md", now);
      service.findings("mem:/a.md");
    };
    shown(text);
    const typed = (edited) =>
      median(
        Array.from({ length: EDITS }, (_, i) => {
          const now = edited(i);
          return cpu(() => shown(now));
        }).slice(FIRST),
      );
    // No text comes twice: what was read once is kept for undo.
    const over = typed((i) => text.slice(0, at) + String(i).padStart(2, "0") + text.slice(at + 2));
    // Two digits more and three by turns: all that stands behind them moves.
    const more = typed((i) => text.slice(0, at) + String(i).padStart(2 + (i % 2), "0") + text.slice(at));
    const figures = [parse, over, more].map((ms) => ms.toFixed(1));
    const ratios = [over / parse, more / parse].map((ratio) => ratio.toFixed(3));
    console.log(
      `${String(rows).padStart(6)} rows, ${name}: parse ${figures[0]} ms, digit over another ${figures[1]} ms, ratio ${ratios[0]}, digit more ${figures[2]} ms, ratio ${ratios[1]}`,
    );
    lines.push(`| ${rows} | ${name} | ${ratios.join(" | ")} |`);
  }
}
if (isWritten) {
  const note = `On ${availableParallelism()} cores, Node ${process.versions.node}.`;
  const table = [
    "| Rows | Log | a digit over another, of one parse | a digit more, of one parse |",
    "| --- | --- | --- | --- |",
    ...lines,
  ].join("\n");
  writeBetween(BEGIN, END, `${note}\n\n${table}`);
}
