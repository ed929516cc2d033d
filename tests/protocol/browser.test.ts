// The server as a browser's worker has it: a script of its own in a place without Node, its files asked of the client.
import { readFileSync } from "node:fs";
import { createContext, runInContext } from "node:vm";
import { describe, expect, test } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { LIST_FILES, READ_BYTES, READ_TEXT } from "../../server/src/protocol/custom-requests/files";
import { FAULTY } from "./bench";

// One behind the other, as the extension starts the worker.
const SCRIPT = ["core.cjs", "protocol.cjs", "web/server.js"]
  .map((name) => readFileSync(new URL(`../../dist/${name}`, import.meta.url), "utf8"))
  .join("\n");
const ROOT = "vscode-vfs://somewhere/shop";

interface Message {
  readonly id?: number | string;
  readonly method?: string;
  // biome-ignore lint/suspicious/noExplicitAny: whatever the server says
  readonly params?: any;
  // biome-ignore lint/suspicious/noExplicitAny: whatever the server says
  readonly result?: any;
}

/** What a worker has, and nothing else: no process, no Buffer, no require, no document, no setImmediate. */
function startWorker(files: Readonly<Record<string, string>>) {
  const said: Message[] = [];
  const asked: string[] = [];
  const waiting = new Set<() => void>();
  const answers: Readonly<Record<string, (params: { uri: string }) => unknown>> = {
    [LIST_FILES.method]: () => Object.keys(files),
    [READ_TEXT.method]: ({ uri }) => files[uri] ?? null,
    [READ_BYTES.method]: () => ({ ok: false, reason: "absent" }),
  };
  const self = {
    onmessage: (_: { readonly data: unknown }) => {},
    addEventListener() {},
    postMessage(sent: Message) {
      // As the real thing does: a copy, later.
      const message: Message = structuredClone(sent);
      said.push(message);
      if (message.method !== undefined && message.id !== undefined) {
        asked.push(message.method);
        const result = answers[message.method]?.(message.params) ?? null;
        setTimeout(() => self.onmessage({ data: { jsonrpc: "2.0", id: message.id, result } }));
      }
      for (const look of waiting) look();
    },
  };
  const worker = {
    self,
    console,
    setTimeout,
    clearTimeout,
    setInterval,
    clearInterval,
    queueMicrotask,
    structuredClone,
    performance,
    MessageChannel,
    TextDecoder,
    TextEncoder,
    URL,
  };
  runInContext(SCRIPT, createContext(worker), { filename: "server.js" });

  const heard = (is: (message: Message) => boolean): Promise<Message> =>
    new Promise((resolve) => {
      const look = () => {
        const found = said.find(is);
        if (!found) return;
        waiting.delete(look);
        resolve(found);
      };
      waiting.add(look);
      look();
    });
  let last = 0;
  const notify = (method: string, params: unknown) =>
    self.onmessage({ data: { jsonrpc: "2.0", method, params } });
  const request = async (method: string, params: unknown) => {
    last += 1;
    const id = last;
    self.onmessage({ data: { jsonrpc: "2.0", id, method, params } });
    return (await heard((it) => it.id === id && it.method === undefined)).result;
  };
  return { asked, heard, notify, request };
}

describe("the server in a worker of the browser", () => {
  test("judges a log by a board file that it asks the client for, wherever that lies", async () => {
    const uri = `${ROOT}/logs/one.md`;
    const { asked, heard, notify, request } = startWorker({
      [`${ROOT}/example.board.yaml`]: EXAMPLE_BOARD,
      [uri]: FAULTY,
    });
    const { capabilities } = await request("initialize", {
      processId: null,
      rootUri: ROOT,
      workspaceFolders: [{ uri: ROOT, name: "shop" }],
      capabilities: {},
      initializationOptions: { pages: "https://example.org/docs/checks" },
    });
    expect(capabilities.hoverProvider).toBeTruthy();
    notify("initialized", {});
    notify("textDocument/didOpen", {
      textDocument: { uri, languageId: "markdown", version: 1, text: FAULTY },
    });
    const { params } = await heard(
      (it) => it.method === "textDocument/publishDiagnostics" && it.params.diagnostics.length > 0,
    );
    const found = params.diagnostics.map(({ code, message }: { code: string; message: string }) => ({
      code,
      message,
    }));
    expect(found).toContainEqual({
      code: "diode-out-of-window",
      message: expect.stringContaining("U14 pin 2"),
    });
    expect(asked).toEqual(expect.arrayContaining([LIST_FILES.method, READ_TEXT.method]));
    const hover = await request("textDocument/hover", {
      textDocument: { uri },
      position: { line: FAULTY.split("\n").findIndex((line) => line.startsWith("## ")), character: 4 },
    });
    expect(JSON.stringify(hover)).toMatch(/ground/);
  });
});
