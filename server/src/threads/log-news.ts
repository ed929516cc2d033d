import type { CheckedWith, FileText } from "../workspace/host";
import type { Remembered } from "../workspace/remembered";
import { packSums, type Sums } from "../workspace/shared-sums";
import type { ToldWorker } from "./log-worker";

/** Logs told in one piece: putting them together takes a few milliseconds. */
const PIECE = 256;

/** What threads that check closed logs have to be told, in pieces. */
export class LogNews {
  /** Of all logs, the same memory for all threads. */
  #all: { readonly of: CheckedWith["remembered"]; readonly pieces: Sums[] } | undefined;

  /**
   * What changed from what a thread was told last.
   * @param before undefined for a thread that was told nothing yet
   */
  *between(before: CheckedWith | undefined, now: CheckedWith): Iterable<ToldWorker> {
    if (before?.settings !== now.settings) yield { kind: "settings", settings: now.settings };
    if (before?.knowledge !== now.knowledge) yield filesBetween(before?.knowledge ?? [], now.knowledge);
    if (before?.remembered === now.remembered) return;
    if (!before) {
      for (const sums of this.#allOf(now.remembered)) yield { kind: "remembered", sums, gone: [] };
      return;
    }
    const changed: Remembered[] = [];
    for (const [uri, packed] of now.remembered)
      if (before.remembered.get(uri) !== packed) changed.push({ uri, packed });
    const gone = [...before.remembered.keys()].filter((uri) => !now.remembered.has(uri));
    yield { kind: "remembered", sums: packSums(changed.slice(0, PIECE)), gone };
    for (let from = PIECE; from < changed.length; from += PIECE)
      yield { kind: "remembered", sums: packSums(changed.slice(from, from + PIECE)), gone: [] };
  }

  /** No thread is left that shares it. */
  forget(): void {
    this.#all = undefined;
  }

  *#allOf(remembered: CheckedWith["remembered"]): Iterable<Sums> {
    if (this.#all?.of !== remembered) this.#all = { of: remembered, pieces: [] };
    const { pieces } = this.#all;
    const logs = [...remembered].map(([uri, packed]): Remembered => ({ uri, packed }));
    for (let at = 0; at * PIECE < logs.length; at += 1) {
      pieces[at] ??= packSums(logs.slice(at * PIECE, (at + 1) * PIECE));
      yield pieces[at]!;
    }
  }
}

function filesBetween(before: readonly FileText[], now: readonly FileText[]): ToldWorker {
  const texts = new Map(before.map(({ uri, text }) => [uri, text]));
  const changed = now.filter(({ uri, text }) => texts.get(uri) !== text);
  const uris = new Set(now.map(({ uri }) => uri));
  return { kind: "knowledge", changed, gone: [...texts.keys()].filter((uri) => !uris.has(uri)) };
}
