// The command that makes a board file of netlists, board layouts and parts lists, or adds them to one that is there.

import { basename, dirname, resolve } from "node:path";
import { defined } from "../../base/defined";
import { importBoard, isIncomplete, MOST_IMPORTED, reportText } from "../../knowledge/import";
import { decodeImported } from "../../knowledge/import/decode";
import type { Library } from "../../knowledge/library";
import { loadBoard } from "../../knowledge/load-board";
import { json } from "../../text/json";
import { terminal, visible, visibleFile, visibleLines } from "../../text/terminal";
import { openDesk, relativeToCwd } from "../desk";
import { findAround } from "../find-files";
import { type Disk, done, failed, type Io, type Tried } from "../io";
import { knowledgeRoot } from "../knowledge-root";
import { decode, MOST_LOG_BYTES } from "../read-text";
import { tell } from "../tell";
import { isLink } from "../write-output";
import type { ImportOptions } from "./options";

const ENDING = /\.board\.ya?ml$/i;

/** Where the board file is to go. */
interface Target {
  /** Absolute, links followed where the file is there. */
  readonly path: string;
  /** Absent where there is no such file yet. */
  readonly existing?: { readonly text: string; readonly mark: boolean };
}

/** Gives the exit status: 0 imported, 1 where something in a file was not read, 2 where nothing was written. */
export async function runBoardImport(options: ImportOptions, io: Io): Promise<number> {
  const told = (message: string): void => tell(io, message);
  const refuse = (messages: readonly string[]): number => {
    for (const message of messages) told(message);
    return 2;
  };
  const { output } = options;
  const target = output === undefined ? undefined : await targetOf(output, options.board, io);
  if (target && !target.ok) return refuse([`${output} ${target.reason}.`]);
  const into = target?.value;
  const { files, problems } = await readFiles(options.paths, io);
  const unread = problems.filter(({ fatal }) => fatal).map(({ text }) => text);
  if (unread.length > 0) return refuse(unread);
  for (const { text } of problems) told(text);

  const { library, unread: unknown } = await libraryFor(into ? dirname(into.path) : io.cwd, io);
  for (const text of unknown) told(text);
  const steps = importBoard(
    defined({
      files,
      library,
      id: idFor(options),
      existing: into?.existing ? into.existing.text : undefined,
    }),
  );
  let step = steps.next();
  while (!step.done) step = steps.next();
  const made = step.value;
  if (!made.ok) return refuse(made.reasons);

  const written = into ? await write(into, made.text, io.disk) : done(false);
  if (!written.ok) return refuse([`${output} ${written.reason}. Nothing was changed.`]);
  const name = into && relativeToCwd(io.cwd, into.path);
  if (options.format === "json")
    io.out.write(
      json({ format: 1, ...(into ? { output: name! } : { text: made.text }), report: made.report }),
    );
  else {
    io.err.write(visibleLines(reportText(made.report)));
    io.out.write(name === undefined ? visibleFile(made.text) : terminal`${visible(name)}\n`);
  }
  return isIncomplete(made.report) ? 1 : 0;
}

export async function targetOf(
  output: string,
  board: string | undefined,
  { cwd, disk }: Io,
): Promise<Tried<Target>> {
  const path = resolve(cwd, output);
  if (!ENDING.test(path))
    return failed(
      `is no name for a board file: those end in .board.yaml, such as ${basename(path).replace(/\.\w+$/, "")}.board.yaml`,
    );
  if (await isLink(path, disk)) return failed("is refused: it is a link. Name the file itself");
  const there = await disk.look(path);
  if (!there.ok) {
    const folder = await disk.look(dirname(path));
    return folder.ok && folder.value.kind === "folder"
      ? done({ path })
      : failed(`cannot be written: the folder ${relativeToCwd(cwd, dirname(path))} is not there`);
  }
  if (there.value.kind !== "file") return failed("is no file, so nothing can be added to it");
  const bytes = await disk.read(there.value.real, MOST_LOG_BYTES);
  const text = bytes.ok ? decode(bytes.value) : bytes;
  if (!text.ok) return text;
  const id = loadBoard(text.value).value?.id;
  if (board !== undefined && id !== undefined && id !== board)
    return failed(
      `is the board file of ${id}, not of ${board}, and stays as it is. Leave out --board to add to it`,
    );
  const mark = bytes.ok && bytes.value[0] === 0xef && bytes.value[1] === 0xbb;
  return done({ path: there.value.real, existing: { text: text.value, mark } });
}

interface Read {
  readonly files: readonly { readonly name: string; readonly text: string }[];
  /** Sentences; with a fatal one nothing is imported. */
  readonly problems: readonly { readonly text: string; readonly fatal: boolean }[];
}

async function readFiles(paths: readonly string[], { cwd, disk }: Io): Promise<Read> {
  const files: { name: string; text: string }[] = [];
  const problems: { text: string; fatal: boolean }[] = [];
  for (const path of paths) {
    const read = await readOne(resolve(cwd, path), disk);
    if (!read.ok) problems.push({ text: `${path} ${read.reason}.`, fatal: true });
    else {
      files.push({ name: basename(path), text: read.value.text });
      if (read.value.note !== undefined) problems.push({ text: `${path} ${read.value.note}.`, fatal: false });
    }
  }
  return { files, problems };
}

async function readOne(
  path: string,
  disk: Disk,
): Promise<Tried<{ readonly text: string; readonly note?: string }>> {
  const look = await disk.look(path);
  if (!look.ok) return look;
  if (look.value.kind !== "file") return failed("is no file");
  const megabytes = (bytes: number): string => `${Math.round(bytes / 1024 / 1024)} MiB`;
  if (look.value.size > MOST_IMPORTED)
    return failed(
      `is not read: it is ${megabytes(look.value.size)} large, and ${megabytes(MOST_IMPORTED)} is the most. Export the one board alone`,
    );
  const bytes = await disk.read(path, MOST_IMPORTED);
  if (!bytes.ok) return bytes;
  const text = decodeImported(bytes.value);
  return text.ok ? done(text) : text;
}

/** The built-in devices and those of the workspace that the board file is to lie in, and what of them could not be read. */
async function libraryFor(
  folder: string,
  { disk, cwd }: Io,
): Promise<{ readonly library: Library; readonly unread: readonly string[] }> {
  const root = await knowledgeRoot(disk, folder, cwd);
  const around = await findAround(disk, root);
  const group = { root, files: [], around: around.files };
  const desk = await openDesk(disk, group, { severity: new Map() }, cwd);
  const unread = [...around.problems, ...desk.unread()];
  return {
    library: desk.knowledge().library,
    unread: unread.map(({ path, message }) => `${relativeToCwd(cwd, path)} ${message}.`),
  };
}

/** What the person said, else what the board file is called, else what the first file is called. */
function idFor({ board, output, paths }: ImportOptions): string {
  if (board !== undefined) return board;
  const path = output ?? paths[0] ?? "";
  return basename(path).replace(output === undefined ? /\.\w+$/ : ENDING, "");
}

/** True where something was changed. */
export async function write({ path, existing }: Target, text: string, disk: Disk): Promise<Tried<boolean>> {
  if (existing?.text === text) return done(false);
  const written = existing
    ? await disk.replace(path, `${existing.mark ? "\uFEFF" : ""}${text}`)
    : await disk.create(path, text);
  return written.ok ? done(true) : written;
}
