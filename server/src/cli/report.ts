import { basename, dirname, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { isLog } from "../log/sniff";
import { Service } from "../service";
import { isMarkdown, knowledgeKind } from "../workspace/host";
import { pathOf } from "../workspace/node-host";
import { readWithin } from "../workspace/read-within";
import { canonicalUri } from "../workspace/uri";
import { shown } from "./collect";
import { done, failed, type Io, type Tried } from "./io";
import { isBelow } from "./knowledge-root";
import type { ReportOptions } from "./options";
import { readText } from "./read-text";
import { spareSource } from "./source-file";
import { findTargets, type Problem } from "./targets";

export async function runReport(options: ReportOptions, io: Io): Promise<number> {
  const made = await make(options, io);
  const output = options.output;
  const told = (path: string, reason: string): number => {
    io.err.write(`mendlog: ${path} ${reason}.\n`);
    return 2;
  };
  if (!made.ok) return told(options.path, made.reason);
  const { text, root, unread } = made.value;
  for (const { path, message } of unread) told(shown(io.cwd, path), message);
  // As with every command: what could be done is done, and it is not called all there is.
  const complete = unread.length === 0 ? 0 : 2;
  if (output === undefined) {
    io.out.write(text);
    return complete;
  }
  const target = resolve(io.cwd, output);
  const may = await mayWrite(target, root, options.force, io);
  if (!may.ok) return told(output, may.reason);
  const written = await io.disk.write(target, text);
  return written.ok ? complete : told(output, written.reason);
}

/** The report's text, the folder of the workspace that the log is of, and what it was to be made from but could not be read. */
async function make(
  { path, format }: ReportOptions,
  { disk, cwd }: Io,
): Promise<Tried<{ readonly text: string; readonly root: string; readonly unread: readonly Problem[] }>> {
  const log = resolve(cwd, path);
  if (!isMarkdown(log.replaceAll("\\", "/"))) return failed("is not a log: logs are Markdown files");
  const look = await disk.look(log);
  if (!look.ok) return look;
  if (look.value.kind !== "file") return failed("is not a file: a report is of one log");
  const { groups, problems } = await findTargets(disk, [log], cwd);
  const group = groups[0];
  if (!group) return failed("is not a log: logs are Markdown files");
  const text = await readText(disk, log, look.value.size);
  if (!text.ok) return text;
  if (!isLog(text.value)) return failed('is not a log: its front matter has no "mendlog: 1"');
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
  service.open(uri, text.value);
  const report = await service.report(uri, format);
  return report === undefined
    ? failed("is not a log")
    : done({ text: report, root: group.root, unread: [...unread.values()] });
}

/** Below the current folder or the workspace, links followed, and on nothing that is there unless that was asked for. */
async function mayWrite(target: string, root: string, force: boolean, io: Io): Promise<Tried<void>> {
  const { disk, cwd } = io;
  const folder = await disk.look(dirname(target));
  if (!folder.ok) return failed("cannot be written: its folder is not there");
  const homes = await Promise.all([cwd, root].map((home) => disk.look(home)));
  const isInside = (real: string): boolean => homes.some((home) => home.ok && isBelow(home.value.real, real));
  const outside = failed(
    `is refused: it lies outside the current folder and outside the workspace of the log (${root})`,
  );
  if (!isInside(folder.value.real)) return outside;
  const there = await disk.look(target);
  const names = await disk.names(dirname(target));
  const link = names.ok && names.value.some(({ name, kind }) => name === basename(target) && kind === "link");
  if (!there.ok && !link) return done(undefined);
  if (link) return failed("is refused: it is a link. Name the file itself");
  if (there.ok && there.value.kind !== "file") return failed("is refused: it is not a file");
  if (!force) return failed("is there already, and nothing was written. Say --force to write over it");
  return spareSource(target, disk);
}

const uriOf = (path: string): string => canonicalUri(pathToFileURL(path).href);
