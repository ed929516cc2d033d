// Runs the scenarios in a real VS Code: node tests/editor/run.js [--vsix FILE] [part of a scenario's name]
//
// A scenario file's default export:
//   title      what a person sees
//   workspace  folder to open a copy of, relative to this file; default "bench"; null for an empty folder
//   files, settings, trusted, folderless, manyFolders, locale, web, asker   as for open() in harness.js
//   gallery    true for one whose pictures are to be looked at; left out where MENDLOG_EDITOR=short
//   alone      true for one that measures time: nothing runs beside it
//   timeout    milliseconds for one that takes longer than others, see SCENARIO_TIMEOUT
//   skip()     a sentence when it cannot run here (an error when CI=true)
//   window     false for one that needs no editor window
//   run(editor, { repository, cli, say })   `say` prints a line below the scenario's own

import { existsSync, readdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { startRig } from "./harness.js";
import { HELD_ELSEWHERE } from "./held-elsewhere.js";
import { showProblems } from "./problems.js";

const HERE = dirname(fileURLToPath(import.meta.url));
const REPOSITORY = resolve(HERE, "../..");
const SCENARIOS = join(HERE, "scenarios");
/**
 * For a scenario as a whole. Each of its steps has a patience of its own and says what it waited for, so this is only
 * there for what waits without one.
 */
const SCENARIO_TIMEOUT = 150_000;
const OUTPUT_TAIL = 30;
/** Without pictures to be looked at and without what other tests hold below the screen. */
const IS_SHORT = process.env.MENDLOG_EDITOR === "short";
/** Windows at a time: one mostly waits for its server while the other draws. */
const LANES = 2;
/** Further tries of a scenario that failed; each is told of. */
const RETRIES = 2;

const say = (line) => console.log(line);

async function main() {
  const { vsix, filter } = readArguments(process.argv.slice(2));
  const files = readdirSync(SCENARIOS)
    .filter((name) => name.endsWith(".scenario.js") && name.includes(filter))
    .sort();
  if (files.length === 0) throw new Error(`No scenario in ${SCENARIOS} has "${filter}" in its name.`);
  const known = readdirSync(SCENARIOS);
  for (const [name, tests] of Object.entries(HELD_ELSEWHERE))
    if (!known.includes(`${name}.scenario.js`) || !existsSync(join(REPOSITORY, tests)))
      throw new Error(`held-elsewhere.js: ${name} or ${tests} is not there.`);
  const scenarios = [];
  for (const file of files) {
    const loaded = await import(pathToFileURL(join(SCENARIOS, file)).href);
    const name = file.replace(".scenario.js", "");
    if (IS_SHORT && (loaded.default.gallery || name in HELD_ELSEWHERE)) continue;
    scenarios.push({ name, ...loaded.default });
  }
  if (!existsSync(vsix)) throw new Error(`${vsix} is missing: build it with npm run package.`);

  const began = Date.now();
  const needsWindow = scenarios.some((it) => it.window !== false);
  const rig = needsWindow ? await startRig({ vsix, log: say }) : undefined;
  const count = { passed: 0, failed: 0, skipped: 0 };
  /** Scenarios that needed more than one try, with what each failed try said. */
  const retried = [];
  try {
    const run = async (scenario) => {
      const faults = [];
      let outcome = await runOne(scenario, rig, vsix, faults);
      // A window can miss a key or a mouse move on a busy machine. What is really broken fails every time.
      for (let again = 0; outcome === "failed" && again < RETRIES; again += 1) {
        say(`again ${scenario.name}`);
        outcome = await runOne(scenario, rig, vsix, faults);
      }
      count[outcome] += 1;
      if (outcome === "passed" && faults.length > 0) retried.push({ name: scenario.name, faults });
    };
    const waiting = scenarios.filter((it) => !it.alone);
    const lane = async () => {
      for (let next = waiting.shift(); next; next = waiting.shift()) await run(next);
    };
    await Promise.all(Array.from({ length: LANES }, lane));
    for (const scenario of scenarios.filter((it) => it.alone)) await run(scenario);
  } finally {
    await rig?.close();
  }
  if (retried.length > 0) sayRetried(retried);
  say(`${((Date.now() - began) / 1000).toFixed(1)} s${count.skipped ? `, ${count.skipped} skipped` : ""}`);
  say(`${count.passed} passed, ${count.failed} failed`);
  return count.failed === 0 ? 0 : 1;
}

/** A test that passes only now and then is to be repaired, so it is named where everybody looks. */
function sayRetried(retried) {
  const names = retried.map(({ name, faults }) => `${name} (${faults.length + 1} tries)`);
  for (const { name, faults } of retried)
    for (const fault of faults) say(`failed at first: ${name}: ${fault}`);
  say(`${retried.length} needed another try: ${names.join(", ")}`);
}

/**
 * @param {string[]} faults gets what a failed try said, in a line
 * @returns {Promise<"passed" | "failed" | "skipped">}
 */
async function runOne(scenario, rig, vsix, faults) {
  const began = Date.now();
  const label = `${scenario.name}: ${scenario.title}`;
  const reason = scenario.skip?.();
  if (reason && process.env.CI !== "true") {
    say(`skip  ${label} (${reason})`);
    return "skipped";
  }
  let editor;
  try {
    if (reason) throw new Error(`${reason}, which is not accepted when CI=true`);
    if (scenario.window !== false) {
      const {
        workspace = "bench",
        files,
        settings,
        trusted,
        folderless,
        manyFolders,
        locale,
        web,
        asker,
      } = scenario;
      editor = await rig.open({
        ...(workspace === null ? {} : { workspace: resolve(HERE, workspace) }),
        files,
        settings,
        trusted,
        folderless,
        manyFolders,
        locale,
        web,
        asker,
      });
    }
    const notes = [];
    const cli = join(dirname(vsix), "cli.cjs");
    const running = scenario.run(editor, { repository: REPOSITORY, cli, say: (line) => notes.push(line) });
    await withTimeout(running, scenario.timeout ?? SCENARIO_TIMEOUT);
    say(`ok    ${label} (${Date.now() - began} ms)`);
    for (const note of notes) say(indent(note));
    return "passed";
  } catch (error) {
    say(`FAIL  ${label} (${Date.now() - began} ms)`);
    say(indent(error.stack ?? String(error)));
    faults.push(
      String(error.message ?? error)
        .trim()
        .split("\n", 1)[0],
    );
    if (editor) await explain(editor, scenario.name);
    return "failed";
  } finally {
    await editor?.close();
  }
}

/** What was on the screen when a scenario failed. Nothing here may hide the failure itself. */
async function explain(editor, name) {
  const attempt = async (what, work) => {
    try {
      const text = await withTimeout(work(), 15_000);
      if (text) say(indent(`${what}:\n${text}`));
    } catch (error) {
      say(indent(`${what}: could not be read (${error.message})`));
    }
  };
  await attempt("screenshot", () => editor.screenshot(`failed-${name}`));
  await attempt("problems", async () => {
    await editor.press("Escape");
    await editor.press("Escape");
    return showProblems(await editor.problems());
  });
  await attempt("notifications", async () => (await editor.allNotifications()).join("\n"));
  await attempt("errors in the page", async () => editor.errors.join("\n"));
  await attempt("extension's output", async () => tail(editor.server.output(/mendlog/i)));
  await attempt("extension host", async () =>
    tail(
      editor.server
        .output(/remoteexthost/i)
        .split("\n")
        .filter((line) => /\[(error|warning)\]/i.test(line))
        // What a window that has been closed since leaves behind; the failed start is that of the editor's own Markdown
        // server, asked for an outline while it ends. Ours is not asked then (client/src/quiet-client.ts).
        .filter(
          (line) => !/Channel has been closed|provider FAILED|Canceled|Starting server failed/.test(line),
        )
        .join("\n"),
    ),
  );
}

const tail = (text) => text.trimEnd().split("\n").slice(-OUTPUT_TAIL).join("\n");
const indent = (text) => text.replace(/^/gm, "      ");

function withTimeout(promise, time) {
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error(`Not finished after ${time} ms`)), time);
  });
  return Promise.race([promise, late]).finally(() => clearTimeout(timer));
}

function readArguments(args) {
  let vsix = join(REPOSITORY, "dist", "mendlog.vsix");
  const rest = [];
  for (let i = 0; i < args.length; i += 1) {
    if (args[i] === "--vsix" && args[i + 1]) {
      i += 1;
      vsix = resolve(args[i]);
    } else if (args[i].startsWith("-")) {
      throw new Error(`Unknown option ${args[i]}. Usage: node tests/editor/run.js [--vsix FILE] [filter]`);
    } else rest.push(args[i]);
  }
  return { vsix, filter: rest.join(" ") };
}

// An interrupted run must end what it started: the exit handlers of server and browser do that.
for (const [signal, number] of [
  ["SIGINT", 2],
  ["SIGTERM", 15],
  ["SIGHUP", 1],
]) {
  process.on(signal, () => process.exit(128 + number));
}

try {
  process.exitCode = await main();
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}
