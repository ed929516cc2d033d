// What may come when in a session, and what a document may be called.
import { fileURLToPath } from "node:url";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { type Bench, CLEAN, codesOf, FAULTY, startBench } from "./bench";
import { FULL_CAPABILITIES, startClient, type TestClient } from "./client.js";

let bench: Bench | undefined;
let alone: TestClient | undefined;
afterEach(() => {
  bench?.end();
  alone?.kill();
  bench = alone = undefined;
});

const HOVER = { line: 9, character: 3 };
const NEITHER = { processId: null, rootUri: null, capabilities: {} };

describe("the order of things", () => {
  test("what comes before initialize is refused or dropped", async () => {
    alone = await startClient({ ready: false });
    await alone.open("file:///early.md", FAULTY);
    await expect(alone.request("shutdown-not-yet", {})).rejects.toMatchObject({ code: -32002 });
    await alone.request("initialize", NEITHER);
    await alone.notify("initialized", {});
    const textDocument = { uri: "file:///early.md" };
    expect(await alone.request("textDocument/documentSymbol", { textDocument })).toBeNull();
    await expect(alone.request("initialize", NEITHER)).rejects.toMatchObject({ code: -32600 });
    expect(alone.alive).toBe(true);
  });

  test("a question between initialize and initialized is answered", async () => {
    alone = await startClient({ ready: false });
    await alone.request("initialize", NEITHER);
    await alone.open("file:///log.md", FAULTY);
    const textDocument = { uri: "file:///log.md" };
    expect(await alone.request("textDocument/hover", { textDocument, position: HOVER })).toBeDefined();
    expect((await alone.request("textDocument/documentSymbol", { textDocument })).length).toBeGreaterThan(0);
    // Lenses wait for the board files, but not for a word that never comes.
    expect(await alone.request("textDocument/codeLens", { textDocument })).not.toBeUndefined();
  });

  test("after shutdown everything is refused but the end", async () => {
    bench = await startBench("", { capabilities: FULL_CAPABILITIES });
    const { client, uri } = bench;
    await client.open(uri("log.md"), FAULTY);
    await client.request("shutdown");
    const textDocument = { uri: uri("log.md") };
    for (const [method, params] of [
      ["textDocument/hover", { textDocument, position: HOVER }],
      ["textDocument/diagnostic", { textDocument }],
      ["completionItem/resolve", { label: "U14" }],
      ["workspace/symbol", { query: "" }],
      ["mendlog/jobs", { today: "2026-05-01" }],
    ] as const) {
      await expect(client.request(method, params), method).rejects.toMatchObject({ code: -32600 });
    }
    await client.change(uri("log.md"), 2, { text: CLEAN });
    await client.notify("exit");
    expect(await client.exited).toBe(0);
  });

  test("a document opened twice, changed when closed, closed twice", async () => {
    bench = await startBench("");
    const { client, uri } = bench;
    const log = uri("log.md");
    await client.change(log, 3, { text: CLEAN });
    await client.close(log);
    await client.open(log, CLEAN);
    await client.open(log, FAULTY);
    const found = await client.until("the faults", () =>
      client.published.findLast((it) => it.diagnostics.length > 0),
    );
    expect(codesOf(found.diagnostics)).toEqual(["diode-out-of-window", "unknown-designator"]);
    await client.close(log);
    await client.close(log);
    await client.change(log, 9, { text: FAULTY });
    const textDocument = { uri: log };
    expect(await client.request("textDocument/hover", { textDocument, position: HOVER })).toBeNull();
    expect(client.published.at(-1)).toEqual({ uri: log, diagnostics: [] });
    expect(client.log).toEqual([]);
  });

  test("a command nobody knows is an error, not a silence", async () => {
    alone = await startClient();
    await expect(
      alone.request("workspace/executeCommand", { command: "mendlog.noSuchThing" }),
    ).rejects.toMatchObject({ code: -32602 });
  });
});

describe("names of documents", () => {
  let shared: Bench;
  beforeAll(async () => {
    shared = await startBench("");
  });
  afterAll(() => shared.end());

  test.each([
    ["with blanks and brackets", "bench%20%28a%29/log%20%5B1%5D.md"],
    ["escaped more than need be", "%6Cogs/%6Cog.md"],
    ["with a stray percent sign", "100%/log.md"],
    ["beyond ASCII", "%C3%B6%F0%9F%98%80/log.md"],
  ])("%s", async (_name, path) => {
    const { client, root } = shared;
    const log = `${root}/${path}`;
    await client.open(log, FAULTY);
    expect(codesOf(await client.diagnostics(log))).toEqual(["diode-out-of-window", "unknown-designator"]);
    const textDocument = { uri: log };
    const places = await client.request("textDocument/references", {
      textDocument,
      position: HOVER,
      context: { includeDeclaration: false },
    });
    expect(places.map((it: { uri: string }) => it.uri)).toContain(log);
    await client.close(log);
  });

  test.each([
    ["never saved", "untitled:Untitled-1"],
    ["on another machine", "vscode-remote://ssh-remote%2Bbench/home/a/log.md"],
    ["on a drive, upper case", "file:///C:/logs/a.md"],
    ["on a drive, escaped", "file:///c%3A/logs/a.md"],
    ["on a share", "file://server/share/a.md"],
    ["out of git", "git:/logs/a.md?%7B%22ref%22%3A%22HEAD%22%7D"],
    ["with a fragment", "vscode-vfs://host/a.md#x"],
  ])("%s", async (_name, uri) => {
    const { client } = shared;
    await client.open(uri, FAULTY);
    // The board is found in the folder: what a log is judged by is not bound to where it lies.
    const found = await client.diagnostics(uri);
    expect(codesOf(found)).toContain("diode-out-of-window");
    const textDocument = { uri };
    const renamed = await client.request("textDocument/rename", {
      textDocument,
      position: HOVER,
      newName: "U88",
    });
    expect(Object.keys(renamed.changes)).toContain(uri);
    await client.request("textDocument/documentLink", { textDocument });
    await client.change(uri, 2, { range: { start: HOVER, end: HOVER }, text: "9" });
    await client.diagnostics(uri, 2);
    await client.close(uri);
    expect(client.log).toEqual([]);
  });
});

describe("folders", () => {
  const initialize = async (params: object) => {
    bench = await startBench("");
    alone = await startClient({ ready: false });
    const root = fileURLToPath(bench.root);
    const all = JSON.parse(
      JSON.stringify({ ...NEITHER, ...params }).replaceAll("ROOT", JSON.stringify(root).slice(1, -1)),
    );
    if (all.rootUri) all.rootUri = bench.root;
    await alone.request("initialize", all);
    await alone.notify("initialized", {});
    const log = bench.uri("log.md");
    await alone.open(log, FAULTY);
    return codesOf(await alone.diagnostics(log));
  };

  test("told by an old client as a path, with signs that mean something in a uri", async () => {
    bench = await startBench(
      `//- a #1 50% ?/more.board.yaml\n${EXAMPLE_BOARD.replace("id: example", "id: odd")}`,
    );
    alone = await startClient({ ready: false });
    const rootPath = `${fileURLToPath(bench.root)}/a #1 50% ?`;
    await alone.request("initialize", { processId: null, rootPath, capabilities: {} });
    await alone.notify("initialized", {});
    await alone.open("file:///log.md", FAULTY.replace("board: example", "board: odd"));
    expect(codesOf(await alone.diagnostics("file:///log.md"))).not.toContain("unknown-board");
  });

  test("told as a root, or not at all", async () => {
    expect(await initialize({ rootUri: "set" })).not.toContain("unknown-board");
    bench?.end();
    alone?.kill();
    expect(await initialize({ rootPath: "ROOT" })).not.toContain("unknown-board");
    bench?.end();
    alone?.kill();
    expect(await initialize({})).toContain("unknown-board");
    bench?.end();
    alone?.kill();
    expect(await initialize({ workspaceFolders: null })).toContain("unknown-board");
  });

  test("come and go while a log is open", async () => {
    bench = await startBench("", { folders: [], capabilities: { workspace: { workspaceFolders: true } } });
    const { client, root } = bench;
    await client.open("untitled:log", FAULTY);
    expect(codesOf(await client.diagnostics("untitled:log"))).toContain("unknown-board");
    const told = (codes: string[]) =>
      client.until(codes.join(), () => {
        const now = codesOf(client.published.at(-1)?.diagnostics ?? []);
        return now.join() === codes.join() ? true : undefined;
      });
    const folder = { uri: root, name: "bench" };
    await client.notify("workspace/didChangeWorkspaceFolders", { event: { added: [folder], removed: [] } });
    await told(["diode-out-of-window", "unknown-designator"]);
    await client.notify("workspace/didChangeWorkspaceFolders", { event: { added: [], removed: [folder] } });
    await client.until("the unknown board", () =>
      codesOf(client.published.at(-1)?.diagnostics ?? []).includes("unknown-board") ? true : undefined,
    );
    expect(client.log).toEqual([]);
  });
});
