import { dirname, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import type { Report, ReportFile } from "../report/model";
import { OUR_ENDINGS } from "../workspace/host";
import { IGNORE_FILES } from "../workspace/ignore-rules";
import { checkGroup, isKeepable } from "./check-group";
import { type CheckedFiles, fileOf, openDesk, relativeToCwd } from "./desk";
import { type FoundFile, findAround } from "./find-files";
import { failed, type Io, type Tried } from "./io";
import { type Kept, keptOfGroup } from "./kept/keeper";
import { knowledgeRoot } from "./knowledge-root";
import type { CheckOptions } from "./options";
import { decode } from "./read-text";
import { type Seen, seeing } from "./seen";
import { type FileProblem, findTargets, type Group } from "./targets";
import type { Threads } from "./threads/messages";

/** Names that count in a folder. */
const LOOKED_FOR = [...OUR_ENDINGS, ...IGNORE_FILES];

type Step = (done: number, total: number) => void;

/** Of fewer files what was printed is not kept: they are found sooner, and their number takes the place of another's. */
const FEWEST_PRINTED = 50;

export interface Collected {
  readonly report: Report;
  /** What was looked at to find the files, where the report hangs on nothing else of the disk and they were all read. */
  readonly seen: Seen | undefined;
  /** The report may not be read any more. */
  close(): void;
}

/** Checks everything that was asked for; what cannot be read becomes a problem beside the findings of the rest. */
export async function collect(
  options: CheckOptions,
  io: Io,
  version: string,
  step: Step,
  threads?: Threads,
): Promise<Collected> {
  const began = io.clock?.();
  const looked = seeing(io.disk, LOOKED_FOR);
  const { groups, problems, given } =
    options.stdinPath === undefined
      ? { ...(await targets(options, { ...io, disk: looked.disk })), given: undefined }
      : await stdinTarget(options.stdinPath, io);
  const total = groups.reduce((sum, group) => sum + group.files.length, 0);
  const files: ReportFile[] = [];
  const unread: FileProblem[] = [...problems];
  const open: Kept[] = [];
  let otherMarkdown = 0;
  let isAllKept = began !== undefined && total >= FEWEST_PRINTED;
  let done = 0;
  const counted = (more = 0) => {
    done += more;
    step(done, total);
  };
  for (const group of groups) {
    const kept = given ? undefined : await keptOfGroup(group, options, io, began);
    if (kept) open.push(kept);
    const ready = kept?.ready();
    const checked = ready ? { files: ready, unread: [] } : await checkedAtDesk(group, kept);
    if (ready) counted(ready.length);
    isAllKept &&= kept !== undefined && checked.files.every(isKeepable);
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
  const report: Report = {
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
  const isTold = isAllKept && byPath.size === 0 && began !== undefined;
  return {
    report,
    seen: isTold ? looked.seen(began) : undefined,
    close() {
      for (const kept of open) kept.close();
    },
  };

  async function checkedAtDesk(group: Group, kept: Kept | undefined): Promise<CheckedFiles> {
    const desk = await openDesk(io.disk, group, options, io.cwd, given);
    const opening = { group, severity: options.severity, chosen: options.chosen, cwd: io.cwd };
    return checkGroup(
      desk,
      opening,
      { threads: given ? undefined : threads, keeper: kept?.keeper(desk) },
      counted,
    );
  }
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
