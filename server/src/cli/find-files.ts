import { basename, dirname, join, relative, sep } from "node:path";
import { defined } from "../base/defined";
import { isMarkdown, knowledgeKind } from "../workspace/host";
import { IGNORE_FILES, IgnoreRules } from "../workspace/ignore-rules";
import type { Disk } from "./io";
import { isBelow } from "./knowledge-root";

/** A file that was found, by its absolute paths and its size in bytes. */
export interface FoundFile {
  /** As it was come to; links are not followed in it. */
  readonly path: string;
  /** With every link followed. */
  readonly real: string;
  readonly size: number;
  /** See `Look.changed`. */
  readonly changed?: number;
}

export interface FoundFiles {
  readonly files: readonly FoundFile[];
  readonly problems: readonly { readonly path: string; readonly message: string }[];
}

/** Bytes that are read of a file of patterns. */
const MOST_RULES = 1024 * 1024;

/** Folders that are never entered on the way down, as in the editor; one named on the command line is. */
const skipped = (name: string): boolean => name.startsWith(".") || name === "node_modules" || name === "dist";

/** True for the name of a file that may concern us, or a path with forward slashes. */
export const concerns = (name: string): boolean => isMarkdown(name) || knowledgeKind(name) !== undefined;

/**
 * Every file below a folder whose name concerns us, in the order of their names, each once: links are followed where they
 * stay in `root`, but no folder is entered twice, so one that leads back up does no harm. What `.gitignore` and
 * `.mendlogignore` leave out, in the root or below it, is left out.
 */
export async function findFiles(disk: Disk, folder: string, root: string = folder): Promise<FoundFiles> {
  const files: FoundFile[] = [];
  const problems: { path: string; message: string }[] = [];
  let rules = new IgnoreRules();
  let base = root;
  const from = (path: string): string => relative(base, path).split(sep).join("/");
  const been = new Set<string>();
  const seen = new Set<string>();
  const [top, home] = await Promise.all([disk.look(folder), disk.look(root)]);
  const leadsOut = (real: string): boolean =>
    !(home.ok && isBelow(home.value.real, real)) && !(top.ok && isBelow(top.value.real, real));
  for (const above of foldersBetween(root, folder)) await heed(above);
  if (folder !== root && rules.ignores(`${from(folder)}/`)) {
    // It was named all the same: only what it says itself counts in it.
    rules = new IgnoreRules();
    base = folder;
  }
  if (top.ok) await walk(folder, top.value.real);
  else problems.push({ path: folder, message: top.reason });
  return { files, problems };

  async function walk(path: string, real: string): Promise<void> {
    if (been.has(real)) return;
    been.add(real);
    const names = await disk.names(path);
    if (!names.ok) {
      problems.push({ path, message: names.reason });
      return;
    }
    if (names.value.some(({ name }) => IGNORE_FILES.includes(name))) await heed(path);
    for (const { name, kind } of [...names.value].sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const below = join(path, name);
      if (kind === "folder") {
        if (!skipped(name) && !rules.ignores(`${from(below)}/`)) await walk(below, join(real, name));
      } else if (!concerns(name) && kind !== "link") {
        // None of ours.
      } else if (rules.ignores(from(below))) {
        // Its owner wants it left out.
      } else if (kind === "link") {
        await follow(below, name);
      } else {
        if (kind === "file") await take(below, real);
        else problems.push({ path: below, message: "is not a regular file" });
      }
    }
  }

  /** What the folder wants left out. */
  async function heed(path: string): Promise<void> {
    for (const name of IGNORE_FILES) {
      const said = await disk.read(join(path, name), MOST_RULES);
      const at = from(path);
      if (said.ok) rules.add(at === "" ? "" : `${at}/`, new TextDecoder().decode(said.value));
    }
  }

  /** A link with no end is only worth a word where its name says it should have been a file of ours. */
  async function follow(path: string, name: string): Promise<void> {
    const look = await disk.look(path);
    if (!look.ok) {
      if (concerns(name))
        problems.push({ path, message: `is a link that leads nowhere: its end ${look.reason}` });
    } else if (leadsOut(look.value.real)) {
      if (concerns(name))
        problems.push({ path, message: "is a link that leads out of the folder, so it is not read" });
    } else if (look.value.kind === "folder") {
      if (!skipped(name)) await walk(path, look.value.real);
    } else if (concerns(name)) {
      await take(path);
    }
  }

  async function take(path: string, folder?: string): Promise<void> {
    const look = await disk.look(path, folder);
    if (!look.ok) problems.push({ path, message: look.reason });
    else if (look.value.kind !== "file") problems.push({ path, message: "is not a regular file" });
    else if (!seen.has(look.value.real)) {
      seen.add(look.value.real);
      const { real, size, changed } = look.value;
      files.push(defined({ path, real, size, changed }));
    }
  }
}

/** The root and the folders between it and one below it, from the outside in; none where it is the root or lies elsewhere. */
function foldersBetween(root: string, folder: string): string[] {
  const above: string[] = [];
  if (!isBelow(root, folder)) return above;
  for (let at = folder; at !== root && dirname(at) !== at; ) {
    at = dirname(at);
    above.unshift(at);
  }
  return above;
}

/**
 * What the files of a folder are judged by: the knowledge files below it and its other logs. Problems are those of
 * knowledge files only: what else cannot be read there was not asked for.
 */
export async function findAround(disk: Disk, folder: string): Promise<FoundFiles> {
  const { files, problems } = await findFiles(disk, folder);
  return { files, problems: problems.filter(({ path }) => knowledgeKind(basename(path)) !== undefined) };
}
