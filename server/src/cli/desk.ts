// A folder's logs and knowledge files as one service, and the way from its uris to paths and texts and back.
import { relative, sep } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { defined } from "../base/defined";
import { withLater } from "../base/later";
import type { LogView } from "../features/view";
import { isLog } from "../log/sniff";
import { buildFile } from "../report/build";
import type { FileKind, ReportFile } from "../report/model";
import { Service } from "../service";
import { boardsNamedIn, namesNoFile } from "../workspace/finding-stamps";
import { isMarkdown, type KnowledgeKind, knowledgeKind } from "../workspace/host";
import { pathOf } from "../workspace/node-host";
import { readWithin } from "../workspace/read-within";
import type { Remembered } from "../workspace/remembered";
import { textHash } from "../workspace/text-hash";
import { canonicalUri } from "../workspace/uri";
import type { FoundFile } from "./find-files";
import type { Disk, Tried } from "./io";
import { isBelow } from "./knowledge-root";
import type { CheckOptions } from "./options";
import { readText } from "./read-text";
import type { FileProblem, Group } from "./targets";

/** Characters of logs whose parse is kept between being remembered and being checked. */
const KEEP = 400_000;

/** A file that is read from elsewhere than the disk. */
export interface Given {
  readonly path: string;
  readonly text: Tried<string>;
}

/** The files around and those asked for, each once, under the name by which it was come to first. */
export function distinctFiles({ around, files }: Group): FoundFile[] {
  const byReal = new Map<string, FoundFile>();
  for (const file of [...around, ...files]) if (!byReal.has(file.real)) byReal.set(file.real, file);
  return [...byReal.values()];
}

/** One service with the knowledge of one folder, and the way from its uris to paths and texts and back. */
export async function openDesk(
  disk: Disk,
  group: Group,
  options: Pick<CheckOptions, "severity"> & Partial<Pick<CheckOptions, "chosen">>,
  cwd: string,
  given?: Given,
) {
  const byReal = new Map(distinctFiles(group).map((file) => [file.real, file]));
  const byUri = new Map([...byReal.values()].map((file) => [uriOf(file.path), file]));
  const unread: FileProblem[] = [];
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
    return { path: relativeToCwd(cwd, path), text: service.text(uri) ?? "" };
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
    /** Its uri under the name by which it was come to first. */
    uri: (file: FoundFile): string => uriOf(byReal.get(file.real)?.path ?? file.path),
    boardOf: (id: string) => service.boardOf(id),
    /** What the jobs add up to of which this is true; after `remember`. */
    numbers: (counts: (uri: string) => boolean) => service.numbers(counts),
    /** Reads all logs around, so that every one is checked with every other one known. */
    remember: () => service.index({ keep: KEEP }),
    /** The Markdown files around and among those asked for, each once, in one order for the same group. */
    markdown: (): readonly FoundFile[] => [...byReal.values()].filter(({ path }) => isMarkdown(path)),
    /** What is remembered of one of them; nothing where it cannot be read: whoever asked for it hears of that. */
    async sum(file: FoundFile): Promise<Remembered> {
      const read = await text(file);
      const uri = uriOf(file.path);
      return read.ok ? service.sum(uri, read.value) : { uri };
    },
    /** What is remembered of them; after `remember` or `recall`. */
    remembered: (): ReadonlyMap<string, Remembered> => service.remembered(),
    /** Stands for the devices and procedures that logs are read with. */
    library: (): string => knowledgeHash(service, (kind) => kind === "device" || kind === "procedure"),
    /** Stands for all knowledge files. */
    judgedBy: (): string => knowledgeHash(service, () => true),
    related: (uri: string) => service.relatedJobs(uri),
    /** The boards that a log names; after `remember` or `recall`. */
    boardsNamed: (uri: string): readonly string[] => boardsNamedIn(service.memory().logs.get(uri)),
    /** In place of `remember`: all of it, as another thread or another time found it. */
    recall: (all: Iterable<Remembered>) => service.recall(all),
    /** Undefined for Markdown that is no log. */
    async check(file: FoundFile, text: string): Promise<ReportFile | undefined> {
      const uri = uriOf(byReal.get(file.real)?.path ?? file.path);
      const kind = knowledgeKind(uri) ?? "log";
      if (kind === "log" && !isLog(text)) return undefined;
      service.open(uri, text);
      const fix = (finding: Parameters<Service["fixes"]>[1]) => service.preferredFix(uri, finding);
      if (kind === "log") await service.prepareImages(uri);
      const findings = service.findings(uri);
      const checked = buildFile({ path: relativeToCwd(cwd, file.path), kind, text, findings, fix, other });
      if (kind === "log") await service.close(uri);
      return checked;
    },
    /** The same with its findings. */
    async whole(file: FoundFile, text: string) {
      const uri = uriOf(byReal.get(file.real)?.path ?? file.path);
      if (knowledgeKind(uri) || !isLog(text)) return undefined;
      service.open(uri, text);
      await service.prepareImages(uri);
      const view = service.view(uri);
      const findings = service.findings(uri);
      await service.close(uri);
      return view && { view, findings };
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

/** By their texts alone: none of them is loaded for it. */
function knowledgeHash({ knowledge }: Service, counts: (kind: KnowledgeKind) => boolean): string {
  const files = knowledge.uris().flatMap((uri) => {
    const kind = knowledgeKind(uri);
    return kind && counts(kind) ? [[uri, knowledge.text(uri)]] : [];
  });
  return textHash(JSON.stringify(files));
}

/** A folder that is being looked at; see `openDesk`. */
export type Desk = Awaited<ReturnType<typeof openDesk>>;

/** A checked file as JSON of a `ReportFile`, as it is handed about and kept, or why there is none. */
export type Checked =
  | {
      readonly is: "checked";
      readonly path: string;
      readonly kind: FileKind;
      /** May be read whenever it is asked for. */
      readonly json: string;
      /** No picture or memory image bears on it. */
      readonly alone: boolean;
    }
  | { readonly is: "no log" }
  | { readonly is: "unread"; readonly reason: string };

export interface CheckedFiles {
  /** In the order in which they were asked for. */
  readonly files: readonly Checked[];
  /** Knowledge files that could not be read. */
  readonly unread: readonly FileProblem[];
}

/** The findings of one file, or why there are none; `alone` where no picture or image beside it can change them. */
export async function checkedBy(desk: Desk, file: FoundFile): Promise<Checked> {
  const text = await desk.text(file);
  if (!text.ok) return { is: "unread", reason: text.reason };
  const checked = await desk.check(file, text.value);
  if (!checked) return { is: "no log" };
  const { path, kind } = checked;
  return { is: "checked", path, kind, json: JSON.stringify(checked), alone: namesNoFile(text.value) };
}

/** The last one: its text and its findings are asked for one after the other. */
let unpacked: { readonly of: Checked; readonly file: ReportFile } | undefined;

/** The file again. Its text and findings are unpacked when they are asked for, and not held on to. */
export function fileOf(checked: Extract<Checked, { is: "checked" }>): ReportFile {
  const { path, kind } = checked;
  const whole = (): ReportFile => {
    if (unpacked?.of !== checked) unpacked = { of: checked, file: JSON.parse(checked.json) as ReportFile };
    return unpacked.file;
  };
  return withLater({ path, kind }, { text: () => whole().text, findings: () => whole().findings });
}

const uriOf = (path: string): string => canonicalUri(pathToFileURL(path).href);

/** Relative where it lies below the current folder, with forward slashes. */
export function relativeToCwd(cwd: string, path: string): string {
  const way = isBelow(cwd, path) ? relative(cwd, path) || "." : path;
  return way.split(sep).join("/");
}
