import { dirname, isAbsolute, join, relative } from "node:path";
import type { Disk } from "./io";

const SHOP_FILE = "mendlog.shop.yaml";

/**
 * The folder whose knowledge files a path is judged by: the nearest one at or above it that holds a shop file,
 * else the current folder where it contains the path, else the path's own folder.
 * @param folder absolute; the path itself where it is a folder, else the one it lies in.
 */
export async function knowledgeRoot(disk: Disk, folder: string, cwd: string): Promise<string> {
  for (let at = folder; ; at = dirname(at)) {
    const look = await disk.look(join(at, SHOP_FILE));
    if (look.ok && look.value.kind === "file") return at;
    if (dirname(at) === at) break;
  }
  return isBelow(cwd, folder) ? cwd : folder;
}

/** True where `path` is the folder or lies in it. */
export function isBelow(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way === "" || !(way === ".." || /^\.\.[/\\]/.test(way) || isAbsolute(way));
}
