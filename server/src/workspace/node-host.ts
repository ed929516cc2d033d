// The one place of the server that touches the disk.
import type { Dirent } from "node:fs";
import { open, readdir, realpath, stat } from "node:fs/promises";
import { join, relative, sep } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { FileBytes, NoBytes } from "../compute/memory/file-bytes";
import { fileName, type Host, isImageFile, isLookedInto, isOurs, MAX_BYTES } from "./host";
import { IGNORE_FILES, IgnoreRules } from "./ignore-rules";
import { isWithin, type Lookable, readWithin } from "./read-within";
import { canonicalUri } from "./uri";
import { isUtf16 } from "./utf16";

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

  const paths = (): string[] => roots.flatMap((root) => pathOf(root) ?? []);

  /** Of the last look through the folders, by root. */
  let rules = new Map<string, IgnoreRules>();
  const ignores = (root: string, path: string, isFolder: boolean): boolean => {
    const from = `${relative(root, path).split(sep).join("/")}${isFolder ? "/" : ""}`;
    return !from.startsWith("../") && (rules.get(root)?.ignores(from) ?? false);
  };

  const scan = async (wanted: (name: string) => boolean, links: boolean): Promise<Set<string>> => {
    const found = new Set<string>();
    rules = new Map(paths().map((root) => [root, new IgnoreRules()]));
    const homes = await Promise.all(paths().map((path) => realpath(path).catch(() => path)));
    const queue = paths().map((path) => ({ root: path, folder: path }));
    for (let seen = 0; queue.length > 0; seen++) {
      if (seen === MAX_FOLDERS || found.size >= MAX_FILES) {
        say(`Stopped looking through the folders after ${seen} folders and ${found.size} files.`);
        break;
      }
      const { root, folder } = queue.shift()!;
      const entries = await entriesOf(folder);
      for (const name of IGNORE_FILES) {
        if (!entries.some((entry) => entry.name === name && entry.isFile())) continue;
        const said = await head(join(folder, name), MAX_BYTES).catch(() => undefined);
        const from = relative(root, folder).split(sep).join("/");
        if (said) rules.get(root)?.add(from === "" ? "" : `${from}/`, new TextDecoder().decode(said));
      }
      for (const entry of entries) {
        const path = join(folder, entry.name);
        if (entry.isDirectory()) {
          if (isLookedInto(entry.name) && !ignores(root, path, true)) queue.push({ root, folder: path });
        } else if (
          wanted(entry.name) &&
          !ignores(root, path, false) &&
          (entry.isFile() || (links && (await isLinkToFile(entry, path, homes))))
        ) {
          found.add(uriOf(path));
        }
      }
    }
    return found;
  };

  const bytesOf = async (uri: string, most: number): Promise<FileBytes> => {
    const path = pathOf(uri);
    return path === undefined ? { ok: false, reason: "outside" } : readWithin(disk, paths(), path, most);
  };

  return {
    async read(uri) {
      const path = pathOf(uri);
      const file = await bytesOf(uri, MAX_BYTES);
      if (file.ok && !isUtf16(file.bytes)) return new TextDecoder().decode(file.bytes);
      const why = file.ok ? "it is UTF-16 text; save it as UTF-8" : unread(file);
      if (why !== undefined) say(`${path} was not read: ${why}.`);
      return undefined;
    },

    readBytes: bytesOf,

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
      if (IGNORE_FILES.includes(fileName(uri))) listing = undefined;
      if (!isOurs(uri)) return;
      const path = pathOf(uri);
      if (exists && path !== undefined && paths().some((root) => ignores(root, path, false))) return;
      listing = listing?.then((found) => {
        if (exists) found.add(uri);
        else found.delete(uri);
        return found;
      });
    },
  };
}

/** What there is to say of a file that is there and is not read; one that is gone needs no word. */
function unread({ reason, size }: NoBytes): string | undefined {
  switch (reason) {
    case "outside":
      return "it is outside the folders of the workspace, or a link that leads out of them";
    case "not-a-file":
      return "it is not a regular file";
    case "too-large":
      return `it has ${size} bytes, and at most ${MAX_BYTES} are read`;
    default:
      return undefined;
  }
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

/** Linked files count where they lie in one of the folders; linked folders do not, they may lead in a circle. */
async function isLinkToFile(entry: Dirent, path: string, homes: readonly string[]): Promise<boolean> {
  if (!entry.isSymbolicLink()) return false;
  try {
    const real = await realpath(path);
    return homes.some((home) => isWithin(home, real)) && (await stat(real)).isFile();
  } catch {
    return false;
  }
}
