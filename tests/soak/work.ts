// What the thread of a soak does: files and sessions by their numbers until it is told enough, each number a seed of its
// own, so that one that fails can be had again without those before it.
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { parentPort, workerData } from "node:worker_threads";
import { numbers } from "../growth/seed";
import { problemWith, shorterFile, someFile } from "./files";
import { session, shorter } from "./sessions";
import { type Texts, workspaces } from "./sources";

export interface Orders {
  readonly seed: number;
  readonly demo: Texts;
  /** How many of them, whichever is reached first, or as long as `seconds`. */
  readonly files: number;
  readonly edits: number;
  readonly seconds: number;
}

/** What it tells, a message each. */
export type Told =
  | { readonly is: "begins"; readonly what: string }
  | { readonly is: "failed"; readonly what: string; readonly problem: string; readonly kept: object }
  | { readonly is: "heap"; readonly megabytes: number; readonly done: string }
  | {
      readonly is: "done";
      readonly files: number;
      readonly edits: number;
      readonly deeds: number;
      readonly sessions: number;
    };

setFlagsFromString("--expose-gc");
const gc = runInNewContext("gc") as () => void;
const say = (told: Told): void => parentPort?.postMessage(told);

/** Lets the thread hear that it is enough. */
const turn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
let isEnough = false;
parentPort?.on("message", () => {
  isEnough = true;
});

/** Between two looks at the memory. */
const LOOK = 2000;

async function work({ seed, demo, files, edits, seconds }: Orders): Promise<void> {
  const all = workspaces(demo);
  const began = Date.now();
  const past = (share: number): boolean => isEnough || Date.now() - began > seconds * 1000 * share;
  const done = { files: 0, edits: 0, deeds: 0, sessions: 0 };
  const look = (): void => {
    gc();
    const megabytes = process.memoryUsage().heapUsed / 1e6;
    say({ is: "heap", megabytes, done: `${done.files} files, ${done.edits} edits` });
  };
  while (done.files < files && !past(edits > 0 ? 0.5 : 1)) {
    await turn();
    const what = `file ${seed}/${done.files}`;
    say({ is: "begins", what });
    const one = someFile(all, numbers(seed * 7919 + done.files));
    const problem = await problemWith(one);
    if (problem !== undefined) {
      const kept = await shorterFile(one);
      say({ is: "failed", what, problem, kept: { is: "file", problem, ...kept } });
    }
    if (++done.files % LOOK === 0) look();
  }
  let looked = 0;
  while (done.edits < edits && !past(1)) {
    await turn();
    const what = `session ${seed}/${done.sessions}`;
    say({ is: "begins", what });
    const outcome = await session(all, numbers(seed * 104729 + done.sessions));
    done.sessions++;
    done.deeds += outcome.deeds.length;
    if (outcome.ok) done.edits += outcome.edits;
    else {
      const { problem, deeds, files: ws = {} } = outcome;
      const kept = await shorter({ files: ws, deeds });
      say({ is: "failed", what, problem, kept: { is: "session", problem, ...kept } });
    }
    if (done.edits - looked >= LOOK) {
      looked = done.edits;
      look();
    }
  }
  look();
  say({ is: "done", ...done });
  parentPort?.close();
}

await_(work(workerData as Orders));

function await_(running: Promise<void>): void {
  running.catch((error: unknown) => {
    setImmediate(() => {
      throw error;
    });
  });
}
