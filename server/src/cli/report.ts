import { resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { isLog } from "../log/sniff";
import type { Paper } from "../report/paper";
import { Service } from "../service";
import type { PrintedPage as PaperText } from "../text/printable";
import { isMarkdown, knowledgeKind } from "../workspace/host";
import { pathOf } from "../workspace/node-host";
import { readWithin } from "../workspace/read-within";
import { canonicalUri } from "../workspace/uri";
import { relativeToCwd } from "./desk";
import { done, failed, type Io, type Tried } from "./io";
import type { ReportOptions } from "./options";
import { readText } from "./read-text";
import { type FileProblem, findTargets } from "./targets";
import { tellOf } from "./tell";
import { writeOutput } from "./write-output";

export async function runReport(paper: Paper, options: ReportOptions, io: Io): Promise<number> {
  const made = await make(paper, options, io);
  const output = options.output;
  const told = (path: string, reason: string): number => {
    tellOf(io, path, reason);
    return 2;
  };
  if (!made.ok) return told(options.path, made.reason);
  const { text, root, unread } = made.value;
  for (const { path, message } of unread) told(relativeToCwd(io.cwd, path), message);
  // As with every command: what could be done is done, and it is not called all there is.
  const complete = unread.length === 0 ? 0 : 2;
  if (output === undefined) {
    io.out.write(text);
    return complete;
  }
  const written = await writeOutput(output, text, { force: options.force, within: [io.cwd, root] }, io);
  return written.ok ? complete : told(output, written.reason);
}

/** The report's text, the folder of the workspace that the log is of, and what it was to be made from but could not be read. */
async function make(
  paper: Paper,
  { path, format, owner }: ReportOptions,
  { disk, cwd }: Io,
): Promise<
  Tried<{ readonly text: PaperText; readonly root: string; readonly unread: readonly FileProblem[] }>
> {
  const isSheet = paper === "sheet";
  // A board may be meant by its id alone, where no file is called so.
  const byId = isSheet && /^[\w.-]+$/.test(path) && !isMarkdown(path) && !knowledgeKind(path);
  const log = resolve(cwd, byId ? "." : path);
  const isBoard = byId || (isSheet && knowledgeKind(log.replaceAll("\\", "/")) === "board");
  if (!isBoard && !isMarkdown(log.replaceAll("\\", "/")))
    return failed(`is not a log: logs are Markdown files${isSheet ? ", and boards end in .board.yaml" : ""}`);
  const look = await disk.look(log);
  if (!look.ok) return look;
  if (!byId && look.value.kind !== "file") return failed("is not a file: this is of one log");
  const { groups, problems } = await findTargets(disk, [log], cwd);
  const group = groups[0];
  if (!group) return failed("is not a log: logs are Markdown files");
  const text: Tried<string> = isBoard
    ? done("")
    : await readText(disk, log, look.value.kind === "file" ? look.value.size : 0);
  if (!text.ok) return text;
  if (!isBoard && !isLog(text.value)) return failed('is not a log: its front matter has no "mendlog: 1"');
  const uri = uriOf(log);
  const byUri = new Map([...group.around, ...group.files].map((file) => [uriOf(file.path), file]));
  const unread = new Map(problems.map((problem) => [problem.path, problem]));
  const service = new Service({
    list: async () => [...byUri.keys()],
    async read(of) {
      const file = byUri.get(of);
      const path = file?.path ?? fileURLToPath(of);
      const read = await readText(disk, path, file?.size ?? 0);
      // A log that is only there to be remembered was not asked for.
      if (!read.ok && knowledgeKind(of)) unread.set(path, { path, message: read.reason });
      return read.ok ? read.value : undefined;
    },
    async readBytes(of, most) {
      const at = pathOf(of);
      return at === undefined ? { ok: false, reason: "outside" } : readWithin(disk, [group.root], at, most);
    },
  });
  await service.load();
  // The shop's own limits come of its other jobs.
  for await (const _ of service.index());
  if (!isBoard) service.open(uri, text.value);
  const { boards } = service.knowledge.snapshot();
  const of = byId ? boards.get(path)?.uri : uri;
  if (of === undefined) {
    const ids = [...boards.keys()].sort().join(", ");
    return failed(
      `is no board at or below this folder${ids === "" ? "" : `. Boards there: ${ids}`}. Name a log or a *.board.yaml`,
    );
  }
  const report = await service.paper(paper, of, format, undefined, owner);
  return report === undefined
    ? failed(isBoard ? "cannot be read as a board file: mendlog check says why" : "is not a log")
    : done({ text: report, root: group.root, unread: [...unread.values()] });
}

const uriOf = (path: string): string => canonicalUri(pathToFileURL(path).href);
