// The least a client must say to a language server to be told its diagnostics.
import { spawn } from "node:child_process";
import {
  createProtocolConnection,
  type Diagnostic,
  DidOpenTextDocumentNotification,
  DocumentDiagnosticRequest,
  ExitNotification,
  InitializedNotification,
  InitializeRequest,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
  WorkspaceDiagnosticRequest,
} from "vscode-languageserver/node";

/** Opens the documents in `mendlog serve --stdio` with the folder as the workspace and pulls each one's diagnostics. */
export async function pullDiagnostics(
  cli: string,
  folder: string,
  documents: readonly { readonly uri: string; readonly languageId: string; readonly text: string }[],
): Promise<{ diagnostics: ReadonlyMap<string, readonly Diagnostic[]>; exitCode: number | null }> {
  const server = spawn(process.execPath, [cli, "serve", "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
  const ended = new Promise<number | null>((resolve) => server.on("exit", resolve));
  try {
    const client = createProtocolConnection(
      new StreamMessageReader(server.stdout),
      new StreamMessageWriter(server.stdin),
    );
    client.onRequest("client/registerCapability", () => null);
    client.onRequest("workspace/configuration", ({ items }: { items: unknown[] }) => items.map(() => null));
    client.onRequest("window/workDoneProgress/create", () => null);
    client.listen();
    await client.sendRequest(InitializeRequest.type, {
      processId: process.pid,
      rootUri: folder,
      workspaceFolders: [{ uri: folder, name: "bench" }],
      capabilities: { textDocument: { diagnostic: {}, publishDiagnostics: { relatedInformation: true } } },
    });
    await client.sendNotification(InitializedNotification.type, {});
    // The whole workspace first: by then the server has read the other jobs, which some findings go by.
    await client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    const diagnostics = new Map<string, readonly Diagnostic[]>();
    for (const document of documents) {
      const textDocument = { ...document, version: 1 };
      await client.sendNotification(DidOpenTextDocumentNotification.type, { textDocument });
      const report = await client.sendRequest(DocumentDiagnosticRequest.type, {
        textDocument: { uri: document.uri },
      });
      if (report.kind !== "full") throw new Error(`${document.uri}: no full report`);
      diagnostics.set(document.uri, report.items);
    }
    await client.sendRequest(ShutdownRequest.type);
    await client.sendNotification(ExitNotification.type);
    return { diagnostics, exitCode: await ended };
  } finally {
    server.kill();
  }
}
