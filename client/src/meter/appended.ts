// Readings that another program appends to a file, or writes into a named pipe, one a line. Free of the editor, so that
// tests can hold it against real files.
import { constants, type Stats } from "node:fs";
import { type FileHandle, open, stat } from "node:fs/promises";
import { setTimeout as pause } from "node:timers/promises";
import { codeOf } from "./readings-path";
import { LONGEST, type ReadingSource, type SourceAnswer, sourceFailed } from "./source";

/** Milliseconds between two looks at the file: watching files goes by too many ways that miss something. */
const LOOK = 50;
/** Milliseconds in which what comes out of a pipe was written before anybody asked: a program that waited to get rid of it. */
const STALE = 100;
/** Bytes read at once. */
const CHUNK = 4096;
const LINE_END = 0x0a;

/** Why a look found nothing that a reading can come from. */
class Unreadable extends Error {}

/**
 * Takes the next line appended after it was asked, never an older one: not one that was there, nor the rest of one that was
 * begun. A file that shrinks, or that another one takes the place of, is begun again.
 */
export class Appended implements ReadingSource {
  readonly #path: string;
  #turn: Promise<unknown> = Promise.resolve();
  #pipe: FileHandle | undefined;

  constructor(path: string) {
    this.#path = path;
  }

  ask(_query: string, timeout: number, signal?: AbortSignal): Promise<SourceAnswer> {
    const turn = this.#turn.then(() => this.#next(timeout, signal));
    this.#turn = turn;
    return turn;
  }

  /** A file has nothing to beep with. */
  tell(): void {}

  dispose(): void {
    const pipe = this.#pipe;
    this.#pipe = undefined;
    void pipe?.close().catch(() => undefined);
  }

  async #next(timeout: number, signal: AbortSignal | undefined): Promise<SourceAnswer> {
    const end = Date.now() + timeout;
    try {
      const first = await stat(this.#path);
      const look = first.isFIFO() ? await this.#ofPipe() : await ofFile(this.#path, first);
      const line = new Line();
      let begun = look.begun;
      for (;;) {
        if (signal?.aborted) return sourceFailed({ kind: "cancelled" });
        const { bytes, anew } = await look.more();
        if (anew) {
          line.clear();
          begun = false;
        }
        for (const byte of bytes) {
          if (begun) begun = byte !== LINE_END;
          else if (byte !== LINE_END) line.add(byte);
          else if (line.text().trim() === "") line.clear();
          else return { ok: true, text: line.text() };
          if (line.length > LONGEST) return sourceFailed({ kind: "babble" });
        }
        if (bytes.length > 0) continue;
        if (Date.now() >= end) return sourceFailed({ kind: "silent", after: timeout });
        await pause(Math.min(LOOK, Math.max(1, end - Date.now())), undefined, signal ? { signal } : {});
      }
    } catch (error) {
      if (signal?.aborted) return sourceFailed({ kind: "cancelled" });
      const detail = error instanceof Unreadable ? error.message : codeOf(error);
      return sourceFailed({ kind: "unreachable", detail });
    }
  }

  /** The pipe is kept open: a program that writes into one that nobody reads is ended by the system. */
  async #ofPipe(): Promise<Look> {
    this.#pipe ??= await open(this.#path, constants.O_RDONLY | constants.O_NONBLOCK);
    const pipe = this.#pipe;
    let last = LINE_END;
    for (const end = Date.now() + STALE; Date.now() < end; ) {
      const bytes = await readSome(pipe, null);
      if (bytes.length > 0) last = bytes.at(-1) ?? LINE_END;
      else await pause(LOOK / 5);
    }
    return {
      begun: last !== LINE_END,
      more: async () => ({ bytes: await readSome(pipe, null), anew: false }),
    };
  }
}

/** What came since the last look; `again` where it has nothing to do with what came before. */
interface Look {
  /** True where a line had been begun before anybody asked. */
  readonly begun: boolean;
  more(): Promise<{ readonly bytes: Buffer; readonly anew: boolean }>;
}

async function ofFile(path: string, first: Stats): Promise<Look> {
  if (!first.isFile()) throw new Unreadable(first.isDirectory() ? "EISDIR" : "ENOTSUP");
  let at = first.size;
  let { ino } = first;
  const before = at === 0 ? undefined : await chunkOf(path, at - 1, 1);
  return {
    begun: before !== undefined && before[0] !== LINE_END,
    async more() {
      const now = await stat(path).catch((error) => {
        // Moved away to make room for a new one.
        if (codeOf(error) === "ENOENT") return undefined;
        throw error;
      });
      if (!now) return { bytes: Buffer.alloc(0), anew: false };
      if (!now.isFile()) throw new Unreadable(now.isDirectory() ? "EISDIR" : "ENOTSUP");
      const anew = now.size < at || now.ino !== ino;
      if (anew) at = 0;
      ({ ino } = now);
      const bytes = now.size > at ? await chunkOf(path, at, CHUNK) : Buffer.alloc(0);
      at += bytes.length;
      return { bytes, anew };
    },
  };
}

async function chunkOf(path: string, at: number, most: number): Promise<Buffer> {
  const file = await open(path, "r");
  try {
    return await readSome(file, at, most);
  } finally {
    await file.close();
  }
}

async function readSome(file: FileHandle, at: number | null, most = CHUNK): Promise<Buffer> {
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(most), 0, most, at);
    return buffer.subarray(0, bytesRead);
  } catch (error) {
    if (codeOf(error) === "EAGAIN") return Buffer.alloc(0);
    throw error;
  }
}

/** A line that is not ended yet. */
class Line {
  readonly #bytes: number[] = [];

  get length(): number {
    return this.#bytes.length;
  }

  add(byte: number): void {
    this.#bytes.push(byte);
  }

  clear(): void {
    this.#bytes.length = 0;
  }

  text(): string {
    return Buffer.from(this.#bytes).toString("latin1").replace(/\r$/, "");
  }
}
