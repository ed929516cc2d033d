import type { Service } from "../service";
import { nextTurn, report } from "./answer";
import type { Session } from "./session";

/** Milliseconds of reading after which others get a turn. */
const STINT = 8;
/** Milliseconds without an edit before logs are read for the memory: the file being typed in comes first. */
const QUIET = 1000;
/** A run shorter than this shows no progress; in milliseconds. */
const UNSEEN = 1500;
/** Characters of closed logs whose parse is kept for the workspace's diagnostics, where the client asks for those. */
const KEEP = 2_000_000;

type Told = Pick<Session, "connection" | "service" | "can" | "ready">;

/** Keeps what is remembered of the workspace's logs in step with the disk, in the background. */
export class Remembering {
  readonly #told: Told;
  #lastEdit = 0;
  #running: Promise<void> | undefined;
  #again = false;
  #stopped = false;
  /** The earlier jobs that logs are held against have changed. */
  onChange: () => void = () => {};
  /** What is remembered is not what it was. */
  onRead: () => void = () => {};
  /** Whether the findings of closed logs are going to be asked for. */
  closedAreAsked: () => boolean = () => false;

  constructor(told: Told) {
    this.#told = told;
  }

  /** Something is being typed. */
  edited(): void {
    this.#lastEdit = Date.now();
  }

  /** Files on disk may have changed. */
  start(): void {
    if (this.#running) this.#again = true;
    else if (!this.#stopped) this.#running = this.#run();
  }

  /** Resolves when nothing is left to be read. */
  async done(): Promise<void> {
    while (this.#running) await this.#running;
  }

  stop(): void {
    this.#stopped = true;
  }

  async #run(): Promise<void> {
    const { connection, service, ready } = this.#told;
    try {
      await ready;
      do {
        this.#again = false;
        const before = service.earlierJobsOfAll();
        const jobs = service.jobsStamp();
        const memory = service.memory();
        await this.#read(service);
        const after = service.earlierJobsOfAll();
        const others = before.length !== after.length || before.some((each, i) => each !== after[i]);
        if (others || service.jobsStamp() !== jobs) this.onChange();
        else if (service.memory() !== memory) this.onRead();
      } while (this.#again && !this.#stopped);
    } catch (error) {
      report(connection, "Remembering the logs", error);
    } finally {
      this.#running = undefined;
    }
  }

  async #read(service: Service): Promise<void> {
    const began = Date.now();
    let stint = performance.now();
    let progress: Awaited<ReturnType<Remembering["progress"]>>;
    try {
      for await (const { done, total } of service.index({ keep: this.closedAreAsked() ? KEEP : 0 })) {
        if (performance.now() - stint < STINT) continue;
        await this.#quiet();
        if (this.#stopped) return;
        if (!progress && Date.now() - began > UNSEEN) progress = await this.progress();
        progress?.report(Math.floor((100 * done) / total), `${done} of ${total} files`);
        stint = performance.now();
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

  async #quiet(): Promise<void> {
    await nextTurn();
    while (!this.#stopped) {
      const left = this.#lastEdit + QUIET - Date.now();
      if (left <= 0) return;
      await new Promise((resolve) => setTimeout(resolve, left));
    }
  }
}
