import { canonicalUri } from "./uri";

/**
 * The uri of a file that a log names by a path with slashes of either kind, counted from the log's folder; one that
 * begins at the root of the disk is taken as such. Undefined where the path leads above the root or names another scheme,
 * and for a log that lies in no folder.
 */
export function imageUri(log: string, path: string): string | undefined {
  const [, root, folders] = /^([a-z][a-z0-9+.-]*:(?:\/\/[^/]*)?\/)(?:(.*)\/)?[^/]*$/i.exec(log) ?? [];
  if (root === undefined || /^[a-z][a-z0-9+.-]+:/i.test(path)) return undefined;
  const absolute = /^(?:[/\\]|[a-z]:)/i.test(path);
  const parts = absolute || folders === undefined || folders === "" ? [] : folders.split("/");
  for (const part of path.split(/[/\\]/)) {
    if (part === "..") {
      if (parts.pop() === undefined) return undefined;
    } else if (part !== "." && part !== "") {
      parts.push(encodeURIComponent(part.replace(/\p{Surrogate}/gu, "\uFFFD")));
    }
  }
  return canonicalUri(root + parts.join("/"));
}

/**
 * The path by which a log names a file, with forward slashes and counted from the log's folder: `imageUri` the other
 * way round. Undefined where no path leads there.
 */
export function imagePathFrom(log: string, file: string): string | undefined {
  const from = canonicalUri(log).split("/").slice(0, -1);
  const to = canonicalUri(file).split("/");
  let common = 0;
  while (common < from.length && common < to.length - 1 && from[common] === to[common]) common += 1;
  // Scheme and host at least are the same.
  if (common < 3) return undefined;
  try {
    const path = [...from.slice(common).map(() => ".."), ...to.slice(common).map(decodeURIComponent)].join(
      "/",
    );
    return imageUri(log, path) === canonicalUri(file) ? path : undefined;
  } catch {
    return undefined;
  }
}

/** False for a log that was never saved: nothing can be counted from where it lies. */
export const liesInFolder = (log: string): boolean => imageUri(log, "x") !== undefined;
