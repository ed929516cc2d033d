// A client for tests and measurements: starts the built server as any editor would and talks to it over stdio.
import { spawn } from "node:child_process";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";

const { createMessageConnection, StreamMessageReader, StreamMessageWriter } = createRequire(import.meta.url)(
  "vscode-jsonrpc/node",
);

const fromRoot = (path) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** The ways to start the server; both must serve the same. */
export const COMMANDS = {
  server: [fromRoot("dist/server.cjs"), "--stdio"],
  cli: [fromRoot("dist/cli.cjs"), "serve", "--stdio"],
};

/** Milliseconds; less than a test's own limit, so that what did not come is named. Long for a busy machine's sake. */
const PATIENCE = 45_000;

export async function startClient({
  capabilities = {},
  initializationOptions,
  folders = [],
  settings = {},
  command = COMMANDS.server,
  nodeOptions = [],
  ready = true,
} = {}) {
  const child = spawn(process.execPath, [...nodeOptions, ...command], { stdio: ["pipe", "pipe", "pipe"] });
  const exited = new Promise((resolve) => child.on("exit", (code) => resolve(code)));
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const log = [];
  const published = [];
  const watchers = new Set();
  const registrations = [];
  const progress = [];
  let refreshes = 0;
  const tell = () => {
    for (const watcher of watchers) watcher();
  };
  let stderr = "";
  child.stderr.on("data", (chunk) => {
    stderr += chunk;
  });
  connection.onNotification("window/logMessage", ({ message }) => {
    log.push(message);
    tell();
  });
  connection.onNotification("textDocument/publishDiagnostics", (params) => {
    published.push(params);
    tell();
  });
  connection.onNotification("$/progress", (params) => {
    progress.push(params);
    tell();
  });
  connection.onRequest("client/registerCapability", (params) => {
    registrations.push(...params.registrations);
    tell();
    return null;
  });
  connection.onRequest("client/unregisterCapability", (params) => {
    for (const { id } of params.unregisterations) {
      const at = registrations.findIndex((it) => it.id === id);
      if (at >= 0) registrations.splice(at, 1);
    }
    tell();
    return null;
  });
  connection.onRequest("workspace/configuration", ({ items }) =>
    items.map(({ section, scopeUri }) => settings[`${section} ${scopeUri}`] ?? settings[section] ?? null),
  );
  connection.onRequest("window/workDoneProgress/create", () => null);
  connection.onRequest("workspace/diagnostic/refresh", () => {
    refreshes++;
    tell();
    return null;
  });
  connection.listen();

  const client = {
    connection,
    exited,
    log,
    published,
    registrations,
    progress,
    settings,
    pid: child.pid,
    get refreshes() {
      return refreshes;
    },
    get stderr() {
      return stderr;
    },
    get alive() {
      return child.exitCode === null;
    },
    request: (method, params, token) => connection.sendRequest(method, params, ...(token ? [token] : [])),
    notify: (method, params) => connection.sendNotification(method, params),
    write: (bytes) => child.stdin.write(bytes),
    open: (uri, text, languageId = "markdown") =>
      connection.sendNotification("textDocument/didOpen", {
        textDocument: { uri, languageId, version: 1, text },
      }),
    change: (uri, version, ...contentChanges) =>
      connection.sendNotification("textDocument/didChange", {
        textDocument: { uri, version },
        contentChanges,
      }),
    close: (uri) => connection.sendNotification("textDocument/didClose", { textDocument: { uri } }),

    /** Resolves with what `look` gives as soon as that is not undefined; it is asked after every message. */
    until(what, look) {
      return new Promise((resolve, reject) => {
        const finish = (error, value) => {
          clearTimeout(timer);
          watchers.delete(check);
          if (error) reject(error);
          else resolve(value);
        };
        const check = () => {
          const value = look();
          if (value !== undefined) finish(undefined, value);
        };
        const timer = setTimeout(
          () => finish(new Error(`${what} did not come. Log:\n${log.join("\n")}\n${stderr}`)),
          PATIENCE,
        );
        watchers.add(check);
        check();
      });
    },

    /** The diagnostics published for a document, of that version or a later one. */
    diagnostics: (uri, version = 1) =>
      client
        .until(`Diagnostics of ${uri}, version ${version},`, () =>
          published.findLast((it) => it.uri === uri && it.version >= version),
        )
        .then((it) => it.diagnostics),

    /** Ends the session as the protocol says; gives the exit status. */
    async stop() {
      await connection.sendRequest("shutdown");
      await connection.sendNotification("exit");
      return exited;
    },

    kill() {
      connection.dispose();
      child.kill("SIGKILL");
    },
  };

  if (ready) {
    client.initialized = await connection.sendRequest("initialize", {
      processId: process.pid,
      rootUri: folders[0] ?? null,
      workspaceFolders: folders.map((uri) => ({ uri, name: uri.split("/").at(-1) })),
      capabilities,
      initializationOptions,
    });
    await connection.sendNotification("initialized", {});
  }
  return client;
}

/** What VS Code says it can do, as far as it bears on what the server sends. */
export const FULL_CAPABILITIES = {
  workspace: {
    workspaceFolders: true,
    configuration: true,
    didChangeConfiguration: { dynamicRegistration: true },
    didChangeWatchedFiles: { dynamicRegistration: true },
    diagnostics: { refreshSupport: true },
    workspaceEdit: { documentChanges: true },
    symbol: { symbolKind: { valueSet: Array.from({ length: 26 }, (_, n) => n + 1) } },
  },
  textDocument: {
    diagnostic: {
      relatedInformation: true,
      tagSupport: { valueSet: [1, 2] },
      codeDescriptionSupport: true,
    },
    completion: {
      completionItemKind: { valueSet: Array.from({ length: 25 }, (_, n) => n + 1) },
      completionItem: {
        snippetSupport: true,
        labelDetailsSupport: true,
        documentationFormat: ["markdown", "plaintext"],
      },
    },
    hover: { contentFormat: ["markdown", "plaintext"] },
    definition: { linkSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    foldingRange: { lineFoldingOnly: true },
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix", "source.fixAll"] } },
      isPreferredSupport: true,
    },
  },
  window: { workDoneProgress: true },
};
