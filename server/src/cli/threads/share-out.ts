// A large group on all threads: each sums up a share of the logs, all are told of all, each checks a share.
import type { Sums } from "../../workspace/shared-sums";
import type { Checked, CheckedFiles } from "../desk";
import type { FileProblem } from "../targets";
import type { Opening, Thread, Threads } from "./messages";
import { unpackResults } from "./packed-results";

/** Fewer files than this are done before a thread has read its library. */
export const FEWEST_FOR_THREADS = 150;
/** Files in one task: few enough for all threads to come to their end together. */
const SHARE = 32;

/** Threads that have one group open. Whoever starts them ends them. Each method throws an Error where one broke down. */
export class Team {
  readonly #threads: readonly Thread[];

  constructor({ most, start }: Threads, opening: Opening) {
    this.#threads = Array.from({ length: most }, () => start(opening));
  }

  /** What is to be remembered of the Markdown files at these places of `Desk.markdown()`. */
  async sum(places: readonly number[], step: () => void): Promise<readonly Sums[]> {
    const sums: Sums[] = [];
    await this.#inShares(places.length, async (thread, from, to) => {
      sums.push(await thread.ask({ kind: "sum", at: places.slice(from, to) }));
      step();
    });
    return sums;
  }

  /**
   * Checks files of the group with all of this remembered. Neighbours are mostly checked by one thread, so those that are judged
   * by the same had better be neighbours.
   * @param places of the files in the group
   * @param step told how many files were done
   */
  async check(
    sums: readonly Sums[],
    places: readonly number[],
    step: (files: number) => void,
  ): Promise<CheckedFiles> {
    await Promise.all(this.#threads.map((thread) => thread.ask({ kind: "recall", sums })));
    const checked: Checked[] = [];
    const unread: FileProblem[] = [];
    await this.#inShares(places.length, async (thread, from, to) => {
      const reply = await thread.ask({ kind: "check", at: places.slice(from, to) });
      for (const [i, file] of unpackResults(reply.files).entries()) checked[from + i] = file;
      unread.push(...reply.unread);
      step(to - from);
    });
    return { files: checked, unread };
  }

  async end(): Promise<void> {
    await Promise.all(this.#threads.map((thread) => thread.end()));
  }

  /** Each thread has a stretch of its own, and from where most is left the last share of it when it has done that. */
  async #inShares(
    length: number,
    work: (thread: Thread, from: number, to: number) => Promise<void>,
  ): Promise<void> {
    const count = this.#threads.length;
    const left = this.#threads.map((_, i) => ({
      from: Math.floor((length * i) / count),
      to: Math.floor((length * (i + 1)) / count),
    }));
    await Promise.all(
      this.#threads.map(async (thread, i) => {
        const own = left[i]!;
        while (own.from < own.to) {
          const { from } = own;
          own.from = Math.min(own.to, from + SHARE);
          await work(thread, from, own.from);
        }
        for (;;) {
          const most = left.reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a));
          const { to } = most;
          if (most.from === to) return;
          most.to = Math.max(most.from, to - SHARE);
          await work(thread, most.to, to);
        }
      }),
    );
  }
}
