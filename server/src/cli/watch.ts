// Checks again whenever something changes that may bear on what was found.
import { basename, resolve } from "node:path";
import { isImageFile } from "../workspace/host";
import { IGNORE_FILES } from "../workspace/ignore-rules";
import { concerns } from "./find-files";
import type { Io } from "./io";
import { tell } from "./tell";

/**
 * Checks, and again after every change in the folders of what was named, until the watching ends or nobody listens.
 * @param check gives its exit status
 * @returns that of the last check
 */
export async function checkAndWatch(
  check: () => Promise<number>,
  paths: readonly string[],
  io: Io,
): Promise<number> {
  if (!io.changes) {
    tell(io, "--watch needs a system that tells of changes.");
    return 2;
  }
  const changes = io.changes(paths.map((path) => resolve(io.cwd, path)));
  let last = await check();
  for await (const paths of changes) if (paths.some(bears)) last = await check();
  return last;
}

/** By its name alone: what it says is looked at by the check. */
const bears = (path: string): boolean => {
  const name = basename(path.replaceAll("\\", "/"));
  return (
    concerns(name) ||
    isImageFile(name) ||
    IGNORE_FILES.includes(name) ||
    /\.(?:png|jpe?g|gif|webp)$/i.test(name)
  );
};
