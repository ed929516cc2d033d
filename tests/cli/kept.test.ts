import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { afterEach, describe, expect, it } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { type KeptFor, type KeptLogs, keptBytes, keptIn } from "../../server/src/cli/kept/file";
import { keptFolder, keptName } from "../../server/src/cli/kept/place";
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
    const { check, cacheDir, kept } = shop();
    const cold = await check(cacheDir);
    const whole = readFileSync(kept("folder")[0]!);
    expect((await check(cacheDir, { build: "another" })).read).toBe(cold.read);
    for (const [at, spoilt] of [
      whole.subarray(0, whole.length - 100),
      Buffer.from("odd"),
      Buffer.alloc(0),
      Buffer.from(whole.toString("latin1").replace("0.5", "0.6"), "latin1"),
    ].entries()) {
      writeFileSync(kept("folder")[0]!, spoilt);
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
