// What a folder of many logs costs the language server: started in it over stdio, with one log opened at once and the findings
// of all others asked for, as an editor does. Cold, and once more with what the first start kept. Each figure beside the same
// in a folder of that one log alone, in the same run. With --write the table goes into docs/performance.md.
//
//   node tests/bench/server-many.js [--write] [logs...]
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { writeLogs } from "./many/logs.js";
import { writeBetween } from "./page.js";
import { sleep, startIn } from "./server-many/session.js";

const isWritten = process.argv.includes("--write");
const named = process.argv.slice(2).filter((word) => word !== "--write");
const SIZES = named.length > 0 ? named.map(Number) : [1000];
const BEGIN = "<!-- server in many logs: made by npm run bench:server-many -->";
const END = "<!-- end of server in many logs -->";

const KEYS = 60;
/** Typed before any is measured: the first ones of a process wait for its code to be made, wherever it is. */
const WARMING = 4;
/** Milliseconds of rest before a key: the server goes on with what is not urgent after one second of it. */
const SHORTEST_REST = 60;
const LONGEST_REST = 1500;
/** Seconds. */
const IDLE = 10;
const PATIENCE = 900;

/** @param by "own" or "clock" */
const percentile = (times, share, by = "own") =>
  times.map((time) => time[by]).sort((a, b) => a - b)[
    Math.min(times.length - 1, Math.ceil(share * times.length) - 1)
  ];

async function until(is, what) {
  const began = performance.now();
  while (!is()) {
    if (performance.now() - began > PATIENCE * 1000) throw new Error(`${what} did not come.`);
    await sleep(20);
  }
}

function placeIn(text) {
  const lines = text.split("\n");
  const line = lines.findIndex((each) => /^\|.*\| 0\.\d+/.test(each));
  return { line, character: /0\.\d/.exec(lines[line]).index + 3 };
}

/** @returns milliseconds from key to findings, see `typed`, of as many keys as were typed while it was true */
async function type(session, place, during = () => true) {
  const times = [];
  for (let n = 0; n < KEYS && during(); n += 1) {
    await sleep(SHORTEST_REST + ((n * 7919) % (LONGEST_REST - SHORTEST_REST)));
    if (!during()) break;
    times.push(await session.typed(place, String((n + 3) % 10)));
  }
  return times;
}

function shopOf(folder, logs) {
  const shop = join(folder, `shop-${logs}`);
  mkdirSync(shop);
  writeLogs(shop, logs);
  const path = join(shop, "logs/1/1.md");
  const text = readFileSync(path, "utf8");
  return {
    logs,
    folder: pathToFileURL(shop).href,
    uri: pathToFileURL(path).href,
    text,
    place: placeIn(text),
  };
}

/** One start from the beginning to rest. */
async function start(shop, storage) {
  const session = await startIn({ ...shop, storage });
  try {
    const found = (await session.findings()).length;
    if (found === 0) throw new Error("Nothing was found in the open log.");
    const first = { wall: session.wall(), cpu: session.cpu() };
    session.askForClosed();
    if (shop.logs > 1) await until(() => session.closed().size > 0, "The memory of all logs");
    const index = { wall: session.wall(), cpu: session.cpu(), peak: session.peak(), rss: session.rss() };
    await until(() => session.closed().size >= shop.logs - 1, "The findings of all closed logs");
    const all = { wall: session.wall(), cpu: session.cpu(), peak: session.peak(), rss: session.rss() };
    // Threads without work are let go first.
    await sleep(20_000);
    const began = session.cpu();
    await sleep(IDLE * 1000);
    const idle = { cpu: session.cpu() - began, rss: session.rss() };
    for (let n = 0; n < WARMING; n += 1) await session.typed(shop.place, String(n));
    const typing = await type(session, shop.place);
    const counted = [...session.closed().values()].reduce((sum, items) => sum + items.length, 0);
    await session.stop();
    return { first, index, all, idle, typing, counted };
  } finally {
    session.kill();
  }
}

/** A cold start in which keys are typed from the beginning on. */
async function typedMeanwhile(shop, storage) {
  const session = await startIn({ ...shop, storage });
  try {
    await session.findings();
    for (let n = 0; n < WARMING; n += 1) await session.typed(shop.place, String(n));
    session.askForClosed();
    const indexing = await type(session, shop.place, () => session.closed().size === 0);
    await until(() => session.closed().size > 0, "The memory of all logs");
    const checking = await type(session, shop.place, () => session.closed().size < shop.logs - 1);
    return { indexing, checking };
  } finally {
    session.kill();
  }
}

const s = (seconds) => `${seconds.toFixed(2)} s`;
const ms = (times, share) =>
  times.length === 0
    ? "none typed"
    : `${percentile(times, share).toFixed(1)} ms (${percentile(times, share, "clock").toFixed(1)} by the clock)`;
const mb = (megabytes) => `${megabytes.toFixed(0)} MB`;

async function rowsFor(logs) {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-server-many-"));
  try {
    const alone = await start(shopOf(folder, 1), join(folder, "alone"));
    const shop = shopOf(folder, logs);
    const kept = join(folder, "kept");
    const rows = [];
    const typed = await typedMeanwhile(shop, join(folder, "typed"));
    const idleP95 = (run) => percentile(run.typing, 0.95);
    for (const [name, run] of [
      ["alone", alone],
      ["cold", await start(shop, kept)],
      ["warm", await start(shop, kept)],
    ]) {
      console.log(
        `${String(name === "alone" ? 1 : logs).padStart(6)} ${name.padEnd(6)} first finding ${s(run.first.wall)}, CPU ${s(run.first.cpu)}; all remembered ${s(run.index.wall)}, CPU ${s(run.index.cpu)}, ${mb(run.index.rss)} (most ${mb(run.index.peak)}); all checked ${s(run.all.wall)}, CPU ${s(run.all.cpu)}, ${mb(run.all.rss)} (most ${mb(run.all.peak)}); at rest ${mb(run.idle.rss)}, CPU ${s(run.idle.cpu)} in ${IDLE} s; a key ${ms(run.typing, 0.5)}, p95 ${ms(run.typing, 0.95)}; ${run.counted} findings`,
      );
      if (name === "alone") continue;
      rows.push([
        String(logs),
        name,
        (run.first.cpu / alone.first.cpu).toFixed(2),
        s(run.index.cpu),
        (run.index.wall / run.index.cpu).toFixed(2),
        s(run.all.cpu - run.index.cpu),
        mb(run.index.peak),
        mb(run.all.peak),
        mb(run.idle.rss),
        s(run.idle.cpu),
        (idleP95(run) / idleP95(alone)).toFixed(2),
        name === "cold" && typed.indexing.length > 0
          ? (percentile(typed.indexing, 0.95) / idleP95(run)).toFixed(2)
          : "-",
        name === "cold" && typed.checking.length > 0
          ? (percentile(typed.checking, 0.95) / idleP95(run)).toFixed(2)
          : "-",
      ]);
    }
    for (const [what, times] of Object.entries(typed))
      console.log(
        `${String(logs).padStart(6)} a key while ${what}: ${times.length} typed, p50 ${ms(times, 0.5)}, p95 ${ms(times, 0.95)}, most ${ms(times, 1)}`,
      );
    return rows;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const rows = [];
for (const logs of SIZES) rows.push(...(await rowsFor(logs)));
const columns = [
  "Logs",
  "start",
  "CPU to the first finding, of one log alone",
  "CPU until all are remembered",
  "wall of that CPU",
  "CPU to check the closed ones",
  "memory until remembered",
  "memory until checked",
  "memory at rest",
  `CPU in ${IDLE} s of rest`,
  "a key's p95 at rest, of one log alone",
  "p95 while remembering, of at rest",
  "p95 while checking, of at rest",
];
const table = [columns, columns.map(() => "---"), ...rows]
  .map((cells) => `| ${cells.join(" | ")} |`)
  .join("\n");
console.log(`\n${table}`);
if (isWritten) {
  const note = `On ${availableParallelism()} cores, Node ${process.versions.node}.`;
  writeBetween(BEGIN, END, `${note}\n\n${table}`);
}
