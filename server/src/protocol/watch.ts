import {
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
} from "vscode-languageserver";
import type { ClientAbilities } from "./client-abilities";
import { SECTION } from "./settings";

/** Files whose changes on disk matter: what logs are judged by, the logs themselves and the images they may name. */
const PATTERNS = [
  "**/*.{board,device,procedure}.yaml",
  "**/mendlog.shop.yaml",
  "**/*.{md,markdown}",
  "**/{.gitignore,.mendlogignore}",
  "**/*.{bin,rom,img,dat,eprom,prom,dump,raw}",
  "**/*.{jpg,jpeg,png,gif,webp}",
];

/** Asks the client to tell of changes outside its editors, where it can. */
export async function watchFiles(connection: Connection, can: ClientAbilities): Promise<void> {
  if (can.watchFiles) {
    const watchers = PATTERNS.map((globPattern) => ({ globPattern }));
    await connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
  }
  if (can.watchConfiguration) {
    await connection.client.register(DidChangeConfigurationNotification.type, { section: SECTION });
  }
}
