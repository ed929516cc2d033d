import { dirname, relative, resolve, sep } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { defined } from "../base/defined";
import type { LogView } from "../features/view";
import { isLog } from "../log/sniff";
import { buildFile } from "../report/build";
import type { Report, ReportFile } from "../report/model";
import { Service } from "../service";
import { knowledgeKind } from "../workspace/host";
import { pathOf } from "../workspace/node-host";
import { readWithin } from "../workspace/read-within";
import { canonicalUri } from "../workspace/uri";
import { type FoundFile, findAround } from "./find-files";
import { type Disk, failed, type Io, type Tried } from "./io";
import { isBelow, knowledgeRoot } from "./knowledge-root";
import type { CheckOptions } from "./options";
import { decode, readText } from "./read-text";
import { findTargets, type Group, type Problem } from "./targets";

/** Characters of logs whose parse is kept between being remembered and being checked. */
const KEEP = 8_000_000;

type Step = (done: number, total: number) => void;

/** Checks everything that was asked for; what cannot be read becomes a problem beside the findings of the rest. */
export async function collect(options: CheckOptions, io: Io, version: string, step: Step): Promise<Report> {
  const { groups, problems, given } =
    options.stdinPath === undefined
      ? { ...(await findTargets(io.disk, options.paths, io.cwd)), given: undefined }
      : await stdinTarget(options.stdinPath, io);
  const total = groups.reduce((sum, group) => sum + group.files.length, 0);
  const files: ReportFile[] = [];
  const unread: Problem[] = [...problems];
  let otherMarkdown = 0;
  let done = 0;
  for (const group of groups) {
    const desk = await openDesk(io.disk, group, options, io.cwd, given);
    for await (const _ of desk.remember()) step(done, total);
    for (const file of group.files) {
      const text = await desk.text(file);
      if (text.ok) {
        const checked = await desk.check(file, text.value);
        if (checked) files.push(checked);
        else otherMarkdown++;
      } else unread.push({ path: file.path, message: text.reason });
      step(++done, total);
    }
    unread.push(...desk.unread());
  }
  const byPath = new Map(unread.map(({ path, message }) => [path, { path: shown(io.cwd, path), message }]));
  return {
    version,
    baseUri: `${pathToFileURL(io.cwd).href.replace(/\/$/, "")}/`,
    failOn: options.failOn,
    severity: options.severity,
    files,
    otherMarkdown,
    problems: [...byPath.values()],
  };
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

interface Given {
  readonly path: string;
  readonly text: Tried<string>;
}

/** One service with the knowledge of one folder, and the way from its uris to paths and texts and back. */
export async function openDesk(
  disk: Disk,
  group: Group,
  options: Pick<CheckOptions, "severity"> & Partial<Pick<CheckOptions, "chosen">>,
  cwd: string,
  given?: Given,
) {
  const byReal = new Map<string, FoundFile>();
  for (const file of [...group.around, ...group.files])
    if (!byReal.has(file.real)) byReal.set(file.real, file);
  const byUri = new Map([...byReal.values()].map((file) => [uriOf(file.path), file]));
  const unread: Problem[] = [];
  const text = async (file: FoundFile): Promise<Tried<string>> =>
    given?.path === file.path ? given.text : readText(disk, file.path, file.size);
  const service = new Service({
    list: async () => [...byUri.keys()],
    async read(uri) {
      const file = byUri.get(uri);
      if (!file) return undefined;
      const read = await text(file);
      // A log that is only there to be remembered was not asked for.
      if (!read.ok && knowledgeKind(uri)) unread.push({ path: file.path, message: read.reason });
      return read.ok ? read.value : undefined;
    },
    async readBytes(uri, most) {
      const path = pathOf(uri);
      return path === undefined
        ? { ok: false, reason: "outside" }
        : readWithin(disk, [group.root], path, most);
    },
  });
  service.settings = {
    otherwise: defined({ severity: options.severity, options: options.chosen }),
    folders: [],
  };
  await service.load();
  const other = (uri: string) => {
    const path = byUri.get(uri)?.path ?? fileURLToPath(uri);
    return { path: shown(cwd, path), text: service.text(uri) ?? "" };
  };
  return {
    text,
    knowledge: () => service.knowledge.snapshot(),
    /** All logs that are known; after `remember`. */
    jobs: () => service.jobs(),
    unread: () => unread,
    /** Absolute path of a file that is known. */
    path: (uri: string): string => byUri.get(uri)?.path ?? fileURLToPath(uri),
    /** Limits for a board's file from what its logs read, with the path of that file; undefined where there is none. */
    proposeLimits(board: string) {
      const proposed = service.proposeLimits(board);
      return proposed && { ...proposed, path: byUri.get(proposed.uri)?.path ?? fileURLToPath(proposed.uri) };
    },
    /** Reads all logs around, so that every one is checked with every other one known. */
    remember: () => service.index({ keep: KEEP }),
    /** Undefined for Markdown that is no log. */
    async check(file: FoundFile, text: string): Promise<ReportFile | undefined> {
      const uri = uriOf(byReal.get(file.real)?.path ?? file.path);
      const kind = knowledgeKind(uri) ?? "log";
      if (kind === "log" && !isLog(text)) return undefined;
      service.open(uri, text);
      const fixes = (finding: Parameters<Service["fixes"]>[1]) => service.fixes(uri, finding);
      if (kind === "log") await service.prepareImages(uri);
      const findings = service.findings(uri);
      const checked = buildFile({ path: shown(cwd, file.path), kind, text, findings, fixes, other });
      if (kind === "log") await service.close(uri);
      return checked;
    },
    /** The log of a file with all that is known around it; undefined for what is no log. */
    async view(file: FoundFile, text: string): Promise<LogView | undefined> {
      const uri = uriOf(byReal.get(file.real)?.path ?? file.path);
      if (knowledgeKind(uri) || !isLog(text)) return undefined;
      service.open(uri, text);
      await service.prepareImages(uri);
      const view = service.view(uri);
      await service.close(uri);
      return view;
    },
  };
}

const uriOf = (path: string): string => canonicalUri(pathToFileURL(path).href);

/** Relative where it lies below the current folder, with forward slashes. */
export function shown(cwd: string, path: string): string {
  const way = isBelow(cwd, path) ? relative(cwd, path) || "." : path;
  return way.split(sep).join("/");
}
