// Which file readings may be taken from. Free of the editor, so that tests can hold it against real folders and links.
import { realpath } from "node:fs/promises";
import { isAbsolute, relative, resolve, sep } from "node:path";

export type ReadingsPath =
  | { readonly ok: true; readonly path: string }
  | { readonly ok: false; readonly why: Barred; readonly detail?: string };

/** Why a file is not read from. */
export type Barred =
  /** A whole path among the workspace's settings: only the person may point out of the workspace. */
  | "not-own"
  /** It lies outside the workspace, by `..` or behind a link. */
  | "outside"
  /** A path within a workspace, and no folder on disk is open. */
  | "no-folder"
  /** It is not there, or may not be looked at. */
  | "absent";

/**
 * A path within the workspace must really lie there, links followed; a whole path counts only from the person's own settings.
 * @param folder the workspace folder's own path on disk, where there is one
 */
export async function readingsPath(
  stated: { readonly path: string; readonly own: boolean },
  folder: string | undefined,
): Promise<ReadingsPath> {
  if (isAbsolute(stated.path))
    return stated.own ? { ok: true, path: stated.path } : { ok: false, why: "not-own" };
  if (folder === undefined) return { ok: false, why: "no-folder" };
  try {
    const path = resolve(folder, stated.path);
    // Said before the disk is asked: what lies outside is not even looked for.
    if (!isWithin(folder, path)) return { ok: false, why: "outside" };
    const real = await realpath(path);
    return isWithin(await realpath(folder), real) ? { ok: true, path: real } : { ok: false, why: "outside" };
  } catch (error) {
    return { ok: false, why: "absent", detail: codeOf(error) };
  }
}

export const codeOf = (error: unknown): string =>
  (error as NodeJS.ErrnoException).code ?? (error instanceof Error ? error.message : String(error));

function isWithin(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== "" && way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}
