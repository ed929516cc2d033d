// What is remembered of every log of the workspace. A log counts as it stands on disk, so what is typed counts from
// the save on, a keystroke costs nothing here, and the editor and the command line remember the same.
import { defined } from "../base/defined";
import type { Library } from "../knowledge/library";
import { eachBoard, type LogSummary } from "../log/summary";
import { type PackedSummary, packSummary, unpackSummary } from "../log/summary-pack";
import { type PackedRegions, packRegions, type TextRegion, unpackRegions } from "../log/text-regions";
import { isMarkdown } from "./host";
import type { Remembered } from "./remembered";
import { textHash } from "./text-hash";

/** Logs with more UTF-16 code units than this are not remembered: 50 times what a long repair fills. */
export const LONGEST_REMEMBERED = 4_000_000;

/** All that is remembered at one time, by uri and in its order. Never changes; a new one has a new version. */
export interface JobsSnapshot {
  /** 0 until the workspace was read through for the first time. */
  readonly version: number;
  readonly logs: ReadonlyMap<string, LogSummary>;
  /** The same as they are held in memory, to be handed on. */
  readonly packed: ReadonlyMap<string, PackedSummary>;
  /** Of the texts that they were read from, or of others that say the same; see `textHash`. */
  readonly hashes: ReadonlyMap<string, string>;
}

interface Entry {
  /** Of the text; absent for Markdown that is no log, of which nothing but its first line was looked at. */
  readonly hash?: string;
  readonly library: Library;
  /** Absent for what is no log and for a log that is too long. */
  readonly summary?: LogSummary;
  /** The same, as it is held in memory. */
  readonly packed?: PackedSummary;
  /** Where in that text things may be named. Not part of the summary: every edit moves them. */
  readonly stretches?: PackedRegions;
}

/**
 * Keeps one summary a log, by the hash of its text. It reads nothing itself: whoever drives it takes a uri with
 * `next`, reads it and puts it in, until there is none left; then `finish` makes all of it seen at once, so that
 * no log is judged by half of what changed.
 */
export class LogIndex {
  readonly #entries = new Map<string, Entry>();
  /** Files that may read differently than they are remembered. */
  readonly #waiting = new Set<string>();
  #memory: JobsSnapshot = { version: 0, logs: new Map(), packed: new Map(), hashes: new Map() };
  #news = 0;

  get memory(): JobsSnapshot {
    return this.#memory;
  }

  /** Files that were read again so far, or are gone. */
  get news(): number {
    return this.#news;
  }

  /** How many files are known. */
  get size(): number {
    return this.#entries.size;
  }

  /** Files that are still to be looked at. */
  get waiting(): number {
    return this.#waiting.size;
  }

  /** The workspace has these files: others are forgotten, new ones wait to be read. */
  list(uris: Iterable<string>): void {
    const listed = new Set([...uris].filter(isMarkdown));
    for (const uri of [...this.#entries.keys(), ...this.#waiting]) if (!listed.has(uri)) this.forget(uri);
    for (const uri of listed) if (!this.#entries.has(uri)) this.#waiting.add(uri);
  }

  /** A file on disk was made or changed, or may have been. */
  changed(uri: string): void {
    if (isMarkdown(uri)) this.#waiting.add(uri);
  }

  /** A file is gone. */
  forget(uri: string): void {
    if (this.#entries.delete(uri)) this.#news++;
    this.#waiting.delete(uri);
  }

  /**
   * A file to be read, undefined where all are read with this library: which tables a heading claims hangs on it. It
   * counts as read from now on, unless it changes again.
   */
  next(library: Library): string | undefined {
    if (this.#waiting.size === 0) {
      for (const [uri, entry] of this.#entries) if (entry.library !== library) this.#waiting.add(uri);
    }
    const [uri] = this.#waiting;
    if (uri !== undefined) this.#waiting.delete(uri);
    return uri;
  }

  /** True where this text, read with this library, is what is remembered. */
  knows(uri: string, text: string, library: Library): boolean {
    const entry = this.#entries.get(uri);
    return entry?.library === library && entry.hash === textHash(text);
  }

  /** Stands for the text a log had when it was last read; undefined for what is none or was not read yet. */
  hash(uri: string): string | undefined {
    return this.#entries.get(uri)?.hash;
  }

  /** Takes in what a log reads. */
  put(
    uri: string,
    text: string,
    library: Library,
    summary: LogSummary,
    stretches: readonly TextRegion[] = [],
  ): void {
    const packed = packSummary(summary);
    this.take({ uri, hash: textHash(text), packed, stretches: packRegions(stretches) }, library);
  }

  /** Takes in what was read of a file elsewhere, with an equal library. */
  take({ uri, hash, packed, stretches }: Remembered, library: Library): void {
    const before = this.#entries.get(uri);
    // The same words again stay the same object, by which those who compute with it know that nothing changed.
    const isSame = before?.packed?.head === packed?.head && before?.packed?.rest === packed?.rest;
    const kept = isSame ? before?.packed : packed;
    const summary = isSame ? before?.summary : packed && unpackSummary(packed);
    if (!isSame || before?.library !== library || before.hash !== hash) this.#news++;
    this.#entries.set(uri, defined({ hash, library, summary, packed: kept, stretches }));
  }

  /** False for what was read and is no log, or a log of another board; true for all that is not known yet. */
  mayBeOf(uri: string, board: string | undefined): boolean {
    const entry = this.#entries.get(uri);
    if (!entry || this.#waiting.has(uri)) return true;
    if (entry.summary === undefined) return false;
    return board === undefined || eachBoard([entry.summary]).some((log) => log.board === board);
  }

  /** Where things may be named in this text; undefined where it was not read yet with this library. */
  stretches(uri: string, text: string, library: Library): TextRegion[] | undefined {
    const entry = this.#entries.get(uri);
    return entry?.stretches && this.knows(uri, text, library) ? unpackRegions(entry.stretches) : undefined;
  }

  /** Takes over what was remembered elsewhere with an equal library. It does not wait to be read. */
  recall(one: Remembered, library: Library): void {
    this.#waiting.delete(one.uri);
    this.take(one, library);
  }

  /**
   * Takes over what was remembered the last time. It waits to be looked at all the same: where its text is still the
   * same, nothing of it has to be read.
   */
  suppose(one: Remembered, library: Library): void {
    if (this.#entries.has(one.uri) || !this.#waiting.has(one.uri)) return;
    const { news } = this;
    this.take(one, library);
    this.#news = news;
  }

  /** All that is remembered, to be recalled elsewhere. */
  all(): ReadonlyMap<string, Remembered> {
    return new Map(
      [...this.#entries].map(([uri, { hash, packed, stretches }]) => [
        uri,
        defined({ uri, hash, packed, stretches }),
      ]),
    );
  }

  /** A file has nothing to remember. */
  skip(uri: string, library: Library): void {
    this.take({ uri }, library);
  }

  /** Makes what was put in since the last time seen. Returns the memory, the same one where nothing changed. */
  finish(): JobsSnapshot {
    const logs = new Map<string, LogSummary>();
    const all = new Map<string, PackedSummary>();
    const hashes = new Map<string, string>();
    for (const uri of [...this.#entries.keys()].sort()) {
      const { summary, packed, hash } = this.#entries.get(uri) ?? {};
      if (summary) logs.set(uri, summary);
      if (packed) all.set(uri, packed);
      if (hash !== undefined) hashes.set(uri, hash);
    }
    const last = this.#memory;
    const unchanged =
      last.version > 0 &&
      last.logs.size === logs.size &&
      [...logs].every(([uri, summary]) => last.logs.get(uri) === summary);
    if (!unchanged) this.#memory = { version: last.version + 1, logs, packed: all, hashes };
    return this.#memory;
  }
}
