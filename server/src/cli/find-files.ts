import { basename, join } from "node:path";
import { isMarkdown, knowledgeKind } from "../workspace/host";
import type { Disk } from "./io";

export interface FoundFile {
  /** As it was come to; links are not followed in it. */
  readonly path: string;
  /** With every link followed. */
  readonly real: string;
  readonly size: number;
}

export interface Found {
  readonly files: readonly FoundFile[];
  readonly problems: readonly { readonly path: string; readonly message: string }[];
}

/** Folders that are never entered on the way down, as in the editor; one named on the command line is. */
const skipped = (name: string): boolean => name.startsWith(".") || name === "node_modules" || name === "dist";

/** True for the name of a file that may concern us, or a path with forward slashes. */
export const concerns = (name: string): boolean => isMarkdown(name) || knowledgeKind(name) !== undefined;

/**
 * Every file below a folder whose name is wanted, in the order of their names, each once: links are followed,
 * but no folder is entered twice, so one that leads back up does no harm.
 */
export async function findFiles(disk: Disk, folder: string, wanted = concerns): Promise<Found> {
  const files: FoundFile[] = [];
  const problems: { path: string; message: string }[] = [];
  const been = new Set<string>();
  const seen = new Set<string>();
  const top = await disk.look(folder);
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
    for (const { name, kind } of [...names.value].sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const below = join(path, name);
      if (kind === "folder") {
        if (!skipped(name)) await walk(below, join(real, name));
      } else if (kind === "link") {
        await follow(below, name);
      } else if (wanted(name)) {
        if (kind === "file") await take(below);
        else problems.push({ path: below, message: "is not a regular file" });
      }
    }
  }

  /** A link with no end is only worth a word where its name says it should have been a file of ours. */
  async function follow(path: string, name: string): Promise<void> {
    const look = await disk.look(path);
    if (!look.ok) {
      if (wanted(name))
        problems.push({ path, message: `is a link that leads nowhere: its end ${look.reason}` });
    } else if (look.value.kind === "folder") {
      if (!skipped(name)) await walk(path, look.value.real);
    } else if (wanted(name)) {
      await take(path);
    }
  }

  async function take(path: string): Promise<void> {
    const look = await disk.look(path);
    if (!look.ok) problems.push({ path, message: look.reason });
    else if (look.value.kind !== "file") problems.push({ path, message: "is not a regular file" });
    else if (!seen.has(look.value.real)) {
      seen.add(look.value.real);
      files.push({ path, real: look.value.real, size: look.value.size });
    }
  }
}

/**
 * What the files of a folder are judged by: the knowledge files below it and its other logs. Problems are those of
 * knowledge files only: what else cannot be read there was not asked for.
 */
export async function findAround(disk: Disk, folder: string): Promise<Found> {
  const { files, problems } = await findFiles(disk, folder);
  return { files, problems: problems.filter(({ path }) => knowledgeKind(basename(path)) !== undefined) };
}
