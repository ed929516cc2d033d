// The same command on the same files again: it prints what it printed, to the byte, and only then.
import { execFile } from "node:child_process";
import {
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { afterEach, describe, expect, it } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { concerns } from "../../server/src/cli/find-files";
import { openPrinted, PrintedWriter } from "../../server/src/cli/kept/printed";
import { OUR_ENDINGS } from "../../server/src/workspace/host";
import { type CheckOfShop, jobText, plainJob, shopOnDisk } from "./shop-on-disk";

const CLI = fileURLToPath(new URL("../../dist/cli.cjs", import.meta.url));
/** Says at the end whether more than the entry was loaded. */
const WATCHER = fileURLToPath(new URL("core-loaded.cjs", import.meta.url));
const FORMATS = [[], ["--format", "json"], ["--format", "sarif"], ["--color", "always", "--quiet"]];

let folder = "";
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function shop() {
  const made = shopOnDisk();
  folder = made.folder;
  const again = (of: CheckOfShop = {}) => made.check(made.cacheDir, { again: true, ...of });
  return { ...made, again };
}

const inProcess = (
  args: readonly string[],
  cwd: string,
): Promise<{ code: number | null; out: Buffer; err: string }> =>
  new Promise((resolve) => {
    const child = execFile(
      process.execPath,
      ["-r", WATCHER, CLI, ...args],
      { cwd, maxBuffer: 1e9, encoding: "buffer" },
      (_, out, err) => resolve({ code: child.exitCode, out, err: err.toString() }),
    );
  });

describe("what a check printed", { timeout: 180_000 }, () => {
  it("is printed again in each format as a program prints that keeps nothing, with its exit status", async () => {
    const { root, cacheDir } = shop();
    // No file may be of the last two seconds.
    await new Promise((go) => setTimeout(go, 2100));
    for (const format of FORMATS) {
      const cold = await inProcess(["check", ".", ...format, "--no-cache"], root);
      expect(cold.out.length).toBeGreaterThan(1000);
      const runs = [];
      for (let run = 0; run < 2; run += 1)
        runs.push(await inProcess(["check", ".", ...format, ...cacheDir], root));
      expect(cold.err).toBe("core loaded\n");
      expect(runs).toEqual([cold, { ...cold, err: "" }]);
    }
  });

  it("is not printed again where any file, folder, link or rule is another, the day or the program", async () => {
    const { root, write, remove, again, check, folder } = shop();
    const first = await again();
    expect(await again()).toEqual({ ...first, read: 0, isAgain: true });
    const at = (name: string) => join(root, name);
    const changes: readonly (readonly [string, () => void])[] = [
      ["a log of the same length", () => write("logs/2.md", jobText(2, { ...plainJob(2), reading: "0.99" }))],
      ["only the time of a log", () => utimesSync(at("logs/3.md"), 1_600_000_000, 1_600_000_000)],
      ["a new log", () => write("logs/new.md", jobText(90, plainJob(90)))],
      ["a log is renamed", () => renameSync(at("logs/new.md"), at("logs/other.MARKDOWN"))],
      ["a log is gone", () => remove("logs/other.MARKDOWN")],
      ["the board's file", () => write("x.board.yaml", `${EXAMPLE_BOARD}\n# more\n`)],
      [
        "another board's file",
        () => write("logs/z.board.yaml", EXAMPLE_BOARD.replace("id: example", "id: z")),
      ],
      ["a rule", () => write(".gitignore", "logs/z.board.yaml\n")],
      ["another rule", () => write(".gitignore", "logs/y.board.yaml\n")],
      ["a rule in a folder", () => write("logs/.mendlogignore", "5.md\n")],
      ["a new folder", () => mkdirSync(at("logs/more"))],
      ["a link", () => symlinkSync("logs/1.md", at("linked.md"))],
      [
        "a folder in place of a file",
        () => {
          remove("logs/6.md");
          mkdirSync(at("logs/6.md"));
        },
      ],
      [
        "a shop file above",
        () => writeFileSync(join(folder, "mendlog.shop.yaml"), "mendlog-shop: 1\nname: Bench\n"),
      ],
      ["it is gone again", () => rmSync(join(folder, "mendlog.shop.yaml"))],
    ];
    for (const [what, change] of changes) {
      change();
      const after = await again();
      expect([what, "isAgain" in after]).toEqual([what, false]);
      const { code, out } = await check(["--no-cache"]);
      expect([what, after.code, after.out]).toEqual([what, code, out]);
      // Kept again, where all could be read.
      if (code < 2) expect([what, "isAgain" in (await again())]).toEqual([what, true]);
    }
    for (const of of [
      { today: "2026-03-21" },
      { build: "another" },
      { terminal: true },
      { env: { NO_COLOR: "1" } },
      { paths: ["logs"] },
    ]) {
      expect([of, "isAgain" in (await again(of))]).toEqual([of, false]);
      expect([of, "isAgain" in (await again(of))]).toEqual([of, true]);
    }
  });

  it("is printed again where something changed that is none of ours", async () => {
    const { write, again } = shop();
    await again();
    write("logs/out.txt", "words");
    write("photo.png", "none");
    expect(await again()).toHaveProperty("isAgain");
  });

  it("is the same as checking again, whatever was edited between", async () => {
    const { write, remove, again, check } = shop();
    const edit = fc.record({
      kind: fc.constantFrom("log", "same", "remove", "board", "rule"),
      n: fc.integer({ min: 1, max: 60 }),
      reading: fc.constantFrom("0.58", "OL", "1.9", "0"),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(edit, { maxLength: 2 }), async (edits) => {
        await again();
        for (const { kind, n, reading } of edits) {
          if (kind === "log") write(`logs/${n}.md`, jobText(n, { ...plainJob(n), reading }));
          else if (kind === "same") write(`logs/${n}.md`, jobText(n, plainJob(n)));
          else if (kind === "remove") remove(`logs/${n}.md`);
          else if (kind === "board") write("x.board.yaml", `${EXAMPLE_BOARD}\n# ${n}\n`);
          else write(".gitignore", `logs/${n}.md\n`);
        }
        const { code, out } = await again();
        const cold = await check(["--no-cache"]);
        expect({ code, out }).toEqual({ code: cold.code, out: cold.out });
      }),
      { numRuns: 6 * Number(process.env.MENDLOG_FUZZ ?? 1) },
    );
  });

  it("is not kept of a log that names a picture, of what could not be read, and of what was just written", async () => {
    const { root, write, remove, again, check, kept, cacheDir } = shop();
    write("logs/1.md", `${jobText(1, plainJob(1))}\n![The board](board.png)\n`);
    await again();
    write("logs/1.md", new Uint8Array([0xff, 0x00]));
    expect((await again()).code).toBe(2);
    remove("logs/1.md");
    write("logs/2.md", jobText(2, plainJob(2)));
    await again({ clock: statSync(join(root, "logs/2.md")).ctimeMs + 1500 });
    await again({ paths: ["logs/2.md"] });
    for (const option of ["--no-cache", "--fix-dry-run"])
      await check([option, ...(option === "--no-cache" ? [] : cacheDir)], { again: true });
    expect(kept("printed")).toEqual([]);
    await again();
    expect(kept("printed").length).toBe(1);
  });

  it("is taken for nothing where its file was cut short or written over", async () => {
    const { again, kept } = shop();
    const first = await again();
    const path = kept("printed")[0]!;
    const whole = readFileSync(path);
    const flipped = (at: number): Buffer => {
      const copy = Buffer.from(whole);
      copy[at] = copy[at]! ^ 1;
      return copy;
    };
    const all = [
      ...[0, 1, 50, whole.length - 1, whole.length - 90].map((length) => whole.subarray(0, length)),
      ...[0, 100, whole.length - 500, whole.length - 60, whole.length - 5].map(flipped),
      Buffer.concat([whole, whole]),
      Buffer.concat([Buffer.from("x"), whole]),
      Buffer.alloc(4000),
    ];
    for (const [n, spoilt] of all.entries()) {
      writeFileSync(path, spoilt);
      expect([n, await again()]).toEqual([n, { ...first, read: 0 }]);
      expect(readFileSync(path).equals(whole)).toBe(true);
    }
  });
});

describe("the file of what was printed", () => {
  const seen = { endings: [], folders: [], looks: [] };
  const textIn = (path: string): string | undefined => {
    const printed = openPrinted(path, "key");
    try {
      if (!printed?.isWhole()) return undefined;
      return [...printed.pieces()].map((piece) => Buffer.from(piece).toString("utf8")).join("");
    } finally {
      printed?.close();
    }
  };

  it("is written by one of two at once, and read as it was when it was opened", () => {
    folder = shopOnDisk().folder;
    const path = join(folder, "some", "where", "printed-1.kept");
    const one = new PrintedWriter(path);
    const other = new PrintedWriter(path);
    one.add("one Ω");
    other.add("other");
    other.end("key", seen, 0);
    one.end("key", seen, 1);
    expect(textIn(path)).toBe("one Ω");
    expect(openPrinted(path, "another key")).toBe(undefined);
    const before = openPrinted(path, "key")!;
    const next = new PrintedWriter(path);
    next.add("next".repeat(1_000_000));
    next.end("key", seen, 1);
    expect(before.isWhole()).toBe(true);
    before.close();
    expect(textIn(path)?.length).toBe(4_000_000);
    // One that was left by a program that was killed is taken over after a while.
    const left = join(folder, "some", "where", ".printed-1.kept.tmp");
    writeFileSync(left, "half");
    for (const [age, expected] of [
      [0, 4_000_000],
      [3600, 3],
    ] as const) {
      utimesSync(left, Date.now() / 1000 - age, Date.now() / 1000 - age);
      const after = new PrintedWriter(path);
      after.add("new");
      after.end("key", seen, 0);
      expect(textIn(path)?.length).toBe(expected);
    }
  });

  it("counts every name that is ours by its ending", () => {
    const names = [
      "a.md",
      "a.Markdown",
      "x.board.yaml",
      "a.device.yaml",
      "a.procedure.yaml",
      "A.Limits.YAML",
      "mendlog.shop.yaml",
    ];
    for (const name of names) {
      expect(concerns(name), name).toBe(true);
      expect(
        OUR_ENDINGS.some((ending) => name.toLowerCase().endsWith(ending)),
        name,
      ).toBe(true);
    }
  });
});
