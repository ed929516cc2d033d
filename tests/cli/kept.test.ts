import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterEach, describe, expect, it } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import type { Io } from "../../server/src/cli/io";
import { type KeptFor, type KeptLogs, keptBytes, keptIn } from "../../server/src/cli/kept/file";
import { keptFolder, keptName } from "../../server/src/cli/kept/place";
import { main } from "../../server/src/cli/main";
import { nodeDisk } from "../../server/src/cli/node-disk";

const LOGS = 52;
const BOARDS = ["example", "unfiled"];

interface Job {
  readonly board: number;
  readonly serial: number;
  readonly reading: string;
  readonly returned: boolean;
  readonly comebackOf?: number;
}
const job = fc.record<Job>({
  board: fc.nat(1),
  serial: fc.nat(5),
  reading: fc.constantFrom("0.58", "0.6", "OL", "1.9", "0"),
  returned: fc.boolean(),
  comebackOf: fc.option(fc.nat(60), { nil: undefined }) as fc.Arbitrary<number>,
});
const plain = (n: number): Job => ({
  board: n % 2,
  serial: n % 6,
  reading: `0.5${n % 10}`,
  returned: n % 4 > 0,
});

const textOf = (n: number, { board, serial, reading, returned, comebackOf }: Job): string => `---
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

/** The same about two boards at once. */
const setOf = (n: number, one: Job): string =>
  textOf(n, one)
    .replace(/^board: .*$/m, "boards: [example, unfiled]")
    .replace("## Diode check", "## example\n\n### Diode check")
    .concat(
      `\n## unfiled\n\n### Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | ${one.reading} |\n`,
    );

let folder = "";
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** A shop's folder on the disk, whose files are all of some time ago, each written at another. */
function shop() {
  folder = mkdtempSync(join(tmpdir(), "mendlog-kept-"));
  const root = join(folder, "shop");
  mkdirSync(join(root, "logs"), { recursive: true });
  let time = 1_700_000_000;
  const write = (name: string, text: string): void => {
    const path = join(root, name);
    writeFileSync(path, text);
    time += 10;
    utimesSync(path, time, time);
  };
  write("x.board.yaml", EXAMPLE_BOARD);
  for (let n = 1; n <= LOGS; n += 1) write(`logs/${n}.md`, textOf(n, plain(n)));
  write("notes.md", "# no log\n");
  const check = async (cache: readonly string[], build = "this", paths: readonly string[] = ["."]) => {
    let out = "";
    const write = (text: string): void => {
      out += text;
    };
    const disk = nodeDisk();
    const read: string[] = [];
    const io: Io = {
      cwd: root,
      env: {},
      out: { write, isTerminal: false },
      err: { write, isTerminal: false },
      disk: {
        ...disk,
        read(path, most) {
          if (path.endsWith(".md")) read.push(path);
          return disk.read(path, most);
        },
      },
      stdin: async () => ({ ok: false, reason: "" }),
      now: () => 0,
      today: () => "2026-03-20",
      parquet: async () => undefined,
      build: async () => build,
      clock: () => 1_800_000_000_000,
      serve: async () => {},
    };
    const code = await main(["check", ...paths, ...cache], io);
    return { code, out, read: read.length };
  };
  const cacheDir = ["--cache-dir", join(folder, "cache", "deep")];
  const kept = () => join(folder, "cache", "deep", readdirSync(join(folder, "cache", "deep"))[0]!);
  return {
    root,
    write,
    check,
    cacheDir,
    kept,
    remove: (name: string) => rmSync(join(root, name), { force: true }),
  };
}

describe("what is kept of a folder", () => {
  it("spares reading what has not changed, and says the same", async () => {
    const { check, cacheDir, write } = shop();
    const cold = await check(["--no-cache"]);
    const { out, code } = await check(cacheDir);
    expect({ out, code }).toEqual({ out: cold.out, code: cold.code });
    expect(out).toContain("52 logs and 1 knowledge file checked, 1 other Markdown file left alone");
    expect(await check(cacheDir)).toEqual({ ...cold, read: 0 });
    // Another board's log is none of its business.
    write("logs/2.md", textOf(2, { ...plain(2), reading: "OL" }));
    const after = await check(cacheDir);
    expect(after.out).toBe((await check(["--no-cache"])).out);
    expect(after.read).toBeGreaterThan(0);
    expect(after.read).toBeLessThan(cold.read * 0.6);
    const one = await check(cacheDir, "this", ["logs/3.md"]);
    expect(one.read).toBeLessThan(3);
    expect(one.out).toBe((await check(["--no-cache"], "this", ["logs/3.md"])).out);
  });

  it("is looked at anew where the shop file says otherwise of a check", async () => {
    const { check, cacheDir, write } = shop();
    const named = (out: string) => out.includes("[diode-out-of-window]");
    const shopFile = (checks: string) =>
      write("mendlog.shop.yaml", `mendlog-shop: 1\nname: Bench\n${checks}`);
    shopFile("");
    write("logs/1.md", textOf(1, { ...plain(1), board: 0, reading: "1.9" }));
    expect(named((await check(cacheDir)).out)).toBe(true);
    shopFile("checks:\n  diode-out-of-window: { severity: off }\n");
    const off = await check(cacheDir);
    expect(named(off.out)).toBe(false);
    expect(off.out).toBe((await check(["--no-cache"])).out);
    shopFile("");
    expect(named((await check(cacheDir)).out)).toBe(true);
  });

  it("is the same as reading all again, whatever was edited, made, renamed or deleted between", async () => {
    const { check, cacheDir, write, remove } = shop();
    await check(cacheDir);
    const edit = fc.oneof(
      fc.record({ kind: fc.constant("write" as const), n: fc.integer({ min: 1, max: 60 }), job }),
      fc.record({ kind: fc.constant("remove" as const), n: fc.integer({ min: 1, max: 10 }), job }),
      fc.record({ kind: fc.constant("board" as const), n: fc.nat(3), job }),
      fc.record({ kind: fc.constant("set" as const), n: fc.integer({ min: 1, max: 60 }), job }),
      fc.record({ kind: fc.constant("no log" as const), n: fc.integer({ min: 1, max: 60 }), job }),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 3 }), async (edits) => {
        for (const { kind, n, job: one } of edits) {
          if (kind === "write") write(`logs/${n}.md`, textOf(n, one));
          else if (kind === "remove") remove(`logs/${n}.md`);
          else if (kind === "set") write(`logs/${n}.md`, setOf(n, one));
          else if (kind === "no log") write(`logs/${n}.md`, "# words\n");
          else write("x.board.yaml", `${EXAMPLE_BOARD}\n# ${n}\n`);
        }
        const { read: _warm, ...warm } = await check(cacheDir);
        const { read: _cold, ...cold } = await check(["--no-cache"]);
        expect(warm).toEqual(cold);
      }),
      { numRuns: 12 * Number(process.env.MENDLOG_FUZZ ?? 1) },
    );
  });

  it("of another program, cut short, written over or of another folder is taken for none", async () => {
    const { check, cacheDir, kept } = shop();
    const cold = await check(cacheDir);
    const whole = readFileSync(kept());
    expect((await check(cacheDir, "another")).read).toBe(cold.read);
    for (const [at, spoilt] of [
      whole.subarray(0, whole.length - 100),
      Buffer.from("odd"),
      Buffer.alloc(0),
      Buffer.from(whole.toString("latin1").replace("0.5", "0.6"), "latin1"),
    ].entries()) {
      writeFileSync(kept(), spoilt);
      expect(await check(cacheDir), `${at}`).toEqual(cold);
    }
    expect((await check(cacheDir)).read).toBe(0);
  });

  it("is not written where it cannot be, and the findings are told all the same", async () => {
    const { check, root } = shop();
    const cold = await check(["--no-cache"]);
    writeFileSync(join(folder, "plain"), "");
    const { out, code } = await check(["--cache-dir", join(folder, "plain")]);
    expect({ out, code }).toEqual({ out: cold.out, code: cold.code });
    expect(readdirSync(root).sort()).toEqual(["logs", "notes.md", "x.board.yaml"]);
  });
});

describe("the file it is kept in", () => {
  const of: KeptFor = { root: "/w", build: "b", library: "l" };
  const one = {
    size: 10,
    changed: 1000,
    remembered: { uri: "file:///w/a.md", hash: "h", packed: { head: '{"job":"Ω"}', rest: '{"work":[]}' } },
    checked: { stamp: "s", result: { is: "no log" as const } },
  };
  const kept: KeptLogs = new Map([["/w/a.md", one]]);

  it("gives back what was put in, but for what was written too shortly before", () => {
    const again = keptIn(keptBytes(kept, of, 10_000)!, of).get("/w/a.md");
    expect(JSON.parse(JSON.stringify(again))).toEqual(one);
    expect(keptIn(keptBytes(kept, of, 2_500)!, of).size).toBe(0);
  });

  it("is named by the folder, one of few, in the user's own folder for such files", () => {
    const names = new Set(Array.from({ length: 1000 }, (_, i) => keptName(`/some/where/${i}`)));
    expect(names.size).toBeLessThanOrEqual(64);
    expect(names.size).toBeGreaterThan(40);
    expect(keptFolder({ env: { HOME: "/h", XDG_CACHE_HOME: "/c" } }, "linux")).toBe("/c/mendlog");
    expect(keptFolder({ env: { HOME: "/h", XDG_CACHE_HOME: "relative" } }, "linux")).toBe(
      "/h/.cache/mendlog",
    );
    expect(keptFolder({ env: { HOME: "/h" } }, "darwin")).toBe("/h/Library/Caches/mendlog");
    expect(keptFolder({ env: {} }, "linux")).toBeUndefined();
  });
});
