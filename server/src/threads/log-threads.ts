// Threads of this process that read and check closed logs, each the same program file begun as a thread when the first log
// comes. They are ended when there has been nothing to do for a while.
import { availableParallelism } from "node:os";
import { parentPort, Worker, workerData } from "node:worker_threads";
import { nextTurn } from "../base/turns";
import type { CheckedWith, Checking, FileText, FoundElsewhere, Summing } from "../workspace/host";
import { nodeHost } from "../workspace/node-host";
import type { Remembered } from "../workspace/remembered";
import { LogNews } from "./log-news";
import { type AskedWorker, LogWorker, type ToldWorker, type WorkerAnswer } from "./log-worker";

/** What a thread is told that it is. */
const ROLE = "mendlog: reads closed logs";
/** Milliseconds that one log may take before its thread is given up. */
const MOST = 60_000;
/** Milliseconds without work after which the threads and what they hold in memory are let go. */
const IDLE = 15_000;
/** One core is left to those who wait for an answer; more threads than these cost more memory than they are worth. */
const MOST_THREADS = 2;
/** Logs handed to one thread at a time, so that it never waits for the next. */
const AHEAD = 4;
/** Megabytes that are read and let go between two clearings of a thread's memory: with twice as many it holds more and works no less. */
const YOUNG = 9;
/**
 * Megabytes that a thread may hold, more than a log of two million characters needs. The more it may, the more waste piles up
 * before it clears it; one that needs more is checked here.
 */
const OLD = 640;

type Question = { readonly kind: "sum" | "check"; readonly log: FileText } | { readonly kind: "shop page" };

interface Thread {
  readonly worker: Worker;
  /** By the number of what was asked; it answers one after another. */
  readonly waiting: Map<number, (found: WorkerAnswer["found"]) => void>;
  /** What it is told goes before what it is asked. */
  told: Promise<void>;
  library: readonly FileText[] | undefined;
  by: CheckedWith | undefined;
  isOver: boolean;
  timer: NodeJS.Timeout | undefined;
}

/** @param program the file that calls `runLogThread` where `isLogThread` */
export class LogThreads implements Summing, Checking {
  readonly #program: string;
  readonly #count = Math.max(1, Math.min(MOST_THREADS, availableParallelism() - 1));
  readonly #threads: Thread[] = [];
  readonly #news = new LogNews();
  #folders: readonly string[] = [];
  #last = 0;
  #idle: NodeJS.Timeout | undefined;

  constructor(program: string) {
    this.#program = program;
  }

  get most(): number {
    return this.#count * AHEAD;
  }

  /** The folders that images may lie in from now on. */
  setFolders(uris: readonly string[]): void {
    this.#folders = uris;
    for (const thread of this.#threads) tell(thread, { kind: "folders", uris });
  }

  sum(log: FileText, knowledge: readonly FileText[]): Promise<Remembered | undefined> {
    const thread = this.#next();
    if (thread.library !== knowledge) {
      thread.library = knowledge;
      tell(thread, { kind: "library", files: knowledge });
    }
    return this.#ask(thread, { kind: "sum", log }) as Promise<Remembered | undefined>;
  }

  check(log: FileText, by: CheckedWith): Promise<FoundElsewhere | undefined> {
    return this.#ask(this.#toldOf(by), { kind: "check", log }) as Promise<FoundElsewhere | undefined>;
  }

  shopPage(by: CheckedWith): Promise<string | undefined> {
    return this.#ask(this.#toldOf(by), { kind: "shop page" }) as Promise<string | undefined>;
  }

  /** A thread that is told this before what it is asked next. */
  #toldOf(by: CheckedWith): Thread {
    const thread = this.#next();
    const before = thread.by;
    if (before !== by) {
      thread.by = by;
      thread.told = thread.told.then(async () => {
        for (const news of this.#news.between(before, by)) {
          tell(thread, news);
          // Ten thousand logs are told in pieces, with others heard in between.
          await nextTurn();
        }
      });
    }
    return thread;
  }

  dispose(): void {
    clearTimeout(this.#idle);
    this.#news.forget();
    for (const thread of [...this.#threads]) this.#giveUp(thread);
  }

  #ask(thread: Thread, asked: Question): Promise<WorkerAnswer["found"]> {
    clearTimeout(this.#idle);
    const id = ++this.#last;
    const post = (): void => {
      if (!thread.isOver) thread.worker.postMessage({ ...asked, id } satisfies AskedWorker);
    };
    return new Promise((resolve) => {
      thread.waiting.set(id, resolve);
      if (thread.waiting.size === 1) this.#watch(thread);
      if (asked.kind === "sum") post();
      else thread.told.then(post, () => this.#giveUp(thread));
    });
  }

  /** The one with the least to do. */
  #next(): Thread {
    const [first] = [...this.#threads].sort((a, b) => a.waiting.size - b.waiting.size);
    if (first && (first.waiting.size === 0 || this.#threads.length >= this.#count)) return first;
    const worker = new Worker(this.#program, {
      workerData: ROLE,
      resourceLimits: { maxYoungGenerationSizeMb: YOUNG, maxOldGenerationSizeMb: OLD },
    });
    const thread: Thread = {
      worker,
      waiting: new Map(),
      told: Promise.resolve(),
      library: undefined,
      by: undefined,
      isOver: false,
      timer: undefined,
    };
    this.#threads.push(thread);
    worker.unref();
    worker.on("message", ({ id, found }: WorkerAnswer) => {
      thread.waiting.get(id)?.(found);
      thread.waiting.delete(id);
      this.#watch(thread);
    });
    worker.on("error", () => this.#giveUp(thread));
    tell(thread, { kind: "folders", uris: this.#folders });
    return thread;
  }

  #watch(thread: Thread): void {
    clearTimeout(thread.timer);
    if (thread.waiting.size > 0) {
      thread.timer = setTimeout(() => this.#giveUp(thread), MOST);
      thread.timer.unref();
    } else if (this.#threads.every(({ waiting }) => waiting.size === 0)) {
      clearTimeout(this.#idle);
      this.#idle = setTimeout(() => this.dispose(), IDLE);
      this.#idle.unref();
    }
  }

  #giveUp(thread: Thread): void {
    clearTimeout(thread.timer);
    thread.isOver = true;
    const at = this.#threads.indexOf(thread);
    if (at >= 0) this.#threads.splice(at, 1);
    void thread.worker.terminate();
    for (const done of thread.waiting.values()) done(undefined);
    thread.waiting.clear();
  }
}

function tell({ worker, isOver }: Thread, told: ToldWorker): void {
  if (!isOver) worker.postMessage(told);
}

/** True where this program file runs as such a thread: it then reads closed logs and nothing else. */
export const isLogThread = (): boolean => workerData === ROLE;

/** Does what it is asked, one log after another, until it is ended. */
export function runLogThread(): void {
  const worker = new LogWorker(nodeHost());
  let last: Promise<void> = Promise.resolve();
  parentPort?.on("message", (message: ToldWorker | AskedWorker) => {
    last = last.then(async () => {
      if ("id" in message) parentPort?.postMessage(await worker.answer(message));
      else await worker.tell(message);
    });
  });
}
