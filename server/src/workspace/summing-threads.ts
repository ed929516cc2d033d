// Threads of this process that sum up closed logs, each the same program file begun as a thread when the first log comes.
// They are ended when there has been nothing to sum up for a while.
import { availableParallelism } from "node:os";
import { parentPort, Worker, workerData } from "node:worker_threads";
import type { FileText, Summing } from "./host";
import { KnowledgeStore } from "./knowledge-store";
import { rememberedWhole } from "./read-index";
import type { Remembered } from "./remembered";

/** What a thread is told that it is. */
const ROLE = "mendlog: sums up logs";
/** Milliseconds that one log may take before its thread is given up. */
const MOST = 20_000;
/** Milliseconds without work after which the threads and what they hold in memory are let go. */
const IDLE = 5000;
/** One core is left to those who wait for an answer; more threads than these wait for the disk. */
const MOST_THREADS = 3;
/** Logs handed to one thread at a time, so that it never waits for the next. */
const AHEAD = 4;
/** Megabytes that are read and let go between two clearings of a thread's memory. */
const YOUNG = 16;

type Asked =
  | { readonly kind: "library"; readonly files: readonly FileText[] }
  | { readonly kind: "sum"; readonly log: FileText };

interface Thread {
  readonly worker: Worker;
  /** Those it has been sent, in their order: it answers them one after another. */
  readonly waiting: ((found: Remembered | undefined) => void)[];
  library: readonly FileText[] | undefined;
  timer: NodeJS.Timeout | undefined;
}

/** @param program the file that calls `runSummingThread` where `isSummingThread` */
export class SummingThreads implements Summing {
  readonly #program: string;
  readonly #count = Math.max(1, Math.min(MOST_THREADS, availableParallelism() - 1));
  readonly #threads: Thread[] = [];
  #idle: NodeJS.Timeout | undefined;

  constructor(program: string) {
    this.#program = program;
  }

  get most(): number {
    return this.#count * AHEAD;
  }

  sum(log: FileText, knowledge: readonly FileText[]): Promise<Remembered | undefined> {
    clearTimeout(this.#idle);
    const thread = this.#next();
    if (thread.library !== knowledge) {
      thread.library = knowledge;
      thread.worker.postMessage({ kind: "library", files: knowledge } satisfies Asked);
    }
    thread.worker.postMessage({ kind: "sum", log } satisfies Asked);
    return new Promise((resolve) => {
      thread.waiting.push(resolve);
      if (thread.waiting.length === 1) this.#watch(thread);
    });
  }

  dispose(): void {
    clearTimeout(this.#idle);
    for (const thread of [...this.#threads]) this.#giveUp(thread);
  }

  /** The one with the least to do. */
  #next(): Thread {
    const [first] = [...this.#threads].sort((a, b) => a.waiting.length - b.waiting.length);
    if (first && (first.waiting.length === 0 || this.#threads.length >= this.#count)) return first;
    const worker = new Worker(this.#program, {
      workerData: ROLE,
      resourceLimits: { maxYoungGenerationSizeMb: YOUNG },
    });
    const thread: Thread = { worker, waiting: [], library: undefined, timer: undefined };
    this.#threads.push(thread);
    worker.unref();
    worker.on("message", (found: Remembered) => {
      thread.waiting.shift()?.(found);
      this.#watch(thread);
    });
    worker.on("error", () => this.#giveUp(thread));
    return thread;
  }

  #watch(thread: Thread): void {
    clearTimeout(thread.timer);
    if (thread.waiting.length > 0) {
      thread.timer = setTimeout(() => this.#giveUp(thread), MOST);
      thread.timer.unref();
    } else if (this.#threads.every(({ waiting }) => waiting.length === 0)) {
      this.#idle = setTimeout(() => this.dispose(), IDLE);
      this.#idle.unref();
    }
  }

  #giveUp(thread: Thread): void {
    clearTimeout(thread.timer);
    const at = this.#threads.indexOf(thread);
    if (at >= 0) this.#threads.splice(at, 1);
    void thread.worker.terminate();
    for (const done of thread.waiting.splice(0)) done(undefined);
  }
}

/** True where this program file runs as such a thread: it then sums up logs and nothing else. */
export const isSummingThread = (): boolean => workerData === ROLE;

/** Sums up what it is sent, one log after another, until it is ended. */
export function runSummingThread(): void {
  let store = new KnowledgeStore();
  parentPort?.on("message", (asked: Asked) => {
    if (asked.kind === "library") {
      store = new KnowledgeStore();
      for (const { uri, text } of asked.files) store.set(uri, text);
      return;
    }
    const { uri, text } = asked.log;
    parentPort?.postMessage(rememberedWhole(uri, text, store.library()));
  });
}
