// Where what is kept between two runs lies: in the user's folder for such things, by the habit of each system.
import { createHash } from "node:crypto";
import { join, resolve } from "node:path";
import type { Surroundings } from "../io";

/** Files at most of each sort: one whose number is another's takes its place. */
const MOST_FILES = { folder: 64, jobs: 64, printed: 16, code: 4 };

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
 * @param what "folder" for what a check keeps, "jobs" for what a server remembers, "printed" for what a command printed, "code" for a program
 * @param of what tells that one from another
 */
export function keptName(of: string, what: keyof typeof MOST_FILES = "folder"): string {
  const number = createHash("sha256").update(of).digest().readUInt32BE(0) % MOST_FILES[what];
  return `${what}-${number}.kept`;
}
