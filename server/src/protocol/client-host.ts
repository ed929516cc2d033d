import type { Connection } from "vscode-languageserver";
import { isOurs } from "../workspace/host";
import { LIST_FILES, LIST_IMAGES, READ_BYTES, READ_TEXT } from "./custom-requests/files";
import type { OwnRequest } from "./custom-requests/request";
import type { ServerHost } from "./server-host";

/**
 * A host without a disk: every file is asked of the client, which is our own and reads whatever the editor can.
 * @param pages the uri of the folder with a page for each check
 */
export function clientHost(connection: Connection, pages: string | undefined): ServerHost {
  let folders: readonly string[] = [];
  let listing: Promise<Set<string>> | undefined;

  const ask = async <P, R>({ method }: OwnRequest<P, R>, params: P): Promise<R | undefined> => {
    try {
      return (await connection.sendRequest<R | null>(method, params)) ?? undefined;
    } catch (error) {
      connection.console.warn(`${method}: ${error instanceof Error ? error.message : String(error)}`);
      return undefined;
    }
  };
  const list = async () => new Set(await ask(LIST_FILES, { folders }));

  return {
    read: (uri) => ask(READ_TEXT, { uri }),

    async list() {
      listing ??= list();
      return [...(await listing)].sort();
    },

    async listImages() {
      return [...((await ask(LIST_IMAGES, { folders })) ?? [])].sort();
    },

    async readBytes(uri, most) {
      return (await ask(READ_BYTES, { folders, uri, most })) ?? { ok: false, reason: "unreadable" };
    },

    setFolders(uris) {
      folders = uris;
      listing = undefined;
    },

    fileChanged(uri, exists) {
      if (!isOurs(uri)) return;
      listing = listing?.then((found) => {
        if (exists) found.add(uri);
        else found.delete(uri);
        return found;
      });
    },

    docsPage: (code) => (pages === undefined ? undefined : `${pages}/${code}.md`),
  };
}
