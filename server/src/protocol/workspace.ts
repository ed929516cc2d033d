import { FileChangeType, type FileEvent } from "vscode-languageserver";
import { canonicalUri } from "../workspace/uri";
import { report } from "./answer";
import type { ServerHost } from "./server-host";
import type { Session } from "./session";
import { watchFiles } from "./watch";

/** Follows the folders the client has open: reads their knowledge files and hears of changes on disk. */
export function handleWorkspace(
  session: Session,
  host: ServerHost,
): { start(): Promise<void>; rescan(): Promise<void> } {
  const { connection, service, can, remembering, folders, events } = session;
  host.setFolders(folders.uris());

  const load = async (): Promise<void> => {
    const progress = await connection.window.createWorkDoneProgress();
    progress.begin("Mendlog: reading board files");
    try {
      await service.load();
    } finally {
      progress.done();
    }
  };

  const changed = async ({ uri: clientUri, type }: FileEvent): Promise<boolean> => {
    const uri = canonicalUri(clientUri);
    host.fileChanged(uri, type !== FileChangeType.Deleted);
    events.fileChanged.fire(uri);
    return service.fileChanged(uri);
  };

  connection.onDidChangeWatchedFiles(async ({ changes }) => {
    try {
      const told = await Promise.all(changes.map(changed));
      session.documents.forgetGone();
      if (told.includes(true)) events.everythingChanged.fire();
      remembering.start();
    } catch (error) {
      report(connection, "Reading changed files", error);
    }
  });

  const reload = async (): Promise<void> => {
    try {
      forgetOutside(session, await host.list());
      await load();
    } catch (error) {
      report(connection, "Reading the folders", error);
    }
  };

  /** Looks through the folders again. */
  const rescan = async (): Promise<void> => {
    host.setFolders(folders.uris());
    service.foldersChanged();
    folders.reading(reload());
    // Whatever is being computed now is of the old folders.
    events.everythingChanged.fire();
    await folders.settled();
    events.everythingChanged.fire();
    remembering.start();
  };

  return {
    rescan,
    async start() {
      if (can.folders) {
        connection.workspace.onDidChangeWorkspaceFolders(async ({ added, removed }) => {
          folders.change(added, removed);
          events.foldersChanged.fire();
          await rescan();
        });
      }
      await Promise.all([watchFiles(connection, can), load()]);
    },
  };
}

/** Knowledge files of folders that were closed no longer count, unless they are being edited. */
function forgetOutside({ service, documents }: Session, listed: readonly string[]): void {
  const inside = new Set(listed);
  for (const uri of service.knowledge.uris()) {
    if (!inside.has(uri) && !documents.at(uri)) service.knowledge.remove(uri);
  }
  documents.forgetGone();
}
