// One language server in a process of its own, talked to over stdio, with the processor time that it has taken.
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const { createMessageConnection, StreamMessageReader, StreamMessageWriter } = createRequire(import.meta.url)(
  "vscode-jsonrpc/node",
);

/** Ticks a second of the kernel's accounts: 100 on every Linux there is. */
const TICKS = 100;
/** Milliseconds for one answer. */
const PATIENCE = 30_000;

/**
 * @param {string[]} command for Node
 * @param {{ folder: string, configuration?: (section: string) => unknown, settings?: object, pull?: boolean, options?: object, requests?: Record<string, (params: any) => unknown> }} of
 */
export async function startSession(
  command,
  { folder, configuration = () => ({}), settings, pull = false, options = {}, requests = {} },
) {
  const child = spawn(process.execPath, command, { stdio: ["pipe", "pipe", "ignore"] });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const published = new Map();
  const waiting = new Set();
  connection.onNotification("textDocument/publishDiagnostics", ({ uri, diagnostics }) => {
    const before = published.get(uri)?.count ?? 0;
    published.set(uri, { count: before + 1, diagnostics });
    for (const look of waiting) look();
  });
  connection.onRequest("client/registerCapability", () => null);
  connection.onRequest("workspace/configuration", ({ items }) =>
    items.map(({ section }) => configuration(section)),
  );
  connection.onRequest("window/workDoneProgress/create", () => null);
  for (const [name, answer] of Object.entries(requests)) connection.onRequest(name, answer);
  connection.listen();

  /** Seconds of processor time of the process and all of its threads. */
  const cpu = () => {
    const fields = readFileSync(`/proc/${child.pid}/stat`, "utf8")
      .replace(/^.*\) /, "")
      .split(" ");
    return (Number(fields[11]) + Number(fields[12])) / TICKS;
  };

  const until = (is) =>
    new Promise((resolve, reject) => {
      const timer = setTimeout(
        () =>
          reject(
            new Error(`nothing came in ${PATIENCE / 1000} s, in which it took ${cpu().toFixed(1)} s of CPU`),
          ),
        PATIENCE,
      );
      const look = () => {
        if (!is()) return;
        clearTimeout(timer);
        waiting.delete(look);
        resolve();
      };
      waiting.add(look);
      look();
    });

  const { capabilities } = await connection.sendRequest("initialize", {
    processId: process.pid,
    rootUri: folder,
    workspaceFolders: [{ uri: folder, name: "bench" }],
    capabilities: {
      workspace: { configuration: true, workspaceFolders: true },
      textDocument: { publishDiagnostics: {}, ...(pull ? { diagnostic: {} } : {}) },
    },
    initializationOptions: options,
  });
  const pulls = pull && capabilities.diagnosticProvider !== undefined;
  await connection.sendNotification("initialized", {});
  if (settings) await connection.sendNotification("workspace/didChangeConfiguration", { settings });

  return {
    cpu,
    /** Resolves with the findings that came for this version of the text. */
    async findings(uri, afterCount) {
      if (pulls)
        return (await connection.sendRequest("textDocument/diagnostic", { textDocument: { uri } })).items;
      await until(() => (published.get(uri)?.count ?? 0) > afterCount);
      return published.get(uri).diagnostics;
    },
    count: (uri) => published.get(uri)?.count ?? 0,
    open: (uri, languageId, text) =>
      connection.sendNotification("textDocument/didOpen", {
        textDocument: { uri, languageId, version: 1, text },
      }),
    change: (uri, version, change) =>
      connection.sendNotification("textDocument/didChange", {
        textDocument: { uri, version },
        contentChanges: [change],
      }),
    end() {
      connection.dispose();
      child.kill("SIGKILL");
    },
  };
}
