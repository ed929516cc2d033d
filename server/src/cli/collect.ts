import { dirname, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import type { Report, ReportFile } from "../report/model";
import { checkGroup } from "./check-group";
import { fileOf, openDesk, relativeToCwd } from "./desk";
import { type FoundFile, findAround } from "./find-files";
import { failed, type Io, type Tried } from "./io";
import { keeperFor } from "./kept/keeper";
import { knowledgeRoot } from "./knowledge-root";
import type { CheckOptions } from "./options";
import { decode } from "./read-text";
import { type FileProblem, findTargets } from "./targets";
import type { Threads } from "./threads/messages";

type Step = (done: number, total: number) => void;

/** Checks everything that was asked for; what cannot be read becomes a problem beside the findings of the rest. */
export async function collect(
  options: CheckOptions,
  io: Io,
  version: string,
  step: Step,
  threads?: Threads,
): Promise<Report> {
  const { groups, problems, given } =
    options.stdinPath === undefined
      ? { ...(await targets(options, io)), given: undefined }
      : await stdinTarget(options.stdinPath, io);
  const total = groups.reduce((sum, group) => sum + group.files.length, 0);
  const files: ReportFile[] = [];
  const unread: FileProblem[] = [...problems];
  let otherMarkdown = 0;
  let done = 0;
  const counted = (more = 0) => {
    done += more;
    step(done, total);
  };
  for (const group of groups) {
    const desk = await openDesk(io.disk, group, options, io.cwd, given);
    const opening = { group, severity: options.severity, chosen: options.chosen, cwd: io.cwd };
    const keeper = given ? undefined : await keeperFor(group.root, desk, options, io);
    const checked = await checkGroup(
      desk,
      opening,
      { threads: given ? undefined : threads, keeper },
      counted,
    );
    for (const [i, file] of checked.files.entries()) {
      if (file.is === "checked") files.push(fileOf(file));
      else if (file.is === "no log") otherMarkdown++;
      else unread.push({ path: group.files[i]!.path, message: file.reason });
    }
    unread.push(...checked.unread);
  }
  const byPath = new Map(
    unread.map(({ path, message }) => [path, { path: relativeToCwd(io.cwd, path), message }]),
  );
  return {
    version,
    baseUri: `${pathToFileURL(io.cwd).href.replace(/\/$/, "")}/`,
    failOn: options.failOn,
    severity: new Map(
      [...options.severity].flatMap(([code, level]) => (level === "default" ? [] : [[code, level]])),
    ),
    files,
    otherMarkdown,
    problems: [...byPath.values()],
  };
}

/** Of what was named, where that is asked for, only what changed since a revision. */
async function targets({ paths, since }: CheckOptions, io: Io) {
  const found = await findTargets(io.disk, paths, io.cwd);
  if (since === undefined) return found;
  const changed = (await io.changedSince?.(since)) ?? failed("needs git, which is not here");
  if (!changed.ok) {
    const problem: FileProblem = { path: `--since ${since}`, message: changed.reason };
    return { groups: [], problems: [...found.problems, problem] };
  }
  const names = new Set(changed.value);
  const groups = found.groups.map((group) => ({
    ...group,
    files: group.files.filter(({ path, real }) => names.has(path) || names.has(real)),
  }));
  return { ...found, groups: groups.filter(({ files }) => files.length > 0) };
}

/** Standard input as a file of that name; the disk is asked only for what it is judged by. */
async function stdinTarget(name: string, io: Io) {
  const path = resolve(io.cwd, name);
  const bytes = await io.stdin();
  const text: Tried<string> = bytes.ok ? decode(bytes.value) : bytes;
  const root = await knowledgeRoot(io.disk, dirname(path), io.cwd);
  const around = await findAround(io.disk, root);
  const look = await io.disk.look(path);
  const file: FoundFile = { path, real: look.ok ? look.value.real : path, size: 0 };
  const named = text.ok ? text : failed(`(standard input) ${text.reason}`);
  return {
    groups: [{ root, files: [file], around: around.files }],
    problems: around.problems,
    given: { path, text: named },
  };
}
