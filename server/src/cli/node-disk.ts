// The disk as Node gives it. The one place of the command line that touches files which are not its own.
import {
  closeSync,
  type Dirent,
  fstatSync,
  lstatSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  realpathSync,
  type Stats,
  statSync,
} from "node:fs";
import { chmod, mkdir, open, rename, rm, stat, writeFile } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { type Content, type Disk, done, failed, type Look, type Name, type OpenFile, type Tried } from "./io";
import { openBytes } from "./open-bytes";

/** As many files are open at a time; a large workspace must not run out of handles. */
const MOST_OPEN = 32;

export function nodeDisk(): Disk {
  const turn = turns(MOST_OPEN);
  return {
    // At once: ten thousand answers one after another take a third of the time of those that are waited for.
    look: (path, folder) => tried(async () => lookAtOnce(path, folder)),
    names: (folder) => tried(async () => readdirSync(folder, { withFileTypes: true }).map(nameOf)),
    read: (path, most) => turn(() => tried(() => readSome(path, most))),
    open: (path) => tried(async () => openAtOnce(path)),
    create: (path, content) => tried(() => createFile(path, content)),
    replace: (path, content) => tried(() => replaceFile(path, content)),
    makeFolder: (path) => tried(() => mkdir(path)),
  };
}

/**
 * As `nodeDisk`, for a thread that has nothing else to do meanwhile: it reads at once, in a tenth of the time that
 * waiting takes.
 */
export const threadDisk = (): Disk => ({
  ...nodeDisk(),
  read: (path, most) => tried(async () => readAtOnce(path, most)),
});

const nameOf = (entry: Dirent): Name => ({
  name: entry.name,
  kind: entry.isFile() ? "file" : entry.isDirectory() ? "folder" : entry.isSymbolicLink() ? "link" : "other",
});

function openAtOnce(path: string): OpenFile {
  // Windows puts nothing in the place of a file that is open.
  if (process.platform === "win32") return openBytes(readFileSync(path));
  const file = openSync(path, "r");
  return {
    size: fstatSync(file).size,
    read(from, length) {
      try {
        const bytes = Buffer.allocUnsafe(length);
        return readSync(file, bytes, 0, length, from) === length ? bytes : undefined;
      } catch {
        return undefined;
      }
    },
    close: () => closeSync(file),
  };
}

function lookAtOnce(path: string, folder: string | undefined): Look {
  const own = folder === undefined ? undefined : lstatSync(path);
  return own && folder !== undefined && own.isFile()
    ? lookOf(own, join(folder, basename(path)))
    : lookOf(statSync(path), realpathSync.native(path));
}

const lookOf = (seen: Stats, real: string): Look => ({
  kind: seen.isFile() ? "file" : seen.isDirectory() ? "folder" : "other",
  size: seen.size,
  real,
  // A time of writing can be set back by whoever copies a file; that of its entry cannot.
  changed: Math.max(seen.mtimeMs, seen.ctimeMs),
});

async function readSome(path: string, most: number): Promise<Uint8Array> {
  const file = await open(path, "r");
  try {
    const { size } = await file.stat();
    const bytes = Buffer.alloc(Math.min(size, most));
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

function readAtOnce(path: string, most: number): Uint8Array {
  const file = openSync(path, "r");
  try {
    const bytes = Buffer.alloc(Math.min(fstatSync(file).size, most));
    let length = 0;
    while (length < bytes.length) {
      const count = readSync(file, bytes, length, bytes.length - length, length);
      if (count === 0) break;
      length += count;
    }
    return bytes.subarray(0, length);
  } finally {
    closeSync(file);
  }
}

/** A file that could not be written to its end is not left behind as a half. */
async function createFile(path: string, content: Content): Promise<void> {
  const file = await open(path, "wx");
  try {
    await writeFile(file, content, "utf8");
    await file.close();
  } catch (error) {
    await file.close().catch(() => {});
    await rm(path, { force: true });
    throw error;
  }
}

/** Beside the file first, so that it can take its place in one step, with what the file allows to whom. */
async function replaceFile(path: string, content: Content): Promise<void> {
  const { mode } = await stat(path);
  const beside = join(dirname(path), `.${basename(path)}.${process.pid}.tmp`);
  try {
    // A file that may not be written is not to be replaced either, although its folder would let it.
    await (await open(path, "r+")).close();
    await writeFile(beside, content, { encoding: "utf8", flag: "wx" });
    await chmod(beside, mode);
    await rename(beside, path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") await rm(beside, { force: true });
    throw error;
  }
}

async function tried<T>(run: () => Promise<T>): Promise<Tried<T>> {
  try {
    return done(await run());
  } catch (error) {
    return failed(reasonOf(error as NodeJS.ErrnoException));
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "is not there",
  ENOTDIR: "is not there: part of its path is a file, not a folder",
  EEXIST: "is there already and stays as it is",
  EACCES: "cannot be opened: you have no permission",
  EPERM: "cannot be opened: you have no permission",
  ELOOP: "cannot be opened: its links lead in a circle",
  EISDIR: "is a folder",
  ENAMETOOLONG: "cannot be opened: its name is too long",
  ENOSPC: "cannot be written: the disk is full",
  EDQUOT: "cannot be written: there is no room left for you on the disk",
  EFBIG: "cannot be written: it is larger than a file may be here",
  EROFS: "cannot be written: the disk is read-only",
  EMFILE: "cannot be opened: too many files are open",
  ERR_INVALID_ARG_VALUE: "is not a path",
};

export const reasonOf = (error: NodeJS.ErrnoException): string =>
  REASONS[error.code ?? ""] ?? `cannot be used: ${error.message}`;

/** Lets at most so many run at a time, in the order they came. */
function turns(most: number): <T>(run: () => Promise<T>) => Promise<T> {
  let running = 0;
  const waiting: (() => void)[] = [];
  return async (run) => {
    if (running >= most) await new Promise<void>((go) => waiting.push(go));
    else running++;
    try {
      return await run();
    } finally {
      const next = waiting.shift();
      if (next) next();
      else running--;
    }
  };
}
