// The VS Code side on the desktop: starts the language server when there is something for it to read. All that is
// known about logs and boards is known by the server.
import { commands, type ExtensionContext, window } from "vscode";
import { MendlogClient } from "./client";
import { whenNeeded } from "./when-needed";

export function activate(context: ExtensionContext): void {
  const log = window.createOutputChannel("Mendlog", { log: true });
  const client = new MendlogClient(context.asAbsolutePath("dist/server.cjs"), log);
  context.subscriptions.push(
    log,
    client,
    commands.registerCommand("mendlog.restartServer", () => client.restart()),
    commands.registerCommand("mendlog.showServerLog", () => log.show()),
    whenNeeded(() => client.start()),
  );
}
