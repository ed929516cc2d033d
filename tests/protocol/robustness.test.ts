import { fork } from "node:child_process";
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, test } from "vitest";
import {
  CancellationTokenSource,
  createMessageConnection,
  IPCMessageReader,
  IPCMessageWriter,
} from "vscode-jsonrpc/node";
import type { InitializeResult } from "vscode-languageserver-protocol";
import { exampleLog } from "../../server/src/checks/example-board";
import { type Bench, codesOf, FAULTY, startBench } from "./bench";
import { COMMANDS, FULL_CAPABILITIES, startClient, type TestClient } from "./client.js";

let bench: Bench | undefined;
let alone: TestClient | undefined;
afterEach(() => {
  bench?.end();
  alone?.kill();
  bench = alone = undefined;
});

/** The server still reads a log and says what is wrong with it. */
async function expectAlive({ client, uri }: Bench): Promise<void> {
  const log = uri("still-there.md");
  await client.open(log, FAULTY);
  expect(codesOf(await client.diagnostics(log))).toEqual(["diode-out-of-window", "unknown-designator"]);
  expect(client.alive).toBe(true);
}

const LINE = "x".repeat(10 * 1024 * 1024);
const BOMB = [
  "mendlog-board: 1",
  "a0: &a0 [x, x, x, x, x, x, x, x, x, x]",
  ...Array.from({ length: 12 }, (_, n) => `a${n + 1}: &a${n + 1} [${Array(10).fill(`*a${n}`).join(", ")}]`),
].join("\n");

describe("whatever a document holds, the server goes on", () => {
  test.each([
    [
      "binary text",
      "log.md",
      `---\nmendlog: 1\n---\n${String.fromCharCode(...Array.from({ length: 5000 }, (_, n) => (n * 7919) % 65536))}`,
    ],
    ["half a surrogate pair in the front matter", "log.md", "---\nmendlog: 1\nowner: \uD800\n---\n\uDC00"],
    ["a line of 10 MB", "log.md", `---\nmendlog: 1\n---\n${LINE}`],
    ["10 MB of front matter", "log.md", `---\nmendlog: 1\nowner: ${LINE}\n---\n`],
    [
      "a table of one row and 20,000 columns",
      "log.md",
      exampleLog(`## Diode check\n\n${"|a".repeat(20_000)}|\n${"|-".repeat(20_000)}|\n`),
    ],
    ["quotes in quotes in quotes", "log.md", exampleLog(`${">".repeat(20_000)} x`)],
    ["a board file of aliases that grow", "bomb.board.yaml", BOMB],
    ["a board file nested 50,000 deep", "deep.board.yaml", `mendlog-board: 1\nid: ${"[".repeat(50_000)}`],
    ["a board file that is no YAML", "odd.board.yaml", "\u0000\u0001: [}\n\t- :"],
    ["nothing", "log.md", ""],
  ])("%s", async (_name, path, text) => {
    bench = await startBench("");
    const { client, uri } = bench;
    await client.open(uri(path), text, path.endsWith(".md") ? "markdown" : "yaml");
    const found = await client.diagnostics(uri(path));
    expect(Array.isArray(found)).toBe(true);
    const textDocument = { uri: uri(path) };
    const position = { line: 3, character: 1 };
    for (const method of ["hover", "completion", "definition"]) {
      await client.request(`textDocument/${method}`, { textDocument, position });
    }
    for (const method of ["documentSymbol", "foldingRange"]) {
      await client.request(`textDocument/${method}`, { textDocument });
    }
    await client.change(uri(path), 2, {
      range: { start: { line: 2, character: 1 }, end: { line: 2, character: 1 } },
      text: "\u0000",
    });
    await client.diagnostics(uri(path), 2);
    expect(client.log.filter((line) => / failed: /.test(line))).toEqual([]);
    await expectAlive(bench);
  });

  test("such files on the disk are told of and end nothing", async () => {
    bench = await startBench(`\n//- bomb.board.yaml\n${BOMB}\n//- line.md\n---\nmendlog: 1\n---\n${LINE}\n`, {
      capabilities: FULL_CAPABILITIES,
    });
    const { client, uri, write, watched } = bench;
    write(
      "noise.md",
      Uint8Array.from({ length: 65536 }, (_, n) => (n * 31) % 256),
    );
    write(
      "noise.board.yaml",
      Uint8Array.from({ length: 65536 }, (_, n) => (n * 31) % 256),
    );
    await watched("noise.board.yaml", 1);
    await watched("noise.md", 1);
    const { items } = await client.request("workspace/diagnostic", { previousResultIds: [] });
    const bomb = items.find((it: { uri: string }) => it.uri === uri("bomb.board.yaml"));
    expect(bomb.items.length).toBeGreaterThan(0);
    const line = items.find((it: { uri: string }) => it.uri === uri("line.md"));
    expect(codesOf(line.items)).toContain("section-not-read");
    expect(await client.stop()).toBe(0);
  });
});

describe("whatever a client sends, the server goes on", () => {
  test("places outside the text, unknown documents, ranges the wrong way round", async () => {
    bench = await startBench("");
    const { client, uri } = bench;
    const log = uri("log.md");
    await client.change(log, 1, { text: "never opened" });
    await client.close(log);
    await client.open(log, FAULTY);
    await client.open(log, FAULTY);
    await client.change(log, 2, {
      range: { start: { line: 9000, character: 5 }, end: { line: 2, character: 9000 } },
      text: "\n",
    });
    await client.diagnostics(log, 2);
    for (const position of [
      { line: 9000, character: 0 },
      { line: -3, character: -4 },
      { line: 1.5, character: Number.MAX_SAFE_INTEGER },
    ]) {
      for (const method of ["hover", "completion", "definition"]) {
        await client.request(`textDocument/${method}`, { textDocument: { uri: log }, position });
      }
    }
    const textDocument = { uri: "nonsense" };
    const position = { line: 0, character: 0 };
    expect(await client.request("textDocument/hover", { textDocument, position })).toBeNull();
    await expect(client.request("textDocument/noSuchThing", {})).rejects.toMatchObject({ code: -32601 });
    await client.notify("$/noSuchThing", {});
    // Not the protocol's shapes at all.
    await client.request("textDocument/hover", {}).catch(() => {});
    await client.notify("textDocument/didOpen", { textDocument: 3 });
    await client.notify("textDocument/didChange", {});
    await client.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: "%%%", type: 9 }, {}] });
    await client.notify("workspace/didChangeConfiguration", { settings: [1, { mendlog: "x" }] });
    await expectAlive(bench);
  });

  test("a message that is no JSON", async () => {
    bench = await startBench("");
    bench.client.write("Content-Length: 9\r\n\r\n{nonsense");
    await expectAlive(bench);
  });

  test("a request that is cancelled at once", async () => {
    bench = await startBench("", { capabilities: FULL_CAPABILITIES });
    const { client, uri } = bench;
    const log = uri("log.md");
    await client.open(log, FAULTY);
    const textDocument = { uri: log };
    const source = new CancellationTokenSource();
    const cancelled = client.request("textDocument/diagnostic", { textDocument }, source.token);
    source.cancel();
    await expect(cancelled).rejects.toMatchObject({ code: -32800 });
    expect((await client.request("textDocument/diagnostic", { textDocument })).items).toHaveLength(2);
  });

  test("an edit while an answer is being made: the newest text is answered for", async () => {
    bench = await startBench("", { capabilities: FULL_CAPABILITIES });
    const { client, uri } = bench;
    const log = uri("log.md");
    await client.open(log, FAULTY);
    const textDocument = { uri: log };
    const answers = [];
    for (let version = 2; version < 30; version++) {
      void client.change(log, version, { text: FAULTY.replace("1.42", `1.${version + 10}`) });
      const source = new CancellationTokenSource();
      answers.push(
        client
          .request("textDocument/diagnostic", { textDocument }, source.token)
          .catch((error) => error.code),
      );
      if (version < 29) source.cancel();
    }
    const results = await Promise.all(answers);
    expect(JSON.stringify(results.at(-1).items)).toContain("1.39 V");
    for (const result of results.slice(0, -1)) expect(result).toBe(-32800);
  });
});

describe("the end of a session", () => {
  test.each(Object.entries(COMMANDS))(
    "%s: 0 after a shutdown, 1 without, 1 when the client is gone",
    async (_, command) => {
      alone = await startClient({ command });
      expect(await alone.stop()).toBe(0);

      alone = await startClient({ command });
      await alone.notify("exit");
      expect(await alone.exited).toBe(1);

      alone = await startClient({ command });
      alone.connection.end();
      expect(await alone.exited).toBe(1);
    },
  );

  test("nothing is served before it begins", async () => {
    alone = await startClient({ ready: false });
    await expect(alone.request("textDocument/hover", {})).rejects.toMatchObject({ code: -32002 });
    expect(alone.alive).toBe(true);
  });

  test("over the editor's own channel too, and at once when the editor is gone", async () => {
    const begin = async () => {
      const child = fork(COMMANDS.server[0]!, ["--node-ipc"], {
        stdio: ["ignore", "ignore", "ignore", "ipc"],
      });
      const status = new Promise((resolve) => child.on("exit", resolve));
      const connection = createMessageConnection(new IPCMessageReader(child), new IPCMessageWriter(child));
      connection.listen();
      const { capabilities } = await connection.sendRequest<InitializeResult>("initialize", {
        processId: process.pid,
        rootUri: null,
        capabilities: {},
      });
      expect(capabilities.hoverProvider).toBe(true);
      return { child, connection, status };
    };
    const orderly = await begin();
    await orderly.connection.sendRequest("shutdown");
    await orderly.connection.sendNotification("exit");
    expect(await orderly.status).toBe(0);

    const gone = await begin();
    gone.child.disconnect();
    expect(await gone.status).toBe(1);
  });

  test("standard output carries messages only", async () => {
    alone = await startClient();
    expect(await alone.stop()).toBe(0);
    expect(alone.stderr).toBe("");
  });
});

test.each(Object.entries(COMMANDS))(
  "the %s runs where no package is installed",
  async (_name, [file, ...args]) => {
    bench = await startBench("");
    bench.write("dist/program.cjs", readFileSync(file!));
    for (const layer of ["core.cjs", "protocol.cjs"])
      bench.write(`dist/${layer}`, readFileSync(join(dirname(file!), layer)));
    alone = await startClient({ command: [fileURLToPath(bench.uri("dist/program.cjs")), ...args] });
    await alone.open("file:///log.md", FAULTY);
    expect(codesOf(await alone.diagnostics("file:///log.md"))).toContain("unknown-board");
  },
);
