// Spoilt files and days of edits, by chance and by a seed that is printed:
//
//   node tests/soak/run.js [--seconds N] [--files N] [--edits N]
//
// MENDLOG_SEED=7 takes the same again, MENDLOG_SEED=random others. What fails is made as small as it goes and written to
// tests/soak/cases, where tests/soak/cases.test.ts holds it from then on. Ends with status 1 where anything failed, and
// where one of them hangs. The night's run with real processes and a real disk is night.js.
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { Worker } from "node:worker_threads";
import { build } from "esbuild";
import { libraryPlugin } from "../../server/build/library.js";
import { demoTexts } from "./demo.js";

const CASES = new URL("./cases/", import.meta.url);
/** Milliseconds after which one file or one session hangs; those of a session are many. */
const HANGS = 120_000;

const { values } = parseArgs({
  options: { seconds: { type: "string" }, files: { type: "string" }, edits: { type: "string" } },
});
const many = (given, otherwise) => (given === undefined ? otherwise : Number(given));
const counted = values.files !== undefined || values.edits !== undefined;
const orders = {
  seed: seedOf(process.env.MENDLOG_SEED),
  demo: demoTexts(),
  seconds: many(values.seconds, counted ? Number.POSITIVE_INFINITY : 50),
  files: many(values.files, counted ? 0 : Number.POSITIVE_INFINITY),
  edits: many(values.edits, counted ? 0 : Number.POSITIVE_INFINITY),
};

function seedOf(given) {
  return given === "random" ? Math.floor(Math.random() * 1e6) : Number(given ?? 1);
}

console.log(`Soak with seed ${orders.seed}; MENDLOG_SEED=${orders.seed} takes the same again.`);
const outfile = join(tmpdir(), `mendlog-soak-${process.pid}.cjs`);
await build({
  entryPoints: [new URL("./work.ts", import.meta.url).pathname],
  outfile,
  bundle: true,
  platform: "node",
  format: "cjs",
  logLevel: "error",
  plugins: [libraryPlugin.esbuild()],
});

const began = Date.now();
const heap = [];
let failures = 0;
let doing = "the beginning";
let since = Date.now();

const worker = new Worker(outfile, { workerData: orders });
const watch = setInterval(() => {
  if (Date.now() - since < HANGS) return;
  failures++;
  console.log(`${doing} hangs: nothing for ${HANGS / 1000} s.`);
  void worker.terminate();
}, 1000);

worker.on("message", (told) => {
  since = Date.now();
  if (told.is === "begins") doing = told.what;
  if (told.is === "failed") keep(told);
  if (told.is === "heap") {
    heap.push(told.megabytes);
    if (counted) console.log(`${told.done}: ${told.megabytes.toFixed(1)} MB of heap, ${minutes()} min`);
  }
  if (told.is === "done") {
    const { files, edits, deeds, sessions } = told;
    console.log(
      `${files} spoilt files; ${edits} edits among ${deeds} deeds in ${sessions} sessions, each against a fresh start.`,
    );
    console.log(
      `${failures} failures. Heap after collection: ${heap.map((mb) => mb.toFixed(0)).join(", ")} MB.`,
    );
  }
});
// Told to stop, it says how far it came.
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => worker.postMessage("enough"));
worker.on("error", (error) => {
  failures++;
  console.log(`${doing}: ${error.stack}`);
});
worker.on("exit", () => {
  clearInterval(watch);
  rmSync(outfile, { force: true });
  process.exitCode = failures === 0 ? 0 : 1;
});

const minutes = () => ((Date.now() - began) / 60_000).toFixed(1);

function keep({ what, problem, kept }) {
  failures++;
  const name = `${kept.is}-${what.replace(/\D+/g, " ").trim().replace(" ", "-")}.json`;
  mkdirSync(CASES, { recursive: true });
  writeFileSync(new URL(name, CASES), `${JSON.stringify(kept, null, 2)}\n`);
  console.log(
    `${what}: ${problem.split("\n").slice(0, 4).join("\n  ").slice(0, 600)}\n  kept as tests/soak/cases/${name}`,
  );
}
