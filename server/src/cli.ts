// The program `mendlog`, and what each of its threads begins with.
import { join } from "node:path";
import { isMainThread } from "node:worker_threads";
import { printedBefore, printingOf } from "./cli/kept/again";
import { loadReady } from "./cli/kept/ready-code";
import { writePieces } from "./cli/node-output";
import { nodeWorld } from "./cli/node-surroundings";

const CORE = join(__dirname, "core.cjs");

/** What has been printed before is printed again before the program itself is loaded, which takes longer. */
async function run(argv: readonly string[]): Promise<number> {
  const world = nodeWorld();
  const printed = await printedBefore(argv, world);
  if (printed) {
    await writePieces(printed.pieces(), process.stdout);
    return printed.code;
  }
  const isKeeping = !argv.includes("--no-cache");
  const loaded = isKeeping ? loadReady(CORE, world) : undefined;
  const { main } = await import("./cli/main");
  const { nodeIo } = await import("./cli/node-io");
  const { nodeThreads } = await import("./cli/threads/node-threads");
  const code = await main(argv, nodeIo(world), nodeThreads(__filename), printingOf(argv, world));
  // By a check alone: it is what is run most, and runs most of it.
  if (argv[0] === "check") loaded?.keep();
  return code;
}

async function runAsThread(): Promise<void> {
  loadReady(CORE, process);
  const { isParseThread, runParseThread } = await import("./workspace/parse-thread");
  if (isParseThread()) return runParseThread();
  const { isLogThread, runLogThread } = await import("./threads/log-threads");
  if (isLogThread()) return runLogThread();
  const { runThread } = await import("./cli/threads/node-threads");
  runThread();
}

if (isMainThread) {
  // Not process.exit(): what is still being written must get out.
  run(process.argv.slice(2)).then((code) => {
    process.exitCode = code;
  });
} else void runAsThread();
