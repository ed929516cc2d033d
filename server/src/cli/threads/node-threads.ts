// Threads of this process, each the same program file begun as a thread.
import { availableParallelism } from "node:os";
import { setFlagsFromString } from "node:v8";
import { parentPort, Worker, workerData } from "node:worker_threads";
import { threadDisk } from "../node-disk";
import type { Opening, Replies, Task, Thread, Threads } from "./messages";
import { worker } from "./work";

/** More than this, in megabytes, is read and let go between two clearings, which take a core from the work. */
const YOUNG = 16;

/**
 * Percent that what is held may grow by before the engine clears memory, in each thread. It would let it double, and with ten
 * thousand logs that is a hundred megabytes of waste.
 */
const GROWTH = 15;

/** Megabytes that a thread may hold whatever it works on; more for each log of the folder; more for each byte of the longest. */
const ENOUGH = 1024;
const PER_LOG = 0.02;
const PER_BYTE = 250 / 1_000_000;

/** More than this wait for the disk and for each other. */
const MOST = 4;

interface Asked {
  readonly id: number;
  readonly task: Task;
}

type Answer =
  | { readonly id: number; readonly ok: true; readonly value: Replies[Task["kind"]] }
  | { readonly id: number; readonly ok: false; readonly fault: string };

/** @param program the file that calls `runThread` where it is begun as a thread */
export function nodeThreads(program: string): Threads {
  return {
    most: Math.min(MOST, availableParallelism()),
    start: (opening) => start(program, opening),
  };
}

/** The most that a thread may hold, in megabytes: far more than it needs. */
function mostFor({ group }: Opening): number {
  const logs = group.around.length + group.files.length;
  let largest = 0;
  for (const { size } of [...group.files, ...group.around]) largest = Math.max(largest, size);
  return ENOUGH + Math.ceil(logs * PER_LOG + largest * PER_BYTE);
}

function start(program: string, opening: Opening): Thread {
  // Of the whole process, so that it stays the same however often it is said.
  setFlagsFromString(`--heap-growing-percent=${GROWTH}`);
  const thread = new Worker(program, {
    workerData: opening,
    resourceLimits: { maxYoungGenerationSizeMb: YOUNG, maxOldGenerationSizeMb: mostFor(opening) },
  });
  const waiting = new Map<number, { done(value: unknown): void; failed(fault: Error): void }>();
  let next = 0;
  const broken = (fault: Error): void => {
    for (const { failed } of waiting.values()) failed(fault);
    waiting.clear();
  };
  thread.on("message", (answer: Answer) => {
    const asked = waiting.get(answer.id);
    waiting.delete(answer.id);
    if (answer.ok) asked?.done(answer.value);
    else asked?.failed(new Error(answer.fault));
  });
  thread.on("error", broken);
  thread.on("exit", () => broken(new Error("A thread ended before its work.")));
  return {
    ask: (task) =>
      new Promise((resolve, reject) => {
        const id = next++;
        waiting.set(id, { done: (value) => resolve(value as never), failed: reject });
        thread.postMessage({ id, task } satisfies Asked);
      }),
    async end() {
      waiting.clear();
      await thread.terminate();
    },
  };
}

/** Works on what the program asks, one task after another, until it is ended. */
export function runThread(): void {
  const { work } = worker(threadDisk(), workerData as Opening);
  let last: Promise<unknown> = Promise.resolve();
  parentPort?.on("message", ({ id, task }: Asked) => {
    last = last.then(async () => {
      const answer = await work(task).then(
        (value): Answer => ({ id, ok: true, value }),
        (error: Error): Answer => ({ id, ok: false, fault: error.stack ?? error.message }),
      );
      parentPort?.postMessage(answer);
    });
  });
}
