import { namesNoFile } from "./finding-stamps";
import type { CheckedWith, FindingTold, FoundElsewhere, Host } from "./host";
import type { JobsMemory } from "./jobs-memory";
import { FindingsMemory } from "./kept-findings";
import type { KnowledgeFiles } from "./knowledge-files";
import type { LogViews } from "./log-views";
import { FEWEST_LOGS_FOR_THREADS } from "./read-index";
import type { Settings } from "./settings";

/** Logs that are not open, checked by other threads where the host has any. */
export class ClosedLogs {
  readonly #host: Host;
  readonly #files: KnowledgeFiles;
  readonly #memory: JobsMemory;
  readonly #views: LogViews;
  readonly #found: FindingsMemory;
  #by: CheckedWith | undefined;

  constructor(host: Host, files: KnowledgeFiles, memory: JobsMemory, views: LogViews) {
    this.#host = host;
    this.#files = files;
    this.#memory = memory;
    this.#views = views;
    this.#found = new FindingsMemory(host.findings, memory);
  }

  /** Logs that are worth being asked for at a time. */
  get most(): number {
    return this.#isWorth() ? (this.#host.checking?.most ?? 1) : 1;
  }

  /**
   * What is found in a closed log with this text, the same as is found here. Undefined where it is to be checked here: it is
   * open or no log, there are few logs, or no thread can.
   */
  async check(uri: string, text: string, settings: Settings): Promise<readonly FindingTold[] | undefined> {
    const { checking } = this.#host;
    if (!checking || !this.#isWorth() || this.#views.open.has(uri) || !this.#views.isLog(uri, text))
      return undefined;
    const by = this.#now(settings);
    const stamp = namesNoFile(text) ? this.#found.stamp(uri, text, by) : undefined;
    const kept = stamp === undefined ? undefined : await this.#found.get(uri, stamp);
    const found: FoundElsewhere | undefined = kept
      ? { findings: kept, images: [] }
      : await checking.check({ uri, text }, by);
    // Opened meanwhile it has images of its own, and nobody asks for this any more.
    if (!found || this.#views.open.has(uri)) return undefined;
    if (!kept && stamp !== undefined && found.images.length === 0)
      await this.#found.put(uri, stamp, found.findings);
    this.#views.images.named(uri, found.images);
    return found.findings;
  }

  /** All of them were asked for: what was found is kept until the next start, where anything may be. */
  allChecked = (): Promise<void> => this.#found.done();

  /** The page of what all logs add up to, HTML; undefined where it is to be made here. */
  async shopPage(settings: Settings): Promise<string | undefined> {
    return this.#isWorth() ? this.#host.checking?.shopPage(this.#now(settings)) : undefined;
  }

  /** Fewer are checked before a thread has read its library. */
  #isWorth(): boolean {
    return this.#memory.memory.packed.size >= FEWEST_LOGS_FOR_THREADS;
  }

  #now(settings: Settings): CheckedWith {
    const knowledge = this.#files.all();
    const remembered = this.#memory.memory.packed;
    const last = this.#by;
    if (last?.knowledge !== knowledge || last.remembered !== remembered || last.settings !== settings)
      this.#by = { knowledge, remembered, settings };
    return this.#by!;
  }
}
