// What the benches of long logs share: the core, its boards, the logs, and how time is taken.
import { readdirSync, readFileSync } from "node:fs";
import remarkFrontmatter from "remark-frontmatter";
import remarkGfm from "remark-gfm";
import remarkParse from "remark-parse";
import { unified } from "unified";
import { parse as parseYaml } from "yaml";
import { readKind } from "../../server/build/library.js";
import { bigLog } from "../fixtures/big-log.js";
import { load } from "./sources.js";

const { Service, EXAMPLE_BOARD } = await load(
  `export { Service } from "./service"; export { EXAMPLE_BOARD } from "./checks/example-board";`,
  new URL("../../server/src/", import.meta.url),
);
const parser = unified().use(remarkParse).use(remarkGfm).use(remarkFrontmatter).freeze();

/** Processor time of this process in ms, all of its threads. */
export const cpu = (work) => {
  const began = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(began);
  return (user + system) / 1000;
};
export const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];

/** What the Markdown parser takes for the text, the middle of several times. */
export const parseTime = (text) =>
  median(Array.from({ length: text.length > 60_000 ? 3 : 9 }, () => cpu(() => parser.parse(text))));

const PARTS = 720;
/** A board of many chips, each with one net to the next. */
export const wholeBoard = (id, device = "7404") => `mendlog-board: 1
id: ${id}
title: A board of many chips
source: invented
parts:
${Array.from({ length: PARTS }, (_, i) => `  U${i + 1}: { device: "${device}" }\n`).join("")}nets:
${Array.from({ length: PARTS - 1 }, (_, i) => `  N${i}: [U${i + 1}.2, U${i + 2}.1]\n`).join("")}`;

export const exampleBoard = EXAMPLE_BOARD;

const head = (board) =>
  `---\nmendlog: 1\nboard: ${board}\n---\n\n# Long\n\n## Diode check\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n`;
const tableLog = (board, row) => (rows) =>
  head(board) + Array.from({ length: rows }, (_, i) => row(i)).join("");

/** Chips in turn, most of which the board file does not have, and which are read again and again. */
export const readAgain = tableLog(
  "example",
  (i) => `| U${1 + (i % 40)}  | ${1 + (i % 14)}   | 0.${500 + (i % 90)}   |      |\n`,
);
/** One chip after the other, each in the board file, named in its first row. */
export const chipAfterChip = tableLog(
  "whole",
  (i) =>
    `| ${i % 14 === 0 ? `U${1 + Math.floor(i / 14)}` : "  "} | ${1 + (i % 14)} | ${i % 14 === 6 ? "0.001" : `0.5${10 + ((i * 7) % 60)}`} | |\n`,
);

const BOARDS = new URL("../../demo/boards/", import.meta.url);
/** Text of the demo's first board file. */
export const demoBoard = readFileSync(new URL(readdirSync(BOARDS).sort()[0], BOARDS), "utf8");
const demo = parseYaml(demoBoard);
const devices = readKind("devices").map(({ data }) => data);
/** A log of many sections, as one repair of that board makes them. */
export const ordinaryLog = (lines) => bigLog({ lines, board: demo, devices });

/**
 * A log in a workspace of its own. @param boards texts of its board files
 * @returns shows the log with another text: to its findings, as an editor does
 */
export async function opened(boards) {
  const texts = new Map(boards.map((text, i) => [`mem:/${i}.board.yaml`, text]));
  const service = new Service({ read: async (uri) => texts.get(uri), list: async () => [...texts.keys()] });
  await service.load();
  return (text) => {
    service.open("mem:/a.md", text);
    return service.findings("mem:/a.md");
  };
}
