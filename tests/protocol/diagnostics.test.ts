import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, test } from "vitest";
import { uriOf } from "../../server/src/workspace/node-host";
import { type Bench, CLEAN, codesOf, FAULTY, startBench } from "./bench";
import { COMMANDS, FULL_CAPABILITIES, startClient, type TestClient } from "./client.js";

let bench: Bench | undefined;
let alone: TestClient | undefined;
afterEach(() => {
  bench?.end();
  alone?.kill();
  bench = alone = undefined;
});

const start = async (files = "", options: Parameters<typeof startBench>[1] = {}) => {
  bench = await startBench(files, options);
  return bench;
};
const pull = (client: TestClient, uri: string, previousResultId?: string) =>
  client.request("textDocument/diagnostic", { textDocument: { uri }, previousResultId });
/** The reading "1.42" of the faulty log. */
const READING = { start: { line: 10, character: 14 }, end: { line: 10, character: 18 } };

describe("a client that waits for diagnostics", () => {
  test.each(Object.entries(COMMANDS))("is sent them by the %s as it types", async (_name, command) => {
    const { client, uri } = await start("", { command });
    const log = uri("log.md");
    expect(client.initialized.capabilities.diagnosticProvider).toBeUndefined();
    await client.open(log, FAULTY);
    const first = await client.diagnostics(log);
    expect(codesOf(first)).toEqual(["diode-out-of-window", "unknown-designator"]);
    const open = first.find(({ code }) => code === "diode-out-of-window");
    expect(open).toMatchObject({ range: READING, severity: 2, source: "mendlog" });
    expect(open?.message).toContain("1.42 V");
    // Not offered by this client, so it must not be sent.
    expect(open).not.toHaveProperty("codeDescription");
    expect(open).not.toHaveProperty("relatedInformation");

    await client.change(log, 2, { range: READING, text: "0.59" });
    expect(codesOf(await client.diagnostics(log, 2))).toEqual(["unknown-designator"]);
    expect(client.published.at(-1)?.version).toBe(2);

    await client.close(log);
    await client.until(
      "The emptied list",
      () => client.published.at(-1)?.diagnostics.length === 0 || undefined,
    );
    expect(await client.stop()).toBe(0);
  });

  test("sees the demo's logs as the command line does", async () => {
    const demo = fileURLToPath(new URL("../../demo", import.meta.url));
    alone = await startClient({ folders: [uriOf(demo)] });
    const log = uriOf(`${demo}/logs/2026-018-controller.md`);
    await alone.open(log, readFileSync(`${demo}/logs/2026-018-controller.md`, "utf8"));
    const codes = codesOf(await alone.diagnostics(log));
    for (const code of ["unreadable-value", "pin-outside-package", "wrong-unit", "unknown-designator"]) {
      expect(codes).toContain(code);
    }
    expect(codes).not.toContain("unknown-board");
  });

  test("gets fewer answers than changes where they arrive together, the last one right", async () => {
    const { client, uri } = await start();
    const log = uri("log.md");
    await client.open(log, FAULTY);
    await client.diagnostics(log);
    const before = client.published.length;
    for (let version = 2; version <= 21; version++) {
      void client.change(log, version, { range: READING, text: `1.${String(version).padStart(2, "0")}` });
    }
    const last = await client.diagnostics(log, 21);
    expect(last.find(({ code }) => code === "diode-out-of-window")?.message).toContain("1.21 V");
    expect(client.published.length - before).toBeLessThan(20);
  });

  test("has its board file's mistakes shown, and its logs judged by what is typed there", async () => {
    const { client, uri } = await start();
    const log = uri("log.md");
    const board = uri("example.board.yaml");
    await client.open(log, CLEAN);
    expect(await client.diagnostics(log)).toEqual([]);
    const { EXAMPLE_BOARD } = await import("../../server/src/checks/example-board");
    await client.open(board, EXAMPLE_BOARD.replace("id: example", "id: other"), "yaml");
    const judged = await client.until("The log's answer", () => {
      const latest = client.published.findLast((it) => it.uri === log)?.diagnostics;
      return latest?.length ? latest : undefined;
    });
    expect(codesOf(judged)).toEqual(["unknown-board"]);
    await client.change(board, 2, { text: EXAMPLE_BOARD.replace("tolerance: 5 %", "tolerance: wide") });
    const mistakes = await client.diagnostics(board, 2);
    expect(mistakes.length).toBeGreaterThan(0);
    expect(mistakes[0]?.range.start.line).toBe(
      EXAMPLE_BOARD.split("\n").findIndex((it) => it.includes("5 %")),
    );

    // Closed without saving, the file on the disk counts again.
    await client.close(board);
    await client.until("The log's second answer", () =>
      client.published.findLast((it) => it.uri === log)?.diagnostics.length === 0 ? true : undefined,
    );
  });
});

describe("a client that asks for diagnostics", () => {
  const capabilities = FULL_CAPABILITIES;

  test("is told when nothing changed", async () => {
    const { client, uri } = await start("", { capabilities });
    const log = uri("log.md");
    await client.open(log, FAULTY);
    let first = await pull(client, log);
    expect(first).toMatchObject({ kind: "full", resultId: expect.any(String) });
    expect(codesOf(first.items)).toEqual(["diode-out-of-window", "unknown-designator"]);
    // The other logs are read in the background, once, and what they say of the board is part of the report.
    for (let tries = 0; tries < 50; tries++) {
      await new Promise((go) => setTimeout(go, 100));
      const then = await pull(client, log, first.resultId);
      if (then.kind === "unchanged" && tries > 5) break;
      if (then.kind === "full") first = then;
    }

    for (const { code, codeDescription } of first.items) {
      expect(readFileSync(fileURLToPath(codeDescription.href), "utf8")).toContain(code);
    }

    expect(await pull(client, log, first.resultId)).toEqual({ kind: "unchanged", resultId: first.resultId });

    await client.change(log, 2, { range: READING, text: "0.59" });
    const second = await pull(client, log, first.resultId);
    expect(second.kind).toBe("full");
    expect(second.resultId).not.toBe(first.resultId);
    expect(codesOf(second.items)).toEqual(["unknown-designator"]);

    // The same text again is the same result, as after an undo.
    await client.change(log, 3, { range: READING, text: "1.42" });
    expect(await pull(client, log, first.resultId)).toEqual({ kind: "unchanged", resultId: first.resultId });
    expect(client.published).toEqual([]);
  });

  test("is asked to ask again when a board file changes on disk", async () => {
    const { client, uri, write, watched } = await start("", { capabilities });
    const log = uri("log.md");
    await client.open(log, FAULTY);
    const first = await pull(client, log);
    const { EXAMPLE_BOARD } = await import("../../server/src/checks/example-board");
    write("example.board.yaml", EXAMPLE_BOARD.replace("R12: {", "U41: { device: 74LS04 }\n  R12: {"));
    await watched("example.board.yaml", 2);
    await client.until("The refresh", () => (client.refreshes > 0 ? true : undefined));
    const second = await pull(client, log, first.resultId);
    expect(codesOf(second.items)).toEqual(["diode-out-of-window"]);
  });

  test("has its severities heeded, now and when they change", async () => {
    const settings: Record<string, unknown> = {
      mendlog: { severity: { "unknown-designator": "hint", "diode-out-of-window": "default" } },
    };
    const { client, uri } = await start("", { capabilities, settings });
    const log = uri("log.md");
    await client.open(log, FAULTY);
    const severities = async () => {
      const { items } = await pull(client, log);
      return Object.fromEntries(
        items.map(({ code, severity }: { code: string; severity: number }) => [code, severity]),
      );
    };
    expect(await severities()).toEqual({ "diode-out-of-window": 2, "unknown-designator": 4 });

    client.settings.mendlog = {
      severity: { "unknown-designator": "off", "no-such": "error", "unknown-board": 7 },
    };
    const refreshes = client.refreshes;
    await client.notify("workspace/didChangeConfiguration", { settings: null });
    await client.until("The refresh", () => (client.refreshes > refreshes ? true : undefined));
    expect(await severities()).toEqual({ "diode-out-of-window": 2 });
    expect(client.log.join("\n")).toContain('"no-such"');
    expect(client.log.join("\n")).toContain('gives "unknown-board" the level 7');
  });

  test("has the severities of a log's own folder heeded, and the options of its checks", async () => {
    const settings: Record<string, unknown> = { mendlog: { severity: { "diode-out-of-window": "hint" } } };
    const { client, uri } = await start("", { capabilities, settings });
    const log = uri("log.md");
    settings[`mendlog ${uri("").replace(/\/$/, "")}`] = {
      severity: { "diode-out-of-window": "error", "unknown-designator": "off" },
      options: { "net-disagreement": { margin: 12, nothing: 1 }, "no-check": { x: 1 } },
    };
    const refreshes = client.refreshes;
    await client.notify("workspace/didChangeConfiguration", { settings: null });
    await client.until("The refresh", () => (client.refreshes > refreshes ? true : undefined));
    await client.open(log, FAULTY);
    expect((await pull(client, log)).items).toMatchObject([{ code: "diode-out-of-window", severity: 1 }]);
    await client.open("file:///elsewhere/log.md", FAULTY);
    const outside = (await pull(client, "file:///elsewhere/log.md")).items;
    const window = outside.find(({ code }: { code: string }) => code === "diode-out-of-window");
    expect(window?.severity ?? 4).toBe(4);
    expect(client.log.join("\n")).toContain('"net-disagreement" has no "nothing" to choose, only margin.');
    expect(client.log.join("\n")).toContain('"no-check" is no check.');

    const apart = FAULTY.replace(/\| U14 \| 2 .*/, "| U14 | 2   | 0.45    |\n| U15 | 1   | 0.68    |");
    await client.change(log, 2, { text: apart });
    expect(codesOf((await pull(client, log)).items)).not.toContain("net-disagreement");
    delete settings[`mendlog ${uri("").replace(/\/$/, "")}`];
    const before = client.refreshes;
    await client.notify("workspace/didChangeConfiguration", { settings: null });
    await client.until("The refresh", () => (client.refreshes > before ? true : undefined));
    expect(codesOf((await pull(client, log)).items)).toContain("net-disagreement");
  });

  test("gets the file's own answer for a log that was just closed, and none for one that is gone", async () => {
    const { client, uri, write } = await start("", { capabilities });
    write("log.md", FAULTY);
    const log = uri("log.md");
    await client.open(log, CLEAN);
    expect((await pull(client, log)).items).toEqual([]);
    await client.close(log);
    expect(codesOf((await pull(client, log)).items)).toEqual(["diode-out-of-window", "unknown-designator"]);
    expect((await pull(client, uri("gone.md"))).items).toEqual([]);
  });

  test("gets related places and tags where it takes them", async () => {
    const { client, uri } = await start("", { capabilities });
    const log = uri("log.md");
    await client.open(log, CLEAN.replace("| Ref", "<!-- mendlog-allow unknown-designator -->\n\n| Ref"));
    const { items } = await pull(client, log);
    expect(items).toMatchObject([{ code: "unused-suppression", tags: [1] }]);
    const twice = CLEAN.replace("| U14 | 2   |", "| U14 | 1   |");
    await client.change(log, 2, { text: twice });
    const again = (await pull(client, log)).items.find(
      ({ code }: { code: string }) => code === "duplicate-reading",
    );
    expect(again?.relatedInformation?.[0]?.location).toEqual({
      uri: log,
      range: { start: { line: 9, character: 14 }, end: { line: 9, character: 18 } },
    });
  });
});

describe("Markdown that is no log", () => {
  test("gets nothing, whatever is asked of it", async () => {
    const { client, uri } = await start("", { capabilities: FULL_CAPABILITIES });
    const notes = uri("notes.md");
    await client.open(notes, FAULTY.replace("mendlog: 1\n", ""));
    expect(await pull(client, notes)).toEqual({ kind: "full", resultId: "none", items: [] });
    const textDocument = { uri: notes };
    const position = { line: 8, character: 3 };
    expect(await client.request("textDocument/hover", { textDocument, position })).toBeNull();
    expect((await client.request("textDocument/completion", { textDocument, position })).items).toEqual([]);
    expect(await client.request("textDocument/documentSymbol", { textDocument })).toEqual([]);
    expect(await client.request("textDocument/foldingRange", { textDocument })).toEqual([]);

    // It becomes a log as soon as it says so, and stops being one.
    await client.change(notes, 2, { text: FAULTY });
    expect((await pull(client, notes)).items).toHaveLength(2);
    await client.change(notes, 3, { text: FAULTY.replace("mendlog", "mend") });
    expect(await pull(client, notes)).toEqual({ kind: "full", resultId: "none", items: [] });
  });

  test("is not parsed: the same text costs many times as much once it is a log", async () => {
    const { client, uri } = await start();
    const body = `# Notes\n\n| Ref | Pin | Reading |\n|---|---|---|\n${"| U14 | 1 | 0.58 |\n".repeat(8000)}`;
    const cost = async (name: string, text: string) => {
      const at = performance.now();
      await client.open(uri(name), text);
      await client.diagnostics(uri(name));
      return performance.now() - at;
    };
    await cost("first.md", FAULTY);
    // The smallest counts: a busy machine only adds, and a little is much of the little that the notes cost.
    const each: number[] = [];
    for (const name of ["a", "b", "c", "d", "e"]) each.push(await cost(`notes-${name}.md`, body));
    const notes = Math.min(...each);
    const log = await cost("log.md", `---\nmendlog: 1\nboard: example\n---\n${body}`);
    expect(log / notes).toBeGreaterThan(10);
  });

  test("is served once it is a log, in a document that was never saved", async () => {
    const { client } = await start();
    const untitled = "untitled:Untitled-1";
    await client.open(untitled, FAULTY);
    expect(codesOf(await client.diagnostics(untitled))).toEqual([
      "diode-out-of-window",
      "unknown-designator",
    ]);
  });
});
