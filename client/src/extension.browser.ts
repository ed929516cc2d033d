// The VS Code side where the editor runs in a browser alone: the server is a worker, and asks this side for files.
import { type ExtensionContext, Uri, workspace } from "vscode";
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type MessageTransports,
} from "vscode-languageclient/browser";
import { begin, end } from "./begin";
import { MendlogClient } from "./client";
import { noMeter } from "./web/no-meter";
import { serveFiles } from "./web/serve-files";

type Connect = () => Promise<MessageTransports>;
type Port = ConstructorParameters<typeof BrowserMessageReader>[0];
declare const Worker: new (url: string) => Port;

/** Started from its text, since a page may start no worker from another place than its own. */
const startWorker =
  (script: Uri): Connect =>
  async () => {
    const text = Uint8Array.from(await workspace.fs.readFile(script));
    const worker = new Worker(URL.createObjectURL(new Blob([text], { type: "text/javascript" })));
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };

export function activate(context: ExtensionContext) {
  const { extensionUri } = context;
  const server = startWorker(Uri.joinPath(extensionUri, "dist", "web", "server.js"));
  const pages = Uri.joinPath(extensionUri, "docs", "checks").toString();
  return begin(
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

export const deactivate = end;
