import { boardsNamedIn, findingStamps } from "./finding-stamps";
import type { CheckedWith, FindingsShelf, FindingTold, KeptFindings } from "./host";
import type { JobsMemory } from "./jobs-memory";
import type { Settings } from "./settings";
import { textHash } from "./text-hash";

/** Of all logs so many have to be checked for it to be worth keeping what was found. */
const WORTH_KEEPING = 1 / 100;
/** Findings that are not on the shelf yet, in logs: no more than this and than there are on it are held before they are put there. */
const MOST_HELD = 2000;

/**
 * What was found in closed logs, between two starts: given again where nothing it hangs on has changed. It is loaded for the first
 * look at all of them; later on what is on the shelf is of what was.
 */
export class FindingsMemory {
  readonly #shelf: FindingsShelf | undefined;
  readonly #memory: JobsMemory;
  #onShelf: Promise<ReadonlyMap<string, KeptFindings>> | undefined;
  #lookedAtAll = false;
  /** Not on the shelf yet. */
  #held = new Map<string, KeptFindings>();
  #saving: Promise<void> = Promise.resolve();
  /** Logs whose findings were put there since. */
  #saved = 0;
  #stamps: { readonly by: CheckedWith; of(uri: string): string | undefined } | undefined;

  constructor(shelf: FindingsShelf | undefined, memory: JobsMemory) {
    this.#shelf = shelf;
    this.#memory = memory;
  }

  /** Stands for all that the findings of a log with this text hang on; undefined where they are not to be kept. */
  stamp(uri: string, text: string, by: CheckedWith): string | undefined {
    const { hashes } = this.#memory.memory;
    if (!this.#shelf || hashes.get(uri) !== textHash(text)) return undefined;
    if (this.#stamps?.by !== by) this.#stamps = { by, of: this.#stampsOf(by) };
    return this.#stamps.of(uri);
  }

  async get(uri: string, stamp: string): Promise<readonly FindingTold[] | undefined> {
    const kept = this.#held.get(uri) ?? (this.#lookedAtAll ? undefined : (await this.#load()).get(uri));
    const json = kept?.stamp === stamp ? kept.json() : undefined;
    return json === undefined ? undefined : (JSON.parse(json) as readonly FindingTold[]);
  }

  async put(uri: string, stamp: string, findings: readonly FindingTold[]): Promise<void> {
    if (!this.#shelf) return;
    this.#held.set(uri, this.#shelf.hold(stamp, JSON.stringify(findings)));
    if (this.#held.size < MOST_HELD || this.#lookedAtAll) return;
    const { size } = await this.#load();
    if (this.#held.size >= Math.max(MOST_HELD, size + this.#saved)) this.#save(this.#shelf);
  }

  /** All logs were looked at. */
  async done(): Promise<void> {
    const shelf = this.#shelf;
    if (!shelf) return;
    this.#lookedAtAll = true;
    const { hashes } = this.#memory.memory;
    if (this.#held.size > 0 && this.#held.size >= hashes.size * WORTH_KEEPING) this.#save(shelf);
    if (this.#onShelf) shelf.close();
    this.#onShelf = undefined;
    await this.#saving;
  }

  #save(shelf: FindingsShelf): void {
    const held = this.#held;
    this.#held = new Map();
    this.#saved += held.size;
    this.#saving = this.#saving.then(() => shelf.save(held, (uri) => this.#memory.memory.hashes.has(uri)));
  }

  async #load(): Promise<ReadonlyMap<string, KeptFindings>> {
    this.#onShelf ??= (async () => (await this.#shelf?.load()) ?? new Map())();
    return this.#onShelf;
  }

  #stampsOf({ knowledge, settings }: CheckedWith): (uri: string) => string | undefined {
    const { logs, hashes } = this.#memory.memory;
    return findingStamps({
      base: JSON.stringify([knowledge.map(({ uri, text }) => [uri, text]), plain(settings)]),
      hashes,
      boardsNamed: (uri) => boardsNamedIn(logs.get(uri)),
      related: (uri) => {
        const log = logs.get(uri);
        return log && this.#memory.related(log);
      },
    });
  }
}

const plain = ({ otherwise, folders }: Settings) => {
  const own = ({ severity, options }: Settings["otherwise"]) => [
    [...severity],
    [...(options ?? [])].map(([code, values]) => [code, [...values]]),
  ];
  return [own(otherwise), folders.map(({ uri, settings }) => [uri, own(settings)])];
};
