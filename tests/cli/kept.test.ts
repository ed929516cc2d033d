import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { afterEach, describe, expect, it } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { type KeptBy, type KeptLogs, keptIn, keptPieces } from "../../server/src/cli/kept/file";
import { keptFolder, keptName } from "../../server/src/cli/kept/place";
import { openBytes } from "../../server/src/cli/open-bytes";
import { type Job, jobText, plainJob, shopOnDisk } from "./shop-on-disk";

const job = fc.record<Job>({
  board: fc.nat(1),
  serial: fc.nat(5),
  reading: fc.constantFrom("0.58", "0.6", "OL", "1.9", "0"),
  returned: fc.boolean(),
  comebackOf: fc.option(fc.nat(60), { nil: undefined }) as fc.Arbitrary<number>,
});

/** The same about two boards at once. */
const setOf = (n: number, one: Job): string =>
  jobText(n, one)
    .replace(/^board: .*$/m, "boards: [example, unfiled]")
    .replace("## Diode check", "## example\n\n### Diode check")
    .concat(
      `\n## unfiled\n\n### Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | ${one.reading} |\n`,
    );

let folder = "";
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function shop() {
  const made = shopOnDisk();
  folder = made.folder;
  return made;
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
    write("logs/2.md", jobText(2, { ...plainJob(2), reading: "OL" }));
    const after = await check(cacheDir);
    expect(after.out).toBe((await check(["--no-cache"])).out);
    expect(after.read).toBeGreaterThan(0);
    expect(after.read).toBeLessThan(cold.read * 0.6);
    const one = await check(cacheDir, { paths: ["logs/3.md"] });
    expect(one.read).toBeLessThan(3);
    expect(one.out).toBe((await check(["--no-cache"], { paths: ["logs/3.md"] })).out);
  });

  it("is looked at anew where the shop file says otherwise of a check", async () => {
    const { check, cacheDir, write } = shop();
    const named = (out: string) => out.includes("[diode-out-of-window]");
    const shopFile = (checks: string) =>
      write("mendlog.shop.yaml", `mendlog-shop: 1\nname: Bench\n${checks}`);
    shopFile("");
    write("logs/1.md", jobText(1, { ...plainJob(1), board: 0, reading: "1.9" }));
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
          if (kind === "write") write(`logs/${n}.md`, jobText(n, one));
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
    const { check, cacheDir, kept, write } = shop();
    const cold = await check(cacheDir);
    const whole = readFileSync(kept("folder")[0]!);
    expect((await check(cacheDir, { build: "another" })).read).toBe(cold.read);
    const changed = (before: string, after: string): Buffer => {
      expect(whole.indexOf(before)).toBeGreaterThan(0);
      return Buffer.from(whole.toString("latin1").replace(before, after), "latin1");
    };
    for (const [at, spoilt] of [
      Buffer.from("odd"),
      Buffer.alloc(0),
      whole.subarray(0, 70),
      whole.subarray(0, whole.length - 10),
      whole.subarray(500),
      Buffer.concat([whole, Buffer.from("x")]),
      changed('J7\\"', 'J8\\"'),
    ].entries()) {
      writeFileSync(kept("folder")[0]!, spoilt);
      expect(await check(cacheDir), `${at}`).toEqual(cold);
      expect((await check(cacheDir)).read, `${at}`).toBe(0);
    }
    // What was found in one file: only that one is read again.
    writeFileSync(kept("folder")[0]!, changed("U14 | 1 ", "U15 | 1 "));
    const { read, ...one } = await check(cacheDir);
    expect(one).toEqual({ code: cold.code, out: cold.out });
    expect(read).toBeGreaterThan(0);
    expect(read).toBeLessThan(5);
    // What is remembered is not asked for before something has changed; then none of it counts.
    writeFileSync(kept("folder")[0]!, changed('"tables":[', '"tablet":['));
    write("logs/9.md", jobText(9, { ...plainJob(9), reading: "OL" }));
    const { read: readAll, ...all } = await check(cacheDir);
    expect(readAll).toBe(cold.read);
    expect(all).toEqual(await check(["--no-cache"]).then(({ code, out }) => ({ code, out })));
  });

  it("gives the same wherever one byte of it is another", async () => {
    const { check, cacheDir, kept } = shop();
    const { code, out } = await check(cacheDir);
    const path = kept("folder")[0]!;
    const whole = readFileSync(path);
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1), fc.integer({ min: 1, max: 255 }), async (at, by) => {
        const spoilt = Buffer.from(whole);
        spoilt[at] = spoilt[at]! ^ by;
        writeFileSync(path, spoilt);
        const after = await check(cacheDir);
        expect({ code: after.code, out: after.out }).toEqual({ code, out });
      }),
      { numRuns: 15 * Number(process.env.MENDLOG_FUZZ ?? 1) },
    );
  });

  it("is enough by itself where nothing has changed: neither a log nor a knowledge file is read", async () => {
    const { check, cacheDir, write } = shop();
    await check(cacheDir);
    const same = async (paths: readonly string[], options: readonly string[] = []) => {
      const warm = await check([...cacheDir, ...options], { paths });
      const { code, out } = await check(["--no-cache", ...options], { paths });
      expect({ code: warm.code, out: warm.out }).toEqual({ code, out });
      return warm.read;
    };
    expect(await same(["logs/3.md"])).toBe(0);
    expect(await same(["logs/3.md", "x.board.yaml"], ["--format", "json"])).toBe(0);
    expect(await same(["."], ["--format", "sarif"])).toBe(0);
    expect(await same(["."], ["--severity", "diode-out-of-window=hint"])).toBeGreaterThan(0);
    // The board's other logs bear on it.
    write("logs/5.md", jobText(5, { ...plainJob(5), reading: "0.71" }));
    expect(await same(["logs/3.md"])).toBeGreaterThan(0);
    expect(await same(["."])).toBeGreaterThan(0);
  });

  it("is not enough where a knowledge file could not be read: that is told every time", async () => {
    const { check, cacheDir, write } = shop();
    write("y.board.yaml", new Uint8Array([0xff, 0xfe, 0, 0]));
    const first = await check(cacheDir);
    expect(first.out).toContain("y.board.yaml is not read");
    const second = await check(cacheDir);
    expect({ code: second.code, out: second.out }).toEqual({ code: 2, out: first.out });
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
  const of: KeptBy = { root: "/w", build: "b", library: "l", world: "w" };
  const one = {
    size: 10,
    changed: 1000,
    remembered: { uri: "file:///w/a.md", hash: "h", packed: { head: '{"job":"Ω"}', rest: '{"work":[]}' } },
    checked: { stamp: "s", inWorld: true, result: { is: "no log" as const }, isWhole: () => true },
  };
  const kept: KeptLogs = new Map([["/w/a.md", one]]);

  const bytesOf = async (looked: number): Promise<Buffer> => {
    const pieces: Uint8Array[] = [];
    for await (const piece of keptPieces(kept, of, looked)) pieces.push(piece);
    return Buffer.concat(pieces);
  };

  it("gives back what was put in, but for what was written too shortly before", async () => {
    const again = keptIn(openBytes(await bytesOf(10_000)), of)!;
    expect(again).toMatchObject(of);
    expect(again.isWhole()).toBe(true);
    expect(JSON.parse(JSON.stringify(again.logs.get("/w/a.md")))).toEqual(JSON.parse(JSON.stringify(one)));
    expect(keptIn(openBytes(await bytesOf(2_500)), of)!.logs.size).toBe(0);
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
