// The VS Code side on the desktop and on a remote machine: the server is a process, and there are programs to run and a network for the meter.
import type { ExtensionContext } from "vscode";
import { LanguageClient, type ServerOptions, TransportKind } from "vscode-languageclient/node";
import { checkTask } from "./check-task";
import { MendlogClient } from "./client";
import { meter } from "./meter";
import { startExtension } from "./start";

export function activate(context: ExtensionContext) {
  const module = context.asAbsolutePath("dist/server.cjs");
  const server: ServerOptions = {
    run: { module, transport: TransportKind.ipc },
    debug: { module, transport: TransportKind.ipc, options: { execArgv: ["--nolazy", "--inspect=6009"] } },
  };
  // What is remembered of the folder's logs lies there until the next start.
  const storage = context.storageUri?.scheme === "file" ? { storage: context.storageUri.fsPath } : {};
  return startExtension(
    context,
    (log) =>
      new MendlogClient((options) => new LanguageClient("mendlog", "Mendlog", server, options), log, storage),
    [checkTask(context.asAbsolutePath("dist/cli.cjs")), meter],
  );
}
