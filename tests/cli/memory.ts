// A disk, a terminal and a clock in memory, for running the command line inside the tests.
import { dirname, posix, resolve } from "node:path";
import { EXAMPLE_BOARD, exampleLog } from "../../server/src/checks/example-board";
import {
  type Content,
  type Disk,
  done,
  failed,
  type Io,
  type Look,
  type Name,
  type Tried,
} from "../../server/src/cli/io";
import { main } from "../../server/src/cli/main";
import { openBytes } from "../../server/src/cli/open-bytes";
import { writeParquet } from "../../server/src/cli/shop/parquet";
import type { Threads } from "../../server/src/cli/threads/messages";

/** A file's text or bytes, where a link leads, why it cannot be opened, or a text that cannot be written over. */
export type Entry =
  | string
  | Uint8Array
  | { readonly link: string }
  | { readonly reason: string }
  | { readonly text: string; readonly kept: string }
  | { readonly size: number; readonly head: string };
export type Files = Readonly<Record<string, Entry>>;

export interface RunOptions {
  readonly cwd?: string;
  readonly stdin?: string | Uint8Array;
  readonly env?: Readonly<Record<string, string>>;
  readonly terminal?: boolean;
  /** What the clock goes on by at each look; in milliseconds. */
  readonly tick?: number;
  /** What changes on the disk, where somebody tells. */
  readonly changes?: NonNullable<Io["changes"]>;
  /** What git says has changed, where there is a git. */
  readonly changedSince?: NonNullable<Io["changedSince"]>;
  /** On what threads, where there are any. */
  readonly threads?: (disk: Disk) => Threads;
  /** False where the writer of Parquet files is not beside the program. */
  readonly parquet?: boolean;
}

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** What was written to files; bytes as Latin-1. */
  readonly written: ReadonlyMap<string, string>;
}

export async function run(args: readonly string[], files: Files, options: RunOptions = {}): Promise<Ran> {
  const { cwd = "/w", terminal = false, env = {}, stdin = "", tick = 0, parquet = true } = options;
  let out = "";
  let err = "";
  let time = 0;
  const written = new Map<string, string>();
  const io: Io = {
    cwd,
    env,
    out: {
      write(text) {
        out += text;
      },
      isTerminal: terminal,
      columns: 100,
    },
    err: {
      write(text) {
        err += text;
      },
      isTerminal: terminal,
    },
    disk: memoryDisk(files, cwd, written),
    stdin: async () => done(typeof stdin === "string" ? new TextEncoder().encode(stdin) : stdin),
    now() {
      time += tick;
      return time;
    },
    today: () => "2026-03-20",
    ...(options.changes ? { changes: options.changes } : {}),
    ...(options.changedSince ? { changedSince: options.changedSince } : {}),
    parquet: async () => (parquet ? writeParquet : undefined),
    async serve() {
      out += "served";
    },
  };
  const code = await main(args, io, options.threads?.(io.disk));
  return { code, out, err, written };
}

function memoryDisk(files: Files, cwd: string, written: Map<string, string>): Disk {
  const entries = new Map(Object.entries(files).map(([path, entry]) => [resolve(cwd, path), entry]));
  const folders = new Set<string>(["/", cwd]);
  for (const path of entries.keys()) {
    for (let at = dirname(path); at !== "/"; at = dirname(at)) folders.add(at);
  }

  /** The path with its links followed; undefined where they lead in a circle. */
  const follow = (path: string): string | undefined => {
    let at = "/";
    let hops = 0;
    let left = path.split("/").filter(Boolean);
    while (left.length > 0) {
      at = posix.join(at, left[0]!);
      left = left.slice(1);
      const entry = entries.get(at);
      if (typeof entry === "object" && "link" in entry) {
        if (++hops > 20) return undefined;
        left = [...resolve(dirname(at), entry.link).split("/").filter(Boolean), ...left];
        at = "/";
      }
    }
    return at;
  };

  const look = async (path: string): Promise<Tried<Look>> => {
    const real = follow(path);
    if (real === undefined) return failed("cannot be opened: its links lead in a circle");
    if (folders.has(real)) return done({ kind: "folder", size: 0, real });
    const entry = entries.get(real);
    if (entry === undefined) return failed("is not there");
    return done({ kind: "file", size: sizeOf(entry), real });
  };

  return {
    look,
    async names(folder) {
      const real = follow(folder);
      if (real === undefined || !folders.has(real)) return failed("is not there");
      const names = new Map<string, Name>();
      for (const path of [...folders, ...entries.keys()]) {
        if (path === "/" || dirname(path) !== real) continue;
        const entry = entries.get(path);
        const kind = folders.has(path)
          ? "folder"
          : typeof entry === "object" && "link" in entry
            ? "link"
            : "file";
        names.set(path, { name: posix.basename(path), kind });
      }
      return done([...names.values()].reverse());
    },
    async read(path, most) {
      const found = await look(path);
      if (!found.ok) return found;
      const entry = entries.get(found.value.real);
      if (typeof entry === "object" && "reason" in entry) return failed(entry.reason);
      return done(bytesOf(entry).subarray(0, most));
    },
    async open(path) {
      const found = await look(path);
      return found.ok ? done(openBytes(bytesOf(entries.get(found.value.real)))) : found;
    },
    async replace(path, content) {
      const whole = await wholeOf(content);
      const text = textOf(whole);
      const entry = entries.get(path);
      if (entry === undefined) return failed("is not there");
      if (typeof entry === "object" && "kept" in entry) return failed(entry.kept);
      written.set(path, text);
      entries.set(path, whole);
      return done(undefined);
    },
    async makeFolder(path) {
      if (!folders.has(dirname(path))) return failed("is not there");
      folders.add(path);
      return done(undefined);
    },
    async create(path, content) {
      const whole = await wholeOf(content);
      const text = textOf(whole);
      if (!folders.has(dirname(path))) return failed("is not there");
      if (entries.has(path) || folders.has(path)) return failed("is there already and stays as it is");
      written.set(path, text);
      entries.set(path, whole);
      return done(undefined);
    },
  };
}

async function wholeOf(content: Content): Promise<string | Uint8Array> {
  if (typeof content === "string") return content;
  if (content instanceof Uint8Array) return new Uint8Array(content);
  const pieces: Uint8Array[] = [];
  for await (const piece of content) pieces.push(piece);
  return new Uint8Array(Buffer.concat(pieces));
}

const textOf = (whole: string | Uint8Array): string =>
  typeof whole === "string" ? whole : Buffer.from(whole).toString("latin1");

function bytesOf(entry: Entry | undefined): Uint8Array {
  if (entry instanceof Uint8Array) return entry;
  if (typeof entry === "string") return new TextEncoder().encode(entry);
  const text = entry && ("head" in entry ? entry.head : "text" in entry ? entry.text : "");
  return new TextEncoder().encode(text);
}

const sizeOf = (entry: Entry): number =>
  typeof entry === "object" && "size" in entry ? entry.size : bytesOf(entry).length;

/** A workspace with one board and one log that has a warning (no such part) and an error (no number). */
export const BOARD = EXAMPLE_BOARD;
export const CLEAN = exampleLog(
  "## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | 0.58 |\n",
);
export const FAULTY = CLEAN.replace("U14 | 1", "U41 | 1");
export const BROKEN = CLEAN.replace("0.58", "O.58");

export interface JsonFinding {
  readonly code: string;
  readonly severity: string;
  readonly message: string;
  readonly start: { readonly offset: number; readonly line: number; readonly column: number };
  readonly end: { readonly offset: number; readonly line: number; readonly column: number };
}

export interface JsonShape {
  readonly summary: Readonly<Record<string, unknown>>;
  readonly problems: readonly { readonly path: string; readonly message: string }[];
  readonly files: readonly {
    readonly path: string;
    readonly kind: string;
    readonly findings: readonly JsonFinding[];
  }[];
}

/** Runs a check with --format json and gives what it printed, read. */
export async function runJson(args: readonly string[], files: Files, options: RunOptions = {}) {
  const ran = await run(["check", "--format", "json", ...args], files, options);
  const json: JsonShape = JSON.parse(ran.out);
  const codes = Object.fromEntries(json.files.map((file) => [file.path, file.findings.map((f) => f.code)]));
  return { ...ran, json, codes };
}
