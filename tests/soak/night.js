// A night at the bench with real processes on a real disk: two windows on one folder, edits, saves, renames and deletions
// behind their backs, windows and commands that are killed, no room on the disk, a spoilt cache.
//
//   npm run build && node tests/soak/night.js [--minutes N]
//
// After each round every window must say what a server says that was started just then, every file must be as it was
// written, nothing outside of the folder read, and the memory of the window that is never killed must not rise. Prints
// its figures; ends with status 1 where anything of that did not hold. MENDLOG_SEED as in run.js.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { load } from "../bench/sources.js";
import { demoTexts } from "./demo.js";
import { killed, noRoom, spoiltCache } from "./night/command-line.js";
import { CANARY, makeFolder } from "./night/folder.js";
import { compared, openWindow, pause } from "./night/window.js";

const { values } = parseArgs({ options: { minutes: { type: "string", default: "480" } } });
const given = process.env.MENDLOG_SEED;
const SEED = given === "random" ? Math.floor(Math.random() * 1e6) : Number(given ?? 1);
let until = Date.now() + Number(values.minutes) * 60_000;

const { numbers, oneOf, nat, typed, spoilt, workspaces } = await load(
  `export * from "./texts"; export * from "./sources"; export { numbers } from "../growth/seed";`,
  new URL("./", import.meta.url),
);
const draw = numbers(SEED);
const all = workspaces(demoTexts());

/** A disk of 24 MB, where one may be made; else none that can be filled. */
function smallDisk() {
  const path = mkdtempSync(join(tmpdir(), "mendlog-disk-"));
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", "size=24m,strictatime", "tmpfs", path], { stdio: "ignore" });
    return { path, end: () => execFileSync("umount", ["-l", path]) };
  } catch {
    rmSync(path, { recursive: true });
    return undefined;
  }
}

const disk = smallDisk();
if (!disk) console.log("No small disk can be made here, so none is filled.");
const folder = makeFolder(disk?.path);
if (!folder.tells)
  console.log("This disk keeps no times of reading: what was read outside shows only in what is published.");
console.log(`Night with seed ${SEED}, ${values.minutes} minutes.`);

// Told to stop, it ends its round, tidies up and says what it found so far.
for (const signal of ["SIGINT", "SIGTERM"])
  process.on(signal, () => {
    until = 0;
  });

/** A small shop: some jobs of the demo's and the examples' boards. */
for (const [n, files] of [all.at(-1), all.at(-2), oneOf(draw, all), oneOf(draw, all)].entries())
  for (const [path, text] of Object.entries(files))
    folder.write(path.includes("/") ? path : `${n}/${path}`, text);

const counts = {
  rounds: 0,
  edits: 0,
  saves: 0,
  renames: 0,
  deletions: 0,
  writes: 0,
  killedWindows: 0,
  killedCommands: 0,
  full: 0,
  spoiltCaches: 0,
};
const heap = [];
const problems = [];
const told = (wrong, seen) => {
  problems.push(wrong);
  console.log(`round ${counts.rounds}: ${String(wrong).slice(0, 1500)}${seen ?? ""}`);
};

const windows = [await openWindow(folder), await openWindow(folder)];
const bothHear = (changes) => Promise.all(windows.map((window) => window.watched(changes)));
const files = () => [...folder.model.keys()];
const NAMES = ["new.md", "more/new.md", "new.board.yaml", "mendlog.shop.yaml", "new.device.yaml"];

async function deed(window) {
  const edited = [...window.open.keys()];
  const kind = draw();
  if (edited.length === 0 || kind < 0.06) {
    const path = oneOf(draw, files());
    return window.show(path, folder.model.get(path));
  }
  if (kind < 0.8) {
    const path = oneOf(draw, edited);
    counts.edits++;
    await window.type(path, typed(window.open.get(path).text, draw, oneOf(draw, [...folder.model.values()])));
    if (draw() < 0.2)
      await canaryIn(await window.ask(path, nat(draw, window.open.get(path).text.length + 1)));
    return;
  }
  if (kind < 0.88) {
    const path = oneOf(draw, edited);
    // What a file cannot hold, half of a pair, becomes a sign of its own, as in every editor.
    folder.write(path, Buffer.from(window.open.get(path).text).toString("utf8"));
    counts.saves++;
    await window.saved(path);
    return bothHear([[path, 2]]);
  }
  if (kind < 0.91) return window.hide(oneOf(draw, edited));
  if (kind < 0.94) {
    const [path, to] = [oneOf(draw, files()), oneOf(draw, NAMES)];
    if (folder.model.has(to)) return;
    folder.rename(path, to);
    counts.renames++;
    return bothHear([
      [path, 3],
      [to, 1],
    ]);
  }
  if (kind < 0.96 && files().length > 6) {
    const path = oneOf(draw, files());
    folder.remove(path);
    counts.deletions++;
    return bothHear([[path, 3]]);
  }
  const path = oneOf(draw, [...files(), ...NAMES]);
  const was = folder.model.get(path);
  const text = spoilt(
    was ?? oneOf(draw, Object.values(oneOf(draw, all))),
    draw,
    oneOf(draw, [...folder.model.values()]),
  );
  folder.write(path, Buffer.from(text).toString("utf8"));
  counts.writes++;
  return bothHear([[path, was === undefined ? 1 : 2]]);
}

async function canaryIn(published) {
  if (published.includes(CANARY)) told("what lies outside was published");
}

/** What befalls once in a while, beside the edits. */
async function mishap() {
  const kind = draw();
  if (kind < 0.25) {
    // In the middle of what it does; another takes its place, as the editor starts one.
    const { open, client } = windows[1];
    for (const path of open.keys()) void window1Types(path);
    client.kill();
    counts.killedWindows++;
    windows[1] = await openWindow(folder, open);
    return [];
  }
  if (kind < 0.5) {
    counts.killedCommands++;
    return killed(folder, draw);
  }
  if (kind < 0.75) {
    counts.spoiltCaches++;
    return spoiltCache(folder, draw);
  }
  if (!disk) return [];
  counts.full++;
  const ballast = join(folder.home, "ballast");
  try {
    return await noRoom(folder, ballast);
  } finally {
    rmSync(ballast, { force: true });
  }
}

const window1Types = (path) => windows[1].type(path, { from: 0, to: 0, text: "" }).catch(() => undefined);

try {
  mkdirSync(folder.made("cache"), { recursive: true });
  while (Date.now() < until) {
    counts.rounds++;
    for (let n = 0; n < 40; n++) await deed(windows[nat(draw, 2)]);
    for (const wrong of await mishap()) told(wrong);
    for (const window of windows) {
      const { published, differs } = await compared(folder, window);
      if (differs) told(`a window says other than a fresh one: ${differs}`);
      await canaryIn(published);
      const failed = window.client.log.find((line) => / failed: /.test(line));
      if (failed) {
        told(failed);
        window.client.log.length = 0;
      }
      window.client.published.length = 0;
      window.client.progress.length = 0;
    }
    for (const wrong of folder.wrongs()) told(wrong);
    heap.push((await windows[0].heap()) / 1e6);
    if (counts.rounds % 10 === 0)
      console.log(
        `${counts.rounds} rounds, ${counts.edits} edits, ${problems.length} problems, heap ${heap.at(-1).toFixed(1)} MB`,
      );
    // The texts must not grow from round to round, or the level of the memory would tell nothing.
    for (const window of windows)
      for (const [path, { text }] of [...window.open])
        if (text.length > 30_000 || draw() < 0.1) await window.hide(path);
    for (const [path, text] of [...folder.model])
      if (text.length > 30_000) {
        folder.write(path, text.slice(0, 20_000));
        await bothHear([[path, 2]]);
      }
    await pause(10);
  }
} finally {
  for (const { client } of windows) client.kill();
  folder.end();
  disk?.end();
}

const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1] ?? Number.NaN;
const third = Math.ceil(heap.length / 3);
const [early, late] = [median(heap.slice(0, third)), median(heap.slice(-third))];
if (heap.length >= 30 && late > early * 1.5 + 10)
  told(`the memory rises: ${early.toFixed(0)} to ${late.toFixed(0)} MB`);
console.log(JSON.stringify({ ...counts, problems: problems.length, heapEarly: early, heapLate: late }));
process.exitCode = problems.length === 0 ? 0 : 1;
