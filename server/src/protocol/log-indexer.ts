import type { CancellationToken, Connection } from "vscode-languageserver";
import { stopIfCancelled } from "../base/cancellation";
import { inTurns, turns } from "../base/turns";
import type { Service } from "../service";
import { report } from "./answer";
import type { ClientAbilities } from "./client-abilities";
import type { Events } from "./events";
import type { TypingRest } from "./typing-rest";

/** Milliseconds without an edit before logs are read for the memory: the file being typed in comes first. */
const QUIET = 1000;
/** A run shorter than this shows no progress; in milliseconds. */
const UNSEEN = 1500;
/** Characters of closed logs whose parse is kept for the workspace's diagnostics, where the client asks for those. */
const KEEP = 2_000_000;

interface Told {
  readonly connection: Connection;
  readonly service: Service;
  readonly can: ClientAbilities;
  readonly events: Events;
  readonly typingRest: TypingRest;
  readonly ready: Promise<void>;
  readonly ended: CancellationToken;
}

/** Keeps what is remembered of the workspace's logs in step with the disk, in the background. */
export class LogIndexer {
  readonly #told: Told;
  #running: Promise<void> | undefined;
  #again = false;
  #keep = 0;

  constructor(told: Told) {
    this.#told = told;
  }

  /** Files on disk may have changed. */
  start(): void {
    if (this.#running) this.#again = true;
    else if (!this.#told.ended.isCancellationRequested) this.#running = this.#run();
  }

  /** Resolves when nothing is left to be read. */
  async done(): Promise<void> {
    while (this.#running) await this.#running;
  }

  /** The findings of closed logs are going to be asked for: what was read for the memory is kept for them. */
  keepParses(): void {
    this.#keep = KEEP;
  }

  async #run(): Promise<void> {
    const { connection, service, events, ready, ended } = this.#told;
    try {
      await ready;
      do {
        this.#again = false;
        const before = await inTurns(service.earlierJobsOfAll(), ended);
        const jobs = service.jobsStamp();
        const memory = service.memory();
        await this.#read();
        stopIfCancelled(ended);
        const after = await inTurns(service.earlierJobsOfAll(), ended);
        const others = before.length !== after.length || before.some((each, i) => each !== after[i]);
        if (others || service.jobsStamp() !== jobs) events.everythingChanged.fire();
        else if (service.memory() !== memory) events.remembered.fire();
      } while (this.#again);
    } catch (error) {
      report(connection, "Remembering the logs", error);
    } finally {
      this.#running = undefined;
    }
  }

  /** @throws Cancelled where the session ended meanwhile */
  async #read(): Promise<void> {
    const { service, typingRest, ended } = this.#told;
    const began = Date.now();
    const turn = turns(ended, (token) => typingRest.after(QUIET, token));
    let progress: Awaited<ReturnType<LogIndexer["progress"]>>;
    try {
      for await (const { done, total } of service.index({ keep: this.#keep })) {
        if (!(await turn())) continue;
        if (!progress && Date.now() - began > UNSEEN) progress = await this.progress();
        progress?.report(Math.floor((100 * done) / total), `${done} of ${total} files`);
      }
    } finally {
      progress?.done();
    }
  }

  private async progress() {
    if (!this.#told.can.progress) return undefined;
    const progress = await this.#told.connection.window.createWorkDoneProgress();
    progress.begin("Mendlog: reading earlier jobs", 0);
    return progress;
  }
}
