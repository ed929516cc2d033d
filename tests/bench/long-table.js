// What a digit costs in one long table, to the log's findings, against one parse of the same log by the Markdown parser in
// the same run, in CPU time. With --write the table goes into docs/performance.md.
//
//   node tests/bench/long-table.js [--write] [rows...]
//
// With --kinds it is a table of each kind instead, of 1,000 rows where nothing else is said.
import { availableParallelism } from "node:os";
import {
  chipAfterChip,
  cpu,
  exampleBoard,
  median,
  opened,
  parseTime,
  readAgain,
  wholeBoard,
} from "./long-logs.js";
import { BY_KIND } from "./long-tables.js";
import { writeBetween } from "./page.js";

const isByKind = process.argv.includes("--kinds");
const isWritten = process.argv.includes("--write");
const ROWS = process.argv
  .slice(2)
  .filter((word) => !word.startsWith("--"))
  .map(Number);
const LENGTHS = ROWS.length > 0 ? ROWS : isByKind ? [1000] : [30, 300, 1000, 3000, 10_000];
const EDITS = 90;
/** Not counted: the engine still learns what is asked of it. */
const FIRST = 30;
const BEGIN = "<!-- long table: made by npm run bench:long-table -- --write -->";
const END = "<!-- end of long table -->";

const LOGS = isByKind
  ? BY_KIND
  : [
      ["read again and again", readAgain],
      ["chip after chip", chipAfterChip],
    ];
const BOARDS = [exampleBoard, wholeBoard("whole")];

const lines = [];
for (const [name, logOf] of LOGS) {
  for (const rows of LENGTHS) {
    const shown = await opened(BOARDS);
    const text = logOf(rows);
    const row = text.lastIndexOf("\n| ", text.length >> 1);
    const at = row + text.slice(row).search(/\.\d\d/) + 1;
    const parse = parseTime(text);
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
