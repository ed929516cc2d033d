// Paths as Windows has them, held on the core. No such machine was there: Node's own path and url functions for that system
// stand in for its disk, and a disk in memory that does not tell capitals from small letters.
import { win32 } from "node:path";
import { describe, expect, test, vi } from "vitest";

vi.mock("node:path", async (original) => {
  const { win32 } = await original<typeof import("node:path")>();
  return { ...win32, default: win32 };
});
vi.mock("node:url", async (original) => {
  const url = await original<typeof import("node:url")>();
  return {
    ...url,
    pathToFileURL: (path: string) => url.pathToFileURL(path, { windows: true }),
    fileURLToPath: (uri: string) => url.fileURLToPath(uri, { windows: true }),
  };
});

const { main } = await import("../../server/src/cli/main");
const { done, failed } = await import("../../server/src/cli/io");
const { EXAMPLE_BOARD, exampleLog } = await import("../../server/src/checks/example-board");
const { imagePathFrom, imageUri } = await import("../../server/src/workspace/image-uri");
const { knowledgeKind } = await import("../../server/src/workspace/host");
const { pathOf, uriOf } = await import("../../server/src/workspace/node-host");
const { isWithin, readWithin } = await import("../../server/src/workspace/read-within");
const { canonicalUri } = await import("../../server/src/workspace/uri");
type Disk = import("../../server/src/cli/io").Disk;

describe("one spelling for each file", () => {
  test.each([
    ["file:///c%3A/Bench/a%20b.md", "c:\\Bench\\a b.md"],
    ["file:///C:/Bench/a b.md", "c:\\Bench\\a b.md"],
    ["file:///c:/Bench/%231%25.md", "c:\\Bench\\#1%.md"],
    ["file://Server/share/logs/a.md", "\\\\server\\share\\logs\\a.md"],
  ])("%s", (uri, path) => {
    expect(pathOf(canonicalUri(uri))).toBe(path);
    expect(uriOf(path)).toBe(canonicalUri(uri));
  });

  test.each(["file:///c%3A/a%5Cb.md", "file:///home/a.md", "file:///c%3A/a%2Fb.md"])(
    "what no path can hold is none: %s",
    (uri) => expect(pathOf(uri)).toBeUndefined(),
  );
});

describe("what lies in a folder", () => {
  test.each([
    ["c:\\bench", "c:\\bench\\logs\\1.md", true],
    ["c:\\bench\\", "c:\\bench\\1.md", true],
    ["c:\\", "c:\\1.md", true],
    ["c:\\bench", "c:\\bench2\\1.md", false],
    ["c:\\bench", "d:\\bench\\1.md", false],
    ["\\\\server\\share", "\\\\server\\share\\1.md", true],
    ["\\\\server\\share", "\\\\server\\shared\\1.md", false],
  ])("%s holds %s: %s", (folder, path, holds) => {
    expect(isWithin(folder, path)).toBe(holds);
  });

  test("capitals make no other folder, and the disk has the last word", async () => {
    const { disk } = diskOf({ "C:\\Bench\\Roms\\U2.bin": "abc", "C:\\Out\\secret.bin": "no" });
    const why = async (path: string) => {
      const read = await readWithin(disk, ["c:\\bench"], path, 100);
      return read.ok ? new TextDecoder().decode(read.bytes) : read.reason;
    };
    expect(await why("c:\\bench\\roms\\u2.bin")).toBe("abc");
    expect(await why("c:\\BENCH\\Roms\\u2.BIN")).toBe("abc");
    expect(await why("c:\\Out\\secret.bin")).toBe("outside");
  });
});

describe("files that a log names", () => {
  const log = "file:///c%3A/bench/logs/1.md";

  test.each([
    ["../roms/u2.bin", "file:///c%3A/bench/roms/u2.bin"],
    ["..\\roms\\u2.bin", "file:///c%3A/bench/roms/u2.bin"],
    ["roms\\..\\u2.bin", "file:///c%3A/bench/logs/u2.bin"],
    ["C:\\bench\\roms\\u2.bin", "file:///c%3A/bench/roms/u2.bin"],
    ["c:/bench/roms/u2.bin", "file:///c%3A/bench/roms/u2.bin"],
    ["..\\..\\..\\..\\u2.bin", undefined],
  ])("%s", (path, uri) => {
    expect(imageUri(log, path)).toBe(uri);
  });

  test("are offered with forward slashes, from a share too", () => {
    expect(imagePathFrom(log, "file:///C:/bench/roms/u 2.bin")).toBe("../roms/u 2.bin");
    expect(imagePathFrom("file://server/share/1.md", "file://server/share/roms/u2.bin")).toBe("roms/u2.bin");
  });
});

test("a knowledge file is one in capitals too, as its disk takes both for the same", () => {
  expect(knowledgeKind("file:///c%3A/Bench/Regatta.BOARD.YAML")).toBe("board");
  expect(knowledgeKind("file:///c%3A/Bench/Mendlog.Shop.yaml")).toBe("shop");
});

const LOG = exampleLog("## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U41 | 1 | 0.58 |\n");

describe("the command line", () => {
  const files = {
    "C:\\Bench\\Example.board.yaml": EXAMPLE_BOARD,
    "C:\\Bench\\Logs\\1.md": LOG.replaceAll("\n", "\r\n"),
    "C:\\Bench\\Logs\\old.txt": "mine",
  };

  test("finds, judges and shows paths with forward slashes", async () => {
    const ran = await run(["check", "."], files);
    expect(ran.err).toBe("");
    expect(ran.code).toBe(1);
    expect(ran.out).toContain("Logs/1.md:");
    expect(ran.out).toContain("unknown-designator");
    const named = await run(["check", "logs\\1.MD"], files);
    expect(named.code).toBe(1);
    expect(named.out).toContain("unknown-designator");
  });

  test("a file named twice, in small letters and in capitals, is one", async () => {
    const ran = await run(
      ["check", "Logs\\1.md", "LOGS\\1.MD", "--format", "json", "--fail-on", "never"],
      files,
    );
    const { files: checked } = JSON.parse(ran.out) as { files: { kind: string }[] };
    expect(checked.filter(({ kind }) => kind === "log")).toHaveLength(1);
  });

  test("never writes over a log, however its name is spelt", async () => {
    for (const name of ["Logs\\1.md", "LOGS\\1.MD", "c:\\bench\\logs\\1.md", "Logs/1.md"]) {
      const ran = await run(["check", ".", "--fail-on", "never", "--force", "-o", name], files);
      expect([name, ran.code, ran.written]).toEqual([name, 2, []]);
    }
    const other = await run(["check", ".", "--fail-on", "never", "--force", "-o", "Logs\\old.txt"], files);
    expect([other.code, other.written]).toEqual([0, ["C:\\Bench\\Logs\\old.txt"]]);
  });
});

/** Drive letters in capitals and names as they were given, whatever they are asked for by. */
function diskOf(files: Readonly<Record<string, string>>): { disk: Disk; written: string[] } {
  const written: string[] = [];
  const key = (path: string): string =>
    win32
      .normalize(path)
      .replace(/(?<!:)\\$/, "")
      .toLowerCase();
  const entries = new Map(Object.entries(files).map(([path, text]) => [key(path), { path, text }]));
  const folders = new Map<string, string>();
  for (const path of Object.keys(files))
    for (let at = win32.dirname(path); ; at = win32.dirname(at)) {
      folders.set(key(at), at);
      if (at === win32.dirname(at)) break;
    }
  const disk: Disk = {
    async look(path) {
      const folder = folders.get(key(path));
      if (folder !== undefined) return done({ kind: "folder", size: 0, real: folder });
      const file = entries.get(key(path));
      return file ? done({ kind: "file", size: file.text.length, real: file.path }) : failed("is not there");
    },
    async names(folder) {
      const isIn = (path: string) => key(win32.dirname(path)) === key(folder) && key(path) !== key(folder);
      if (!folders.has(key(folder))) return failed("is not there");
      return done([
        ...[...folders.values()]
          .filter(isIn)
          .map((path) => ({ name: win32.basename(path), kind: "folder" as const })),
        ...[...entries.values()]
          .filter(({ path }) => isIn(path))
          .map(({ path }) => ({ name: win32.basename(path), kind: "file" as const })),
      ]);
    },
    open: async () => failed("is not there"),
    async read(path, most) {
      const file = entries.get(key(path));
      return file ? done(new TextEncoder().encode(file.text).subarray(0, most)) : failed("is not there");
    },
    async create(path) {
      written.push(path);
      return done(undefined);
    },
    async replace(path) {
      written.push(entries.get(key(path))?.path ?? path);
      return done(undefined);
    },
    makeFolder: async () => done(undefined),
  };
  return { disk, written };
}

async function run(args: readonly string[], files: Readonly<Record<string, string>>) {
  let out = "";
  let err = "";
  const { disk, written } = diskOf(files);
  const code = await main(args, {
    cwd: "C:\\Bench",
    env: {},
    out: {
      write(text) {
        out += text;
      },
      isTerminal: false,
    },
    err: {
      write(text) {
        err += text;
      },
      isTerminal: false,
    },
    disk,
    stdin: async () => failed("is not there"),
    now: () => 0,
    today: () => "2026-03-20",
    parquet: async () => undefined,
    serve: async () => {},
  });
  return { code, out, err, written };
}
