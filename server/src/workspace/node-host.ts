// The one place of the server that touches the disk.
import type { Dirent } from "node:fs";
import { open, readdir, readFile, realpath, stat } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { type Host, isImageFile, isLookedInto, isOurs, MAX_BYTES } from "./host";
import { type Lookable, readWithin } from "./read-within";
import { canonicalUri } from "./uri";

/** Folders with more files of ours than this are not looked through to the end. */
const MAX_FILES = 20_000;
/** Folders looked into at most, so that a workspace opened at the root of a disk does not keep the disk busy. */
const MAX_FOLDERS = 50_000;

export interface NodeHost extends Host {
  /** The folders to list from now on; only `file:` uris count. */
  setFolders(uris: readonly string[]): void;
  /** A file was made, changed or deleted: keeps the list right without looking through the folders again. */
  fileChanged(uri: string, exists: boolean): void;
}

/**
 * Reads files and lists folders of this machine. `say` is told what was left out and why.
 * Texts are UTF-8; what is not becomes U+FFFD. A byte order mark is dropped, as every editor does, so that
 * positions agree with what the editor shows.
 */
export function nodeHost(
  folders: readonly string[] = [],
  say: (message: string) => void = () => {},
): NodeHost {
  let roots = folders;
  let listing: Promise<Set<string>> | undefined;

  const scan = async (wanted: (name: string) => boolean, links: boolean): Promise<Set<string>> => {
    const found = new Set<string>();
    const queue = roots.map(pathOf).filter((path) => path !== undefined);
    for (let seen = 0; queue.length > 0; seen++) {
      if (seen === MAX_FOLDERS || found.size >= MAX_FILES) {
        say(`Stopped looking through the folders after ${seen} folders and ${found.size} files.`);
        break;
      }
      const folder = queue.shift()!;
      for (const entry of await entriesOf(folder)) {
        const path = join(folder, entry.name);
        if (entry.isDirectory()) {
          if (isLookedInto(entry.name)) queue.push(path);
        } else if (wanted(entry.name) && (entry.isFile() || (links && (await isLinkToFile(entry, path))))) {
          found.add(uriOf(path));
        }
      }
    }
    return found;
  };

  return {
    async read(uri) {
      const path = pathOf(uri);
      if (path === undefined) return undefined;
      try {
        const { size } = await stat(path);
        if (size > MAX_BYTES) {
          say(`${path} was not read: it has ${size} bytes, and no more than ${MAX_BYTES} are.`);
          return undefined;
        }
        const text = await readFile(path, "utf8");
        return text.startsWith("\uFEFF") ? text.slice(1) : text;
      } catch {
        return undefined;
      }
    },

    async readBytes(uri, most) {
      const path = pathOf(uri);
      if (path === undefined) return { ok: false, reason: "outside" };
      return readWithin(
        disk,
        roots.flatMap((root) => pathOf(root) ?? []),
        path,
        most,
      );
    },

    async list() {
      listing ??= scan(isOurs, true);
      return [...(await listing)].sort();
    },

    async listImages() {
      return [...(await scan(isImageFile, false))].sort();
    },

    setFolders(uris) {
      roots = uris;
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
  };
}

const disk: Lookable = {
  async look(path) {
    try {
      const [seen, real] = await Promise.all([stat(path), realpath(path)]);
      const kind = seen.isFile() ? "file" : seen.isDirectory() ? "folder" : "other";
      return { ok: true, value: { kind, size: seen.size, real } };
    } catch {
      return { ok: false };
    }
  },
  async read(path, most) {
    const value = await head(path, most).catch(() => undefined);
    return value ? { ok: true, value } : { ok: false };
  },
};

/** The first bytes of a regular file; anything else, such as a pipe, would never end. */
async function head(path: string, most: number): Promise<Uint8Array | undefined> {
  if (!(await stat(path)).isFile()) return undefined;
  const file = await open(path, "r");
  try {
    const bytes = new Uint8Array(Math.min(most, (await file.stat()).size));
    let length = 0;
    while (length < bytes.length) {
      const { bytesRead } = await file.read(bytes, length, bytes.length - length, length);
      if (bytesRead === 0) break;
      length += bytesRead;
    }
    return bytes.subarray(0, length);
  } finally {
    await file.close();
  }
}

/** The canonical uri of a path of this machine. */
export const uriOf = (path: string): string => canonicalUri(pathToFileURL(path).href);

/** The path a `file:` uri names, undefined for any other uri and for one that names no path here. */
export function pathOf(uri: string): string | undefined {
  if (!/^file:/i.test(uri)) return undefined;
  try {
    return fileURLToPath(uri);
  } catch {
    return undefined;
  }
}

async function entriesOf(folder: string): Promise<Dirent[]> {
  try {
    return await readdir(folder, { withFileTypes: true });
  } catch {
    // Gone meanwhile, or not ours to read.
    return [];
  }
}

/** Linked files count; linked folders do not, they may lead in a circle. */
async function isLinkToFile(entry: Dirent, path: string): Promise<boolean> {
  if (!entry.isSymbolicLink()) return false;
  return stat(path).then(
    (target) => target.isFile(),
    () => false,
  );
}
