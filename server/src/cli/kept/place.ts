// Where what is kept between two runs lies: in the user's folder for such things, by the habit of each system.
import { createHash } from "node:crypto";
import { join, resolve } from "node:path";
import type { Surroundings } from "../io";

/** Files at most of each sort: one whose number is another's takes its place. */
const MOST_FILES = { folder: 64, jobs: 64, findings: 64, printed: 16, code: 4 };

/** Absolute folder; undefined where the system tells of none. The base directory specification of XDG, from memory. */
export function keptFolder(
  { env }: Pick<Surroundings, "env">,
  platform: string = process.platform,
): string | undefined {
  const home = env.HOME ?? env.USERPROFILE;
  if (env.XDG_CACHE_HOME?.startsWith("/")) return join(env.XDG_CACHE_HOME, "mendlog");
  if (platform === "win32") return env.LOCALAPPDATA && join(env.LOCALAPPDATA, "mendlog", "cache");
  if (platform === "darwin") return home && join(home, "Library", "Caches", "mendlog");
  return home && join(home, ".cache", "mendlog");
}

/**
 * The folder that a command keeps things in; undefined for none.
 * @param named where it was told to, from the current folder; false for nowhere
 */
export function folderOfCache(
  named: string | false | undefined,
  io: Pick<Surroundings, "env" | "cwd">,
): string | undefined {
  if (named === false) return undefined;
  return named === undefined ? keptFolder(io) : resolve(io.cwd, named);
}

/**
 * The name of the file that keeps what is known of a folder, or of the folders that a server was opened on.
 * @param what "folder" for what a check keeps, "jobs" for what a server remembers and "findings" for what it found, "printed" for what a command printed, "code" for a program
 * @param of what tells that one from another
 */
export function keptName(of: string, what: keyof typeof MOST_FILES = "folder"): string {
  const number = createHash("sha256").update(of).digest().readUInt32BE(0) % MOST_FILES[what];
  return `${what}-${number}.kept`;
}

/** What a server was opened on. */
export interface Shelved {
  /** Of the workspace. */
  readonly folders: readonly string[];
  /** Absolute path of a folder that the editor keeps for the workspace; without one the user's own serves for all. */
  readonly storage: string | undefined;
}

/**
 * The file that keeps something for a server: its absolute path, its folder, and what stands for the workspace. Undefined where
 * there is no place for it.
 */
export function shelfPlace(
  { folders, storage }: Shelved,
  what: "jobs" | "findings",
  io: Pick<Surroundings, "env">,
): { readonly path: string; readonly folder: string; readonly root: string } | undefined {
  const root = JSON.stringify([...folders].sort());
  const folder = storage === undefined ? keptFolder(io) : resolve(storage);
  if (folder === undefined || folders.length === 0) return undefined;
  return { path: join(folder, storage === undefined ? keptName(root, what) : `${what}.kept`), folder, root };
}
