// The VS Code side on the desktop: starts the language server when there is something for it to read. All that is
// known about logs and boards is known by the server.
import { commands, type ExtensionContext, window } from "vscode";
import { MendlogClient } from "./client";
import { followEditor } from "./in-log";
import { insertTable } from "./insert-table";
import { jobs } from "./jobs";
import type { Feature } from "./mendlog";
import { meter } from "./meter";
import { newLog } from "./new-log";
import { extendMarkdownIt, preview } from "./preview";
import { serverCommands } from "./server-commands";
import { showPlaces } from "./show-places";
import { suspects } from "./suspects";
import { theme } from "./theme";
import { typing } from "./typing";
import { whenNeeded } from "./when-needed";

/** What the client does besides talking to the server; each has its own folder. */
// biome-ignore format: a line each, so that two that are added do not meet
const FEATURES: readonly Feature[] = [
  insertTable,
  jobs,
  meter,
  newLog,
  preview,
  serverCommands,
  showPlaces,
  suspects,
  theme,
  typing,
];

let client: MendlogClient | undefined;

/** @returns what the editor's Markdown preview asks for */
export function activate(context: ExtensionContext): { extendMarkdownIt: typeof extendMarkdownIt } {
  const log = window.createOutputChannel("Mendlog", { log: true });
  const own = new MendlogClient(context.asAbsolutePath("dist/server.cjs"), log);
  client = own;
  context.subscriptions.push(
    commands.registerCommand("mendlog.restartServer", () => own.restart()),
    commands.registerCommand("mendlog.showServerLog", () => log.show()),
    followEditor(),
    ...FEATURES.map((feature) => feature(own)),
    whenNeeded(() => own.start()),
    log,
  );
  return { extendMarkdownIt };
}

/** The editor waits for this, so the server ends in order; only then is the log it writes to closed. */
export function deactivate(): Promise<void> | undefined {
  return client?.dispose();
}
