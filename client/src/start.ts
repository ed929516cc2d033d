// What the desktop and the browser share: every feature, and the client that starts the language server when there is
// something for it to read. All that is known about logs and boards is known by the server.
import { commands, type ExtensionContext, type LogOutputChannel, window } from "vscode";
import { assistants } from "./assistants";
import { boardFile } from "./board-file";
import type { MendlogClient } from "./client";
import { guide } from "./guide";
import { importBoardCommand } from "./import-board";
import { followEditor } from "./in-log";
import { insertTableCommand } from "./insert-table";
import { jobs } from "./jobs";
import type { Feature } from "./mendlog";
import { nameCompletion } from "./name-completion";
import { newLog } from "./new-log";
import { pane } from "./pane";
import { photographPasting } from "./photographs";
import { extendMarkdownIt, preview } from "./preview";
import { serverCommands } from "./server-commands";
import { numbersPage } from "./shop-numbers";
import { showPlaces } from "./show-places";
import { suspects } from "./suspects";
import { takenLine } from "./taken-line";
import { theme } from "./theme";
import { typing } from "./typing";
import { whenNeeded } from "./when-needed";

/** What the client does besides talking to the server; each has its own folder. */
// biome-ignore format: a line each, so that two that are added do not meet
const FEATURES: readonly Feature[] = [
  assistants,
  boardFile,
  guide,
  importBoardCommand,
  insertTableCommand,
  jobs,
  nameCompletion,
  newLog,
  pane,
  photographPasting,
  preview,
  serverCommands,
  numbersPage,
  showPlaces,
  suspects,
  takenLine,
  theme,
  typing,
];

let client: MendlogClient | undefined;

/**
 * @param makeClient the client of where this runs
 * @param own the features of where this runs
 * @returns what the editor's Markdown preview asks for
 */
export function startExtension(
  context: ExtensionContext,
  makeClient: (log: LogOutputChannel) => MendlogClient,
  own: readonly Feature[],
): { extendMarkdownIt: typeof extendMarkdownIt } {
  const log = window.createOutputChannel("Mendlog", { log: true });
  const made = makeClient(log);
  client = made;
  context.subscriptions.push(
    commands.registerCommand("mendlog.restartServer", () => made.restart()),
    commands.registerCommand("mendlog.showServerLog", () => log.show()),
    followEditor(),
    ...[...FEATURES, ...own].map((feature) => feature(made)),
    whenNeeded(() => made.start()),
    log,
  );
  return { extendMarkdownIt };
}

/** The editor waits for this, so the server ends in order; only then is the log it writes to closed. */
export function stopExtension(): Promise<void> | undefined {
  return client?.dispose();
}
