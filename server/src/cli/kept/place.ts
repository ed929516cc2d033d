// Where what is kept between two runs lies: in the user's folder for such things, by the habit of each system.
import { join } from "node:path";
import { textHash } from "../../workspace/text-hash";
import type { Surroundings } from "../io";

/** Files at most: a folder whose number is another's takes its place. */
const MOST_FOLDERS = 64;

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
 * The name of the file that keeps what is known of a folder, or of the folders that a server was opened on.
 * @param what "folder" for what a check keeps, "jobs" for what a server remembers
 */
export function keptName(root: string, what: "folder" | "jobs" = "folder"): string {
  const [, sum = "0"] = textHash(root).split("-");
  return `${what}-${Number.parseInt(sum, 36) % MOST_FOLDERS}.kept`;
}
