// A thread of this process that reads long blocks, the same program file begun as a thread when the first one comes. It is
// ended where a block takes longer than any should, and when there has been nothing to read for a while.
import { parentPort, Worker, workerData } from "node:worker_threads";
import { type Elsewhere, packTree, readToSend, type SentReading, type ToRead } from "../syntax/elsewhere";
import { NO_NAMES } from "../syntax/markdown";
import { unreadBlock } from "../syntax/parse-block";

/** What the thread is told that it is. */
const ROLE = "mendlog: reads blocks";
/** Milliseconds that one block may take; the bounds of the parser leave none with more than a few seconds of work. */
const MOST = 10_000;
/** Milliseconds without work after which the thread and what it holds in memory are let go. */
const IDLE = 60_000;

interface Job {
  readonly key: string;
  readonly block: ToRead;
  readonly answer: Promise<SentReading | undefined>;
  readonly done: (answer: SentReading | undefined) => void;
  /** How many still wait for it. */
  wanted: number;
}

/** @param program the file that calls `runParseThread` where `isParseThread` */
export class ParseThread implements Elsewhere {
  readonly #program: string;
  readonly #queue: Job[] = [];
  #thread: Worker | undefined;
  #running: Job | undefined;
  #timer: NodeJS.Timeout | undefined;

  constructor(program: string) {
    this.#program = program;
  }

  read(block: ToRead) {
    const key = JSON.stringify([block.place, block.among, block.text]);
    const known = this.#running?.key === key ? this.#running : this.#queue.find((job) => job.key === key);
    const job = known ?? newJob(key, block);
    job.wanted++;
    if (!known) this.#queue.push(job);
    this.#next();
    let dropped = false;
    return {
      answer: job.answer,
      drop: () => {
        if (dropped) return;
        dropped = true;
        job.wanted--;
        const at = this.#queue.indexOf(job);
        if (job.wanted > 0 || at < 0) return;
        this.#queue.splice(at, 1);
        job.done(undefined);
      },
    };
  }

  dispose(): void {
    clearTimeout(this.#timer);
    void this.#thread?.terminate();
    this.#thread = undefined;
  }

  #next(): void {
    if (this.#running) return;
    clearTimeout(this.#timer);
    const job = this.#queue.shift();
    this.#running = job;
    if (job) {
      this.#thread ??= this.#start();
      this.#thread.postMessage(job.block);
      this.#timer = setTimeout(() => this.#stop("too-long"), MOST);
    } else this.#timer = setTimeout(() => this.dispose(), IDLE);
    this.#timer.unref();
  }

  #start(): Worker {
    const thread = new Worker(this.#program, { workerData: ROLE });
    thread.unref();
    thread.on("message", (answer: SentReading) => this.#ended(answer));
    thread.on("error", () => this.#stop("broken"));
    return thread;
  }

  /** What took too long is left unread; what broke the thread is read here. */
  #stop(why: "too-long" | "broken"): void {
    this.dispose();
    const { block } = unreadBlock(this.#running?.block.text ?? "", "parser");
    this.#ended(
      why === "too-long" ? { tree: packTree(block!.tree), limit: "parser", names: NO_NAMES } : undefined,
    );
  }

  #ended(answer: SentReading | undefined): void {
    const job = this.#running;
    this.#running = undefined;
    job?.done(answer);
    this.#next();
  }
}

function newJob(key: string, block: ToRead): Job {
  let done: Job["done"] = () => {};
  const answer = new Promise<SentReading | undefined>((resolve) => {
    done = resolve;
  });
  return { key, block, answer, done, wanted: 0 };
}

/** True where this program file runs as such a thread: it then reads blocks and nothing else. */
export const isParseThread = (): boolean => workerData === ROLE;

/** Reads what it is sent, one block after another, until it is ended. */
export function runParseThread(): void {
  parentPort?.on("message", (block: ToRead) => {
    const sent = readToSend(block);
    parentPort?.postMessage(
      sent,
      (sent.tree ?? []).map(({ numbers }) => numbers.buffer as ArrayBuffer),
    );
  });
}
