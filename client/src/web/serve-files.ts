// Files for a server that has no disk: whatever the editor itself can read, wherever it comes from.
import { FileType, Uri, workspace } from "vscode";
import {
  LIST_FILES,
  LIST_IMAGES,
  READ_BYTES,
  READ_TEXT,
  type WantedBytes,
} from "../../../server/src/protocol/custom-requests/files";
import {
  type FileBytes,
  isImageFile,
  isLookedInto,
  isOurs,
  MAX_BYTES,
} from "../../../server/src/workspace/host";
import type { MendlogClient } from "../client";

/** Folders looked into at most: each may be a question to a server far away. */
const MAX_FOLDERS = 5_000;

/** Answers the server's questions about files, as long as the client runs. */
export function serveFiles(client: MendlogClient): void {
  client.answer(LIST_FILES, ({ folders }) => list(folders, isOurs, true));
  client.answer(LIST_IMAGES, ({ folders }) => list(folders, isImageFile, false));
  client.answer(READ_TEXT, ({ uri }) => readText(Uri.parse(uri)));
  client.answer(READ_BYTES, readBytes);
}

/** @param links whether linked files count; linked folders never do, they may lead in a circle */
async function list(
  folders: readonly string[],
  wanted: (name: string) => boolean,
  links: boolean,
): Promise<string[]> {
  const found: string[] = [];
  const queue = folders.map((folder) => Uri.parse(folder));
  for (let seen = 0; seen < MAX_FOLDERS; seen += 1) {
    const folder = queue.shift();
    if (!folder) break;
    for (const [name, type] of await entriesOf(folder)) {
      if (type === FileType.Directory) {
        if (isLookedInto(name)) queue.push(Uri.joinPath(folder, name));
      } else if (isFile(type) && wanted(name) && (links || !isLink(type)))
        found.push(Uri.joinPath(folder, name).toString());
    }
  }
  return found;
}

const isLink = (type: FileType): boolean => (type & FileType.SymbolicLink) !== 0;
const isFile = (type: FileType): boolean => (type & FileType.File) !== 0;

/** None of a folder that is gone meanwhile, or not ours to read. */
async function entriesOf(folder: Uri): Promise<[string, FileType][]> {
  try {
    return await workspace.fs.readDirectory(folder);
  } catch {
    return [];
  }
}

/** UTF-8; what is not becomes U+FFFD. A byte order mark is dropped, as the editor does. */
async function readText(uri: Uri): Promise<string | null> {
  try {
    if ((await workspace.fs.stat(uri)).size > MAX_BYTES) return null;
    return new TextDecoder().decode(await workspace.fs.readFile(uri));
  } catch {
    return null;
  }
}

/**
 * The bytes of a file in one of the folders. Where a link leads cannot be asked of every file system, so nothing behind
 * one is read.
 */
async function readBytes({ folders, uri, most }: WantedBytes): Promise<FileBytes> {
  const folder = folders.find((one) => uri.startsWith(`${one}/`));
  if (folder === undefined) return { ok: false, reason: "outside" };
  const file = Uri.parse(uri);
  try {
    if (await isBehindLink(Uri.parse(folder), file)) return { ok: false, reason: "outside" };
    const { type, size } = await workspace.fs.stat(file);
    if (type !== FileType.File) return { ok: false, reason: "not-a-file" };
    if (size > most) return { ok: false, reason: "too-large", size };
  } catch {
    return { ok: false, reason: "absent" };
  }
  try {
    const bytes = await workspace.fs.readFile(file);
    return bytes.length > most ? { ok: false, reason: "too-large", size: bytes.length } : { ok: true, bytes };
  } catch {
    return { ok: false, reason: "unreadable" };
  }
}

async function isBehindLink(folder: Uri, file: Uri): Promise<boolean> {
  let at = folder;
  for (const name of file.path.slice(folder.path.length).split("/").filter(Boolean)) {
    at = Uri.joinPath(at, name);
    if (isLink((await workspace.fs.stat(at)).type)) return true;
  }
  return false;
}
