import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { nodeHost, pathOf, uriOf } from "../../server/src/workspace/node-host";
import { canonicalUri } from "../../server/src/workspace/uri";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "mendlog host "));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const put = (path: string, text: string | Uint8Array = "x") => {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
};
const at = (path: string) => uriOf(join(folder, path));

describe("one spelling for each file", () => {
  test.each([
    ["file:///c%3A/logs/a.md", "file:///C:/logs/a.md"],
    ["file:///home/a%20b/%28x%29%21.md", "file:///home/a b/(x)!.md"],
    ["file:///home/%C3%B6.md", "file:///home/ö.md"],
    ["file:///home/50%25.md", "file:///home/50%.md"],
    ["file:///x/%EF%BF%BD", "file:///x/\uD800"],
    ["file://server/share/a.md", "FILE://Server/share/a.md"],
  ])("%s", (canonical, other) => {
    expect(canonicalUri(other)).toBe(canonical);
    expect(canonicalUri(canonical)).toBe(canonical);
  });

  test.each(["untitled:Untitled-1", "vscode-remote://host/a b.md", "", "nonsense"])(
    "other schemes are left alone: %j",
    (uri) => expect(canonicalUri(uri)).toBe(uri),
  );

  test.each(["a b.md", "(ö) #1?.md", "50%.md", "'x'.md"])("a path comes back from its uri: %s", (name) => {
    const path = join(folder, name);
    expect(pathOf(uriOf(path))).toBe(path);
    expect(canonicalUri(uriOf(path))).toBe(uriOf(path));
  });

  test.each(["untitled:x", "file://%zz/x"])("%s has no path", (uri) => {
    expect(pathOf(uri)).toBeUndefined();
  });
});

describe("listing", () => {
  test("finds Markdown and knowledge files, and not what is built, fetched or hidden", async () => {
    const ours = [
      "a.md",
      "b/c.markdown",
      "b/x.board.yaml",
      "y.device.yaml",
      "z.procedure.yaml",
      "mendlog.shop.yaml",
    ];
    const others = [
      "a.txt",
      "x.yaml",
      "node_modules/p/a.md",
      ".git/a.md",
      ".cache/x.board.yaml",
      "dist/a.md",
    ];
    for (const path of [...ours, ...others]) put(path);
    expect(await nodeHost([uriOf(folder)]).list()).toEqual(ours.map(at).sort());
  });

  test("takes linked files and leaves linked folders, which may lead in a circle", async () => {
    put("logs/a.md");
    symlinkSync("..", join(folder, "logs", "up"));
    symlinkSync("a.md", join(folder, "logs", "b.md"));
    symlinkSync("nowhere", join(folder, "logs", "c.md"));
    expect(await nodeHost([uriOf(folder)]).list()).toEqual([at("logs/a.md"), at("logs/b.md")]);
  });

  test("leaves a linked file that lies outside, and what is no regular file", async () => {
    put("in/a.md");
    put("out/b.md");
    symlinkSync(join("..", "out", "b.md"), join(folder, "in", "b.md"));
    symlinkSync("/dev/zero", join(folder, "in", "c.md"));
    execFileSync("mkfifo", [join(folder, "in", "x.board.yaml")]);
    expect(await nodeHost([at("in")]).list()).toEqual([at("in/a.md")]);
  });

  test("looks once, then goes by what it is told", async () => {
    put("a.md");
    const host = nodeHost([uriOf(folder)]);
    expect(await host.list()).toEqual([at("a.md")]);
    put("b.md");
    expect(await host.list()).toEqual([at("a.md")]);
    host.fileChanged(at("b.md"), true);
    host.fileChanged(at("c.txt"), true);
    host.fileChanged(at("a.md"), false);
    expect(await host.list()).toEqual([at("b.md")]);
    host.setFolders([]);
    expect(await host.list()).toEqual([]);
    host.setFolders([uriOf(folder), "vscode-vfs://x/y", at("gone")]);
    expect(await host.list()).toEqual([at("a.md"), at("b.md")]);
  });
});

describe("reading", () => {
  test("drops a byte order mark, as the editor does, and never throws", async () => {
    put("bom.md", "\uFEFFtext");
    put("noise.md", Uint8Array.of(0xff, 0xfd, 0x41));
    const host = nodeHost([uriOf(folder)]);
    expect(await host.read(at("bom.md"))).toBe("text");
    expect(await host.read(at("noise.md"))).toBe("\uFFFD\uFFFDA");
    expect(await host.read(at("gone.md"))).toBeUndefined();
    expect(await host.read(uriOf(folder))).toBeUndefined();
    expect(await host.read("untitled:x")).toBeUndefined();
  });

  test("gives bytes of what lies in the workspace's folders only, links followed, and no more than asked for", async () => {
    put("in/a.bin", Uint8Array.of(1, 2, 3, 4));
    put("in-else/b.bin", Uint8Array.of(9));
    symlinkSync(join("..", "in-else", "b.bin"), join(folder, "in", "out.bin"));
    symlinkSync("a.bin", join(folder, "in", "own.bin"));
    const host = nodeHost([at("gone"), at("in")]);
    const why = async (uri: string, most = 100) => {
      const got = await host.readBytes?.(uri, most);
      return got?.ok === false ? got.reason : got;
    };
    const all = { ok: true, bytes: Uint8Array.of(1, 2, 3, 4) };
    expect(await host.readBytes?.(at("in/a.bin"), 4)).toEqual(all);
    expect(await host.readBytes?.(at("in/own.bin"), 100)).toEqual(all);
    expect(await host.readBytes?.(at("in/a.bin"), 3)).toEqual({ ok: false, reason: "too-large", size: 4 });
    for (const path of ["in/out.bin", "in-else/b.bin", "in/../in-else/b.bin"])
      expect(await why(at(path)), path).toBe("outside");
    expect(await why(at("in"))).toBe("not-a-file");
    expect(await why(at("in/gone.bin"))).toBe("absent");
    expect(await why("untitled:x")).toBe("outside");
    expect(await nodeHost().readBytes?.(at("in/a.bin"), 100)).toEqual({ ok: false, reason: "outside" });
  });

  test("gives the text of a regular file in the workspace, whoever names it, and says why not", async () => {
    put("in/a.md");
    put("out/b.md");
    symlinkSync(join("..", "out"), join(folder, "in", "away"));
    symlinkSync(join("..", "out", "b.md"), join(folder, "in", "b.md"));
    execFileSync("mkfifo", [join(folder, "in", "x.board.yaml")]);
    const said: string[] = [];
    const host = nodeHost([at("in")], (message) => said.push(message));
    // As a watch event names them: nothing looked whether they are files first.
    for (const path of ["in/b.md", "in/away/b.md", "out/b.md", "in/x.board.yaml"]) {
      host.fileChanged(at(path), true);
      expect(await host.read(at(path)), path).toBeUndefined();
    }
    expect(await host.read(at("in/a.md"))).toBe("x");
    const outside = expect.stringContaining("outside the folders of the workspace");
    expect(said).toEqual([outside, outside, outside, expect.stringContaining("not a regular file")]);
  });

  test("leaves out what is too long for a person to have written, and says so", async () => {
    put("long.md", new Uint8Array(33 * 1024 * 1024));
    const said: string[] = [];
    expect(
      await nodeHost([uriOf(folder)], (message) => said.push(message)).read(at("long.md")),
    ).toBeUndefined();
    expect(said).toEqual([expect.stringContaining("34603008 bytes")]);
  });
});
