import { dirname, resolve } from "node:path";
import { defined } from "../base/defined";
import { concerns, type FoundFile, findAround, findFiles } from "./find-files";
import type { Disk } from "./io";
import { knowledgeRoot } from "./knowledge-root";

/** A path that could not be used, and why, as the end of a sentence. */
export interface FileProblem {
  readonly path: string;
  readonly message: string;
}

/** Files to check, and the knowledge files and other logs of the folder they are judged by. */
export interface Group {
  readonly root: string;
  readonly files: readonly FoundFile[];
  readonly around: readonly FoundFile[];
}

/** Finds the files to check, each once, grouped by the folder they are judged by. */
export async function findTargets(
  disk: Disk,
  paths: readonly string[],
  cwd: string,
): Promise<{ groups: readonly Group[]; problems: readonly FileProblem[] }> {
  const problems: FileProblem[] = [];
  const byRoot = new Map<string, FoundFile[]>();
  const taken = new Set<string>();
  for (const path of new Set(paths.map((p) => resolve(cwd, p)))) {
    const { root, files } = await filesAt(path);
    const fresh = files.filter((file) => !taken.has(file.real));
    for (const file of fresh) taken.add(file.real);
    if (root === undefined) continue;
    byRoot.set(root, [...(byRoot.get(root) ?? []), ...fresh]);
  }
  const groups: Group[] = [];
  for (const [root, files] of byRoot) {
    const around = await findAround(disk, root);
    problems.push(...around.problems);
    groups.push({ root, files, around: around.files });
  }
  return { groups, problems: distinct(problems) };

  async function filesAt(path: string): Promise<{ root?: string; files: readonly FoundFile[] }> {
    const look = await disk.look(path);
    if (!look.ok) {
      problems.push({ path, message: look.reason });
      return { files: [] };
    }
    const { kind, real, size, changed } = look.value;
    if (kind === "folder") {
      const root = await knowledgeRoot(disk, path, cwd);
      const found = await findFiles(disk, path, root);
      problems.push(...found.problems);
      return { root, files: found.files };
    }
    if (kind === "other") problems.push({ path, message: "is not a regular file" });
    else if (concerns(path.replaceAll("\\", "/"))) {
      const root = await knowledgeRoot(disk, dirname(path), cwd);
      return { root, files: [defined({ path, real, size, changed })] };
    } else problems.push({ path, message: "is neither Markdown nor a knowledge file" });
    return { files: [] };
  }
}

function distinct(problems: readonly FileProblem[]): FileProblem[] {
  const byPath = new Map(problems.map((problem) => [problem.path, problem]));
  return [...byPath.values()].sort((a, b) => (a.path < b.path ? -1 : 1));
}
