// What an edit costs that changes more than its own line: another board in the front matter, and an indented fence opened and
// closed at the top. Up to the log's findings, against one parse of the same log by the Markdown parser in the same run, in CPU
// time. With --write the table goes into docs/performance.md.
//
//   node tests/bench/structure.js [--write]
import { availableParallelism } from "node:os";
import {
  chipAfterChip,
  cpu,
  demoBoard,
  exampleBoard,
  median,
  opened,
  ordinaryLog,
  parseTime,
  readAgain,
  wholeBoard,
} from "./long-logs.js";
import { writeBetween } from "./page.js";

const EDITS = 45;
/** Not counted: the engine still learns what is asked of it. */
const FIRST = 15;
const BEGIN = "<!-- structure: made by npm run bench:structure -- --write -->";
const END = "<!-- end of structure -->";

/** The same board under another name, with other devices in some of its places. */
const others = (board) =>
  Array.from({ length: EDITS }, (_, i) => {
    let place = 0;
    return board
      .replace(/^id: .*$/m, `id: other-${i}`)
      .replace(/device: "?74(LS)?04"?/g, (device) => (++place % 3 === i % 3 ? 'device: "7408"' : device));
  });
const LOGS = [
  ["ordinary, 1,000 lines", ordinaryLog(1000), demoBoard],
  ["ordinary, 5,000 lines", ordinaryLog(5000), demoBoard],
  ["1,000 rows, read again and again", readAgain(1000), exampleBoard],
  ["1,000 rows, chip after chip", chipAfterChip(1000), wholeBoard("whole")],
];

/** The edits that are made in turn, each from the log as it is, and each after it undone: what, and back. */
const BOARD = /^board: .*\n/m;
const TOP = /^---\n\n/m;
const fence = (i) => `${" ".repeat(1 + (i % 3))}${(i % 2 ? "~" : "`").repeat(3 + (i % 4))}`;
const KINDS = [
  ["another board", (text, i) => text.replace(BOARD, `board: other-${i}\n`)],
  ["a board nobody knows", (text, i) => text.replace(BOARD, `board: nobody-${i}\n`)],
  ["no board", (text, i) => text.replace(BOARD, i === 0 ? "" : `${" ".repeat(i)}\n`)],
  ["a fence opened", (text, i) => text.replace(TOP, `---\n\n${fence(i)} ${i}\n`)],
];

const lines = [];
for (const [name, text, board] of LOGS) {
  const show = await opened([board, ...others(board)]);
  const parse = parseTime(text);
  for (const [kind, edited] of KINDS) {
    const there = [];
    const back = [];
    for (let i = 0; i < EDITS; i++) {
      const now = edited(text, i);
      if (now === text) throw new Error(`Nothing was changed: ${kind}.`);
      show(text);
      there.push(cpu(() => show(now)));
      back.push(cpu(() => show(text)));
    }
    const times = [there, back].map((list) => median(list.slice(FIRST)));
    const ratios = times.map((ms) => (ms / parse).toFixed(3));
    console.log(
      `${name}, ${kind}: parse ${parse.toFixed(1)} ms, there ${times[0].toFixed(1)} ms, ratio ${ratios[0]}, back ${times[1].toFixed(1)} ms, ratio ${ratios[1]}`,
    );
    lines.push(`| ${name} | ${kind} | ${ratios.join(" | ")} |`);
  }
}
if (process.argv.includes("--write")) {
  const note = `On ${availableParallelism()} cores, Node ${process.versions.node}.`;
  const table = [
    "| Log | What is edited | that, of one parse | undone, of one parse |",
    "| --- | --- | --- | --- |",
    ...lines,
  ].join("\n");
  writeBetween(BEGIN, END, `${note}\n\n${table}`);
}
