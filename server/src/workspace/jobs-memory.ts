// What is remembered of the workspace's jobs, and what follows from it for a log: the jobs of the same board, and what
// boards of the type read before.

import type { AsyncSteps, Steps } from "../base/steps";
import type { BoardHistory } from "../judge/baseline/types";
import type { Knowledge, Known } from "../judge/context";
import type { ReferenceJobs } from "../judge/reference-job";
import type { SharedStatements } from "../judge/stated/types";
import type { Library } from "../knowledge/library";
import type { Board } from "../knowledge/types";
import { type JobLog, peekLog } from "../log/peek";
import { isLog } from "../log/sniff";
import { eachBoard } from "../log/summary";
import { type RelatedJobs, relatedJobs } from "../review/comeback";
import { Histories } from "./histories";
import { type Host, isMarkdown } from "./host";
import { type JobsSnapshot, LogIndex } from "./log-index";
import { type IndexReading, type IndexStep, readIndex } from "./read-index";
import { ReferenceStore } from "./references";
import { SharedBoards } from "./shared-statements";
import { textHash } from "./text-hash";

type Own = Parameters<typeof relatedJobs>[0];

/** Of all files so many have to be read again for it to be worth keeping them. */
const WORTH_SHELVING = 1 / 20;

/** The memory across jobs, as it was last read from disk, and what was worked out from it. */
export class JobsMemory {
  readonly index = new LogIndex();
  readonly #host: Host;
  readonly #histories = new Histories();
  readonly #references = new ReferenceStore();
  readonly #shared = new SharedBoards();
  readonly #related = new Map<string, { readonly asked: string; readonly jobs: RelatedJobs }>();
  #recalled = false;
  /** The index's news when it was last put on the shelf. */
  #shelved = 0;
  /** Looked through while nothing is remembered yet. */
  #peeked: Promise<ReadonlyMap<string, JobLog>> | undefined;

  constructor(host: Host) {
    this.#host = host;
  }

  get memory(): JobsSnapshot {
    return this.index.memory;
  }

  /** Reads what may have changed, in steps; see `readIndex`. What was remembered at the last start is asked first. */
  async *read(reading: Omit<IndexReading, "host" | "index">): AsyncSteps<never, IndexStep> {
    const { index } = this;
    const { shelf } = this.#host;
    const stamp = () => textHash(JSON.stringify(reading.files().map(({ uri, text }) => [uri, text])));
    if (shelf && !this.#recalled) {
      index.list(await this.#host.list());
      const library = reading.library();
      for await (const one of shelf.load(stamp())) {
        if (one) index.suppose(one, library);
        yield { done: 0, total: index.waiting };
      }
      this.#recalled = true;
    }
    yield* readIndex({ ...reading, host: this.#host, index });
    if (!shelf || index.news - this.#shelved < index.size * WORTH_SHELVING) return;
    this.#shelved = index.news;
    await shelf.save(index.all().values(), stamp());
  }

  /** By uri; before anything is remembered, what the front matter of the files on disk says. */
  async jobLogs(): Promise<ReadonlyMap<string, JobLog>> {
    if (this.memory.version > 0) {
      this.#peeked = undefined;
      return this.memory.logs;
    }
    this.#peeked ??= this.#peek();
    return this.#peeked;
  }

  async #peek(): Promise<ReadonlyMap<string, JobLog>> {
    const logs = new Map<string, JobLog>();
    for (const uri of (await this.#host.list()).filter(isMarkdown)) {
      const text = await this.#host.read(uri);
      if (text !== undefined && isLog(text)) logs.set(uri, peekLog(uri, text));
    }
    return logs;
  }

  /**
   * The same object for as long as the other logs say the same; undefined until the workspace was read.
   * @param inSet which of the boards of a set asks
   */
  related(own: Own, inSet = ""): RelatedJobs | undefined {
    const { memory } = this;
    if (memory.version === 0) return undefined;
    const { uri, board, serial, received, comebackOf } = own;
    const asked = JSON.stringify([memory.version, board, serial, received, comebackOf]);
    const key = `${uri}\n${inSet}`;
    const kept = this.#related.get(key);
    if (kept?.asked === asked) return kept.jobs;
    const found = relatedJobs(own, memory.logs);
    const jobs = kept && JSON.stringify(kept.jobs) === JSON.stringify(found) ? kept.jobs : found;
    this.#related.set(key, { asked, jobs });
    return jobs;
  }

  /** The same object for as long as neither the board's returned jobs nor the board changed; undefined: too few. */
  historyOf(board: Known<Board>, knowledge: Knowledge): BoardHistory | undefined {
    return this.#histories.of(board, knowledge, this.memory);
  }

  /** The same object for as long as neither the board's reference jobs, their meters nor the board changed. */
  referencesOf(board: Known<Board>, knowledge: Knowledge): ReferenceJobs | undefined {
    return this.#references.of(board, knowledge, this.memory);
  }

  /** What the logs of a board that no file describes say of it, one of them left out; see `SharedBoards`. */
  sharedOf(board: string, library: Library, except: string | undefined): SharedStatements | undefined {
    return this.#shared.of(board, this.memory, library, except);
  }

  /** The same of a board with none left out, in steps: the call that follows costs nothing. */
  prepareShared = (board: string, library: Library): Steps<unknown> =>
    this.#shared.steps(board, this.memory, library);

  /** Changes with the numbers, boards and days of the jobs. */
  stamp(): string {
    return JSON.stringify(
      eachBoard(this.memory.logs.values()).map(
        ({ uri, job, board, serial, stage, received, returned, comebackOf }) => [
          uri,
          job,
          board,
          serial,
          stage,
          received,
          returned,
          comebackOf,
        ],
      ),
    );
  }
}
