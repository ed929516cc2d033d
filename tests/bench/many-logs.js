// What a whole folder of logs costs the command line: all of it cold and warm, one file of it, and its memory; against one
// parse of the same texts by the Markdown parser on one thread, and reading the files, each in a process of its own in the
// same run. With --write the table goes into docs/performance.md.
//
//   node tests/bench/many-logs.js [--write] [logs...]
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { writeLogs } from "./many/logs.js";
import { measured } from "./many/run.js";
import { writeBetween } from "./page.js";

const isWritten = process.argv.includes("--write");
const named = process.argv.slice(2).filter((word) => word !== "--write");
const SIZES = named.length > 0 ? named.map(Number) : [1000];
const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const CLI = here("../../dist/cli.cjs");
const BEGIN = "<!-- many logs: made by npm run bench:many -->";
const END = "<!-- end -->";

/** @returns {Promise<string[]>} the cells of a row */
async function rowFor(logs) {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-many-"));
  try {
    const shop = join(folder, "shop");
    const alone = join(folder, "alone");
    mkdirSync(shop);
    mkdirSync(alone);
    writeLogs(shop, logs);
    writeLogs(alone, 1);
    const env = { XDG_CACHE_HOME: join(folder, "cache") };
    const run = async (name, args, cwd) => {
      const result = await measured(args, { cwd, env });
      if (result.status > 1) throw new Error(`${name}: status ${result.status}`);
      const { wall, cpu, mb } = result;
      console.log(
        `${String(logs).padStart(6)} ${name.padEnd(30)} ${(wall / 1000).toFixed(2).padStart(8)} s ${(cpu / 1000).toFixed(2).padStart(8)} s of CPU ${mb.toFixed(0).padStart(6)} MB`,
      );
      return result;
    };
    const parse = await run("one parse of all, one thread", [here("many/parse.js"), shop], shop);
    const read = await run("reading all files", [here("many/read.js"), shop], shop);
    const cold = await run("check, cold", [CLI, "check", "."], shop);
    // What was written within the last two seconds is not trusted.
    await new Promise((go) => setTimeout(go, 2500));
    const warm = await run("check, warm", [CLI, "check", "."], shop);
    const one = await run("check one file, warm", [CLI, "check", "logs/1/1.md"], shop);
    const single = await run("the same file alone", [CLI, "check", "logs/1/1.md"], alone);
    const ratio = (value) => value.toFixed(2);
    return [
      String(logs),
      ratio(cold.wall / parse.wall),
      ratio(cold.cpu / parse.cpu),
      `${cold.mb.toFixed(0)} MB`,
      ratio(warm.wall / read.wall),
      ratio(one.wall / single.wall),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const rows = [];
for (const logs of SIZES) rows.push(await rowFor(logs));
const table = [
  "| Logs | cold, of the parse's wall time | cold, of the parse's CPU time | memory, cold | warm, of reading the files | one file, of the file alone |",
  "| --- | --- | --- | --- | --- | --- |",
  ...rows.map((row) => `| ${row.join(" | ")} |`),
].join("\n");
console.log(`\n${table}`);
if (isWritten) {
  const note = `On ${availableParallelism()} cores, Node ${process.versions.node}.`;
  writeBetween(BEGIN, END, `${note}\n\n${table}`);
}
