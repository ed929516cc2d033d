// Judging at least 10,000 readings afresh, against one parse of the same text by the Markdown parser in the same run.
// Ends with status 1 where judging costs as much as the parse.
//
//   node tests/bench/judging.js
import { readdirSync, readFileSync } from "node:fs";
import remarkFrontmatter from "remark-frontmatter";
import remarkGfm from "remark-gfm";
import remarkParse from "remark-parse";
import { unified } from "unified";
import { parse as parseYaml } from "yaml";
import { readKind } from "../../server/build/library.js";
import { bigLog } from "../fixtures/big-log.js";
import { load } from "./sources.js";

const READINGS = 10_000;
const MOST = 1;
const ROUNDS = 5;

const { Service, judgeBlock } = await load(
  `export { Service } from "./service"; export { judgeBlock } from "./judge";`,
  new URL("../../server/src/", import.meta.url),
);

const BOARDS = new URL("../../demo/boards/", import.meta.url);
const name = readdirSync(BOARDS).sort()[0];
const boardText = readFileSync(new URL(name, BOARDS), "utf8");
const board = parseYaml(boardText);
const devices = readKind("devices").map(({ data }) => data);

const uri = `mem:/${name}`;
const service = new Service({ read: async () => boardText, list: async () => [uri] });
await service.load();

const countOf = (view) =>
  view.doc.blocks.reduce((n, { block }) => n + block.tables.reduce((m, t) => m + t.readings.length, 0), 0);

let lines = 10_000;
let text = "";
let view;
for (;;) {
  text = bigLog({ lines, board, devices });
  service.open("mem:/long.md", text);
  view = service.view("mem:/long.md");
  if (countOf(view) >= READINGS) break;
  lines += 2_000;
}

const clock = (run) => {
  const began = performance.now();
  run();
  return performance.now() - began;
};
const quickest = (run) => Math.min(...Array.from({ length: ROUNDS }, () => clock(run)));

const processor = unified().use(remarkParse).use(remarkGfm).use(remarkFrontmatter);
const parse = quickest(() => processor.parse(text));
// A new context is what a changed board file brings: nothing that was judged before counts.
const judging = quickest(() => {
  const ctx = { ...view.ctx };
  for (const { block } of view.doc.blocks) judgeBlock(block, ctx);
});

const ratio = judging / parse;
console.log(
  `${countOf(view)} readings in ${text.split("\n").length} lines: judging ${judging.toFixed(1)} ms, one parse ${parse.toFixed(1)} ms, ratio ${ratio.toFixed(3)} (at most ${MOST})`,
);
if (ratio >= MOST) process.exitCode = 1;

// One key in the file of a board that this log is not of, up to the log's findings: nothing of it is judged again.
const OTHER = "mem:/other.board.yaml";
const other = (title) => `mendlog-board: 1\nid: other\ntitle: ${title}\nsource: invented\n`;
service.open(OTHER, other("0"));
service.findings("mem:/long.md");
let typed = 0;
const elsewhere = quickest(() => {
  typed += 1;
  service.open(OTHER, other(String(typed)));
  service.findings("mem:/long.md");
});
const own = quickest(() => {
  typed += 1;
  service.open(uri, `${boardText}\n# ${typed}\n`);
  service.findings("mem:/long.md");
});
console.log(
  `a key in another board's file: ${elsewhere.toFixed(1)} ms to this log's findings, ratio ${(elsewhere / parse).toFixed(3)}; in its own board's file ${own.toFixed(1)} ms, ratio ${(own / parse).toFixed(3)}`,
);
// Else it would be judged again for both.
if (elsewhere > own / 2) {
  console.error("A key in another board's file costs as much as one in its own.");
  process.exitCode = 1;
}
