// The VS Code side where the editor runs in a browser alone: the server is a worker, and asks this side for files.
import { type ExtensionContext, Uri, workspace } from "vscode";
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type MessageTransports,
} from "vscode-languageclient/browser";
import { MendlogClient } from "./client";
import { startExtension } from "./start";
import { noMeter } from "./web/no-meter";
import { serveFiles } from "./web/serve-files";

type Connect = () => Promise<MessageTransports>;
type Port = ConstructorParameters<typeof BrowserMessageReader>[0];
declare const Worker: new (url: string) => Port;

/**
 * Started from its text, since a page may start no worker from another place than its own: what it shares with the programs
 * of Node, one layer on the other, and itself last.
 */
const startWorker =
  (scripts: readonly Uri[]): Connect =>
  async () => {
    const texts = await Promise.all(scripts.map((script) => workspace.fs.readFile(script)));
    const parts = texts.flatMap((text) => [Uint8Array.from(text), "\n"]);
    const worker = new Worker(URL.createObjectURL(new Blob(parts, { type: "text/javascript" })));
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };

export function activate(context: ExtensionContext) {
  const { extensionUri } = context;
  const scripts = ["core.cjs", "protocol.cjs", "web/server.js"];
  const server = startWorker(scripts.map((path) => Uri.joinPath(extensionUri, "dist", path)));
  const pages = Uri.joinPath(extensionUri, "docs", "checks").toString();
  return startExtension(
    context,
    (log) => {
      const client = new MendlogClient(
        (options) => new LanguageClient("mendlog", "Mendlog", server, options),
        log,
        { pages },
      );
      serveFiles(client);
      return client;
    },
    [noMeter],
  );
}
