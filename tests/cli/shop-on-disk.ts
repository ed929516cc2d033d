// A shop's folder on the disk, and the command line run on it inside the tests, with what it keeps between two runs.
import { mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import type { Io } from "../../server/src/cli/io";
import { printedBefore, printingOf } from "../../server/src/cli/kept/again";
import { main } from "../../server/src/cli/main";
import { nodeDisk } from "../../server/src/cli/node-disk";

/** Logs in it. */
const LOGS = 52;
const BOARDS = ["example", "unfiled"];

export interface Job {
  readonly board: number;
  readonly serial: number;
  readonly reading: string;
  readonly returned: boolean;
  readonly comebackOf?: number;
}

/** The job of that number as it stands at first. */
export const plainJob = (n: number): Job => ({
  board: n % 2,
  serial: n % 6,
  reading: `0.5${n % 10}`,
  returned: n % 4 > 0,
});

export const jobText = (n: number, { board, serial, reading, returned, comebackOf }: Job): string => `---
mendlog: 1
job: J${n}
board: ${BOARDS[board]}
serial: ${serial}
received: 2026-01-${String(1 + (n % 28)).padStart(2, "0")}
stage: ${returned ? "returned" : "diagnosing"}
${comebackOf === undefined ? "" : `comeback-of: J${comebackOf}\n`}---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | ${reading} |
| U14 | 3   | 0.61 |
`;

export interface CheckOfShop {
  readonly build?: string;
  readonly paths?: readonly string[];
  /** Milliseconds since 1970; an hour from now by default, when all files are of some time ago. */
  readonly clock?: number;
  readonly today?: string;
  readonly terminal?: boolean;
  readonly env?: Readonly<Record<string, string>>;
  /** What was printed before is printed again, and kept. */
  readonly again?: boolean;
}

/** A new folder of logs whose files are all of some time ago, each written at another. Whoever asks for it removes it. */
export function shopOnDisk() {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-kept-"));
  const root = join(folder, "shop");
  const cache = join(folder, "cache", "deep");
  mkdirSync(join(root, "logs"), { recursive: true });
  let time = 1_700_000_000;
  const write = (name: string, text: string | Uint8Array): void => {
    const path = join(root, name);
    writeFileSync(path, text);
    time += 10;
    utimesSync(path, time, time);
  };
  write("x.board.yaml", EXAMPLE_BOARD);
  for (let n = 1; n <= LOGS; n += 1) write(`logs/${n}.md`, jobText(n, plainJob(n)));
  write("notes.md", "# no log\n");
  const check = async (options: readonly string[], of: CheckOfShop = {}) => {
    const { build = "this", paths = ["."], clock = Date.now() + 3_600_000, today = "2026-03-20" } = of;
    let out = "";
    const told = (text: string): void => {
      out += text;
    };
    const disk = nodeDisk();
    const read: string[] = [];
    const io: Io = {
      cwd: root,
      env: of.env ?? {},
      out: { write: told, isTerminal: of.terminal ?? false },
      err: { write: told, isTerminal: false },
      disk: {
        ...disk,
        read(path, most) {
          if (/\.(?:md|yaml)$/.test(path)) read.push(path);
          return disk.read(path, most);
        },
      },
      stdin: async () => ({ ok: false, reason: "" }),
      now: () => 0,
      today: () => today,
      parquet: async () => undefined,
      build: async () => build,
      clock: () => clock,
      serve: async () => {},
    };
    const argv = ["check", ...paths, ...options];
    const printed = of.again ? await printedBefore(argv, io) : undefined;
    if (!printed) {
      const code = await main(argv, io, undefined, of.again ? printingOf(argv, io) : undefined);
      return { code, out, read: read.length };
    }
    const decoder = new TextDecoder();
    for (const piece of printed.pieces()) out += decoder.decode(piece, { stream: true });
    printed.close();
    return { code: printed.code, out, read: read.length, isAgain: true };
  };
  return {
    folder,
    root,
    write,
    check,
    cacheDir: ["--cache-dir", cache],
    /** The files in which anything is kept. */
    kept: (what: "folder" | "printed"): string[] =>
      readdirSync(cache)
        .filter((name) => name.startsWith(`${what}-`))
        .map((name) => join(cache, name)),
    cache,
    remove: (name: string) => rmSync(join(root, name), { force: true }),
  };
}
