// The file that keeps what a command printed: its bytes, then what they hang on, then what tells that all of it is whole.
import { createHash } from "node:crypto";
import {
  closeSync,
  fstatSync,
  mkdirSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import type { Seen } from "../seen";

/** Larger ones are not kept, in bytes. */
const MOST_PRINTED = 128 * 1024 * 1024;
/** Bytes that are read or written at a time. */
const PIECE = 1024 * 1024;
/** After so long nobody writes it any more, in milliseconds. */
const ABANDONED = 10 * 60 * 1000;
/** A sum in hexadecimal, a space, the length of what it is of, an end of line; in bytes. */
const FOOT = 64 + 1 + 12 + 1;

/** What stands behind the bytes that were printed. */
interface Tail {
  readonly key: string;
  readonly seen: Seen;
  readonly code: number;
  readonly length: number;
  readonly sum: string;
}

/** What was printed once. */
export interface Printed {
  readonly seen: Seen;
  /** The exit status. */
  readonly code: number;
  /** All of it is there as it was written; all of it is read for that. */
  isWhole(): boolean;
  /** Its bytes, one piece after another in the same memory. */
  pieces(): Iterable<Uint8Array>;
  close(): void;
}

const sumOfBytes = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

/**
 * What a file keeps; undefined where it is of something else, or there is none.
 * @param key stands for all that it hangs on besides what was looked at on the disk
 */
export function openPrinted(path: string, key: string): Printed | undefined {
  let file: number | undefined;
  try {
    file = openSync(path, "r");
    const found = printedIn(file, key);
    if (!found) closeSync(file);
    return found;
  } catch {
    if (file !== undefined) closeSync(file);
    return undefined;
  }
}

function printedIn(file: number, key: string): Printed | undefined {
  const { size } = fstatSync(file);
  const read = (from: number, length: number, into = Buffer.allocUnsafe(length)): Uint8Array => {
    const count = readSync(file, into, 0, length, from);
    if (count < length) throw new RangeError("The file was cut short.");
    return into.subarray(0, length);
  };
  if (size < FOOT) return undefined;
  const foot = Buffer.from(read(size - FOOT, FOOT)).toString("latin1");
  const length = Number(foot.slice(65, -1));
  if (!(length > 0 && length <= size - FOOT)) return undefined;
  const bytes = read(size - FOOT - length, length);
  if (sumOfBytes(bytes) !== foot.slice(0, 64)) return undefined;
  const tail = JSON.parse(Buffer.from(bytes).toString("utf8")) as Tail;
  if (tail.key !== key || tail.length !== size - FOOT - length) return undefined;
  function* pieces(): Generator<Uint8Array> {
    const into = Buffer.allocUnsafe(Math.min(PIECE, tail.length));
    for (let from = 0; from < tail.length; from += PIECE)
      yield read(from, Math.min(PIECE, tail.length - from), into);
  }
  return {
    seen: tail.seen,
    code: tail.code,
    isWhole() {
      const hash = createHash("sha256");
      for (const piece of pieces()) hash.update(piece);
      return hash.digest("hex") === tail.sum;
    },
    pieces,
    close: () => closeSync(file),
  };
}

/** Writes such a file beside its place while it is printed, and puts it there at the end. What goes wrong only ends it. */
export class PrintedWriter {
  readonly #path: string;
  /** The same for all programs, so that no more than one is ever left there. */
  readonly #beside: string;
  readonly #hash = createHash("sha256");
  #file: number | undefined;
  #length = 0;
  #waiting: Buffer[] = [];
  #bytesWaiting = 0;
  /** Whoever reads the output may end the program at any time. */
  readonly #drop = (): void => this.drop();

  /** @param path absolute; the folders above it are made */
  constructor(path: string) {
    this.#path = path;
    this.#beside = join(dirname(path), `.${basename(path)}.tmp`);
    try {
      mkdirSync(dirname(path), { recursive: true });
      this.#file = openNew(this.#beside);
      process.once("exit", this.#drop);
    } catch {
      // Another program writes the same, or nobody may.
    }
  }

  add(text: string): void {
    if (this.#file === undefined) return;
    const bytes = Buffer.from(text, "utf8");
    this.#waiting.push(bytes);
    this.#bytesWaiting += bytes.length;
    if (this.#bytesWaiting >= PIECE) this.#try((file) => this.#flush(file));
  }

  /** @param key see `openPrinted` */
  end(key: string, seen: Seen, code: number): void {
    this.#try((file) => {
      this.#flush(file);
      const tail: Tail = { key, seen, code, length: this.#length, sum: this.#hash.digest("hex") };
      const bytes = Buffer.from(JSON.stringify(tail), "utf8");
      writeFileSync(file, bytes);
      writeFileSync(file, `${sumOfBytes(bytes)} ${String(bytes.length).padStart(12)}\n`);
      renameSync(this.#beside, this.#path);
      this.#close();
    });
  }

  /** Leaves nothing behind. */
  drop(): void {
    if (this.#file === undefined) return;
    this.#close();
    try {
      rmSync(this.#beside, { force: true });
    } catch {
      // It is taken over by whoever writes the next.
    }
  }

  #close(): void {
    process.removeListener("exit", this.#drop);
    if (this.#file !== undefined) closeSync(this.#file);
    this.#file = undefined;
  }

  #flush(file: number): void {
    const bytes = Buffer.concat(this.#waiting);
    this.#waiting = [];
    this.#bytesWaiting = 0;
    this.#length += bytes.length;
    if (this.#length > MOST_PRINTED) throw new RangeError("It is too long to be kept.");
    this.#hash.update(bytes);
    for (let from = 0; from < bytes.length; ) from += writeSync(file, bytes, from);
  }

  #try(run: (file: number) => void): void {
    if (this.#file === undefined) return;
    try {
      run(this.#file);
    } catch {
      this.drop();
    }
  }
}

/** A file that nobody else has begun, or whose writer did not come to its end. */
function openNew(path: string): number {
  const began = statSync(path, { throwIfNoEntry: false })?.mtimeMs;
  if (began !== undefined && Date.now() - began > ABANDONED) rmSync(path, { force: true });
  return openSync(path, "wx", 0o600);
}
