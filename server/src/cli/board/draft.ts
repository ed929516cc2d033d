// The command that makes a board file of what the logs of a board say, or adds it to one that is there.

import { resolve } from "node:path";
import { defined } from "../../base/defined";
import { draftFile } from "../../features/board-file/draft";
import type { LogView } from "../../features/view";
import { idOf } from "../../knowledge/board-file";
import { peekLog } from "../../log/peek";
import { isLog } from "../../log/sniff";
import { nearest } from "../../text/nearest";
import { visibleFile } from "../../text/terminal";
import { isMarkdown } from "../../workspace/host";
import { openDesk, relativeToCwd } from "../desk";
import type { FoundFile } from "../find-files";
import { done, failed, type Io, type Tried } from "../io";
import { findTargets } from "../targets";
import { tell } from "../tell";
import { targetOf, write } from "./import";
import type { DraftOptions } from "./options";

/** The logs that are looked at, and the board files around them. */
interface Reading {
  readonly logs: readonly Log[];
  /** Text of each board's file, by its id. */
  readonly boards: ReadonlyMap<string, { readonly path: string; readonly text: string }>;
  readonly unread: ReadonlyMap<string, string>;
}

interface Log {
  readonly path: string;
  /** Board id as written. */
  readonly board?: string;
  /** It was named on the command line itself. */
  readonly isNamed: boolean;
  view(): Promise<LogView | undefined>;
}

interface Drafted {
  readonly id: string;
  readonly text: string;
  /** What there is to say of it, as sentences. */
  readonly notes: readonly string[];
}

/** Gives the exit status: 0 written, 2 where nothing was or a log could not be read. */
export async function runBoardDraft(options: DraftOptions, io: Io): Promise<number> {
  const reading = await readLogs(options.paths, io);
  for (const [path, message] of reading.unread) tell(io, `${relativeToCwd(io.cwd, path)} ${message}.`);
  const made = await make(options, reading, io);
  if (!made.ok) {
    tell(io, made.reason);
    return 2;
  }
  for (const note of made.value.notes) tell(io, note);
  io.out.write(visibleFile(made.value.text));
  return reading.unread.size === 0 ? 0 : 2;
}

/** The text for standard output: the board file, or the path it was written to. */
async function make(options: DraftOptions, reading: Reading, io: Io): Promise<Tried<Drafted>> {
  const { output, board } = options;
  const chosen = choose(board, reading, options.paths);
  if (!chosen.ok) return chosen;
  const { id, name, logs } = chosen.value;
  const target = output === undefined ? undefined : await targetOf(output, id, io);
  if (target && !target.ok) return failed(`${output} ${target.reason}.`);
  const there = reading.boards.get(id);
  if (target && there && !target.value.existing)
    return failed(
      `${relativeToCwd(io.cwd, there.path)} is the board file of ${id} already. Say -o ${relativeToCwd(io.cwd, there.path)} to add to it.`,
    );
  const views = (await Promise.all(logs.map((log) => log.view()))).filter((view) => view !== undefined);
  const [first] = views;
  if (!first) return failed("the logs could not be read.");
  const existing = target ? target.value.existing?.text : there?.text;
  const made = draftFile({ logs: views, library: first.doc.library, name, existing });
  if (!made.ok) return failed(`${output ?? id}: ${made.reason}`);
  const written = target ? await write(target.value, made.text, io.disk) : undefined;
  if (written && !written.ok) return failed(`${output} ${written.reason}. Nothing was changed.`);
  const from = `${views.length} ${views.length === 1 ? "log" : "logs"}`;
  return done({
    id,
    text: target ? `${relativeToCwd(io.cwd, target.value.path)}\n` : made.text,
    notes: [
      `${id}: ${made.told} from ${from}.`,
      ...(existing !== undefined && made.edits.length === 0
        ? ["all of it was in the board file already."]
        : []),
      ...made.notes,
    ],
  });
}

async function readLogs(paths: readonly string[], io: Io): Promise<Reading> {
  const { groups, problems } = await findTargets(io.disk, paths, io.cwd);
  const unread = new Map(problems.map(({ path, message }) => [path, message]));
  const named = new Set(paths.map((path) => resolve(io.cwd, path)));
  const logs: Log[] = [];
  const boards = new Map<string, { path: string; text: string }>();
  for (const group of groups) {
    const desk = await openDesk(io.disk, group, { severity: new Map() }, io.cwd);
    for (const file of group.files.filter(({ path }) => isMarkdown(path.replaceAll("\\", "/")))) {
      const text = await desk.text(file);
      const log = text.ok && isLog(text.value) ? peekLog(file.path, text.value) : undefined;
      if (!text.ok) unread.set(file.path, text.reason);
      else if (log)
        for (const board of log.boards ?? [log.board])
          logs.push(logOf(file, board, named.has(file.path), text.value, desk));
    }
    for (const [id, { uri, text }] of desk.knowledge().boards) boards.set(id, { path: desk.path(uri), text });
    for (const { path, message } of desk.unread()) unread.set(path, message);
  }
  return { logs, boards, unread };
}

const logOf = (
  file: FoundFile,
  board: string | undefined,
  isNamed: boolean,
  text: string,
  desk: Awaited<ReturnType<typeof openDesk>>,
): Log =>
  defined({
    path: file.path,
    board: board === undefined || board === "" ? undefined : board,
    isNamed,
    view: async () => {
      const view = await desk.view(file, text);
      return view?.set?.find(({ front }) => front.board === board) ?? view;
    },
  });

interface Chosen {
  readonly id: string;
  /** As it is to be called in a new file. */
  readonly name: string;
  readonly logs: readonly Log[];
}

/** The board that was asked for, else the only one there is. */
function choose(board: string | undefined, { logs }: Reading, paths: readonly string[]): Tried<Chosen> {
  const counts = new Map<string, number>();
  for (const log of logs) if (log.board) counts.set(log.board, (counts.get(log.board) ?? 0) + 1);
  const ids = [...counts.keys()].sort();
  const where = `at or below ${paths.join(", ")}`;
  if (board !== undefined) {
    const id = counts.has(board) ? board : idOf(board);
    const own = logs.filter((log) => (log.board === undefined ? log.isNamed : log.board === id));
    if (own.length > 0) return done({ id, name: id === board ? id : board, logs: own });
    const near = nearest(board, ids);
    const known = ids.length > 0 ? `There are logs of ${ids.join(", ")}.` : "No log there names a board.";
    return failed(
      `no log ${where} is of the board "${board}". ${near === undefined ? known : `Did you mean ${near}?`}`,
    );
  }
  const [id, ...others] = ids;
  if (id === undefined)
    return failed(
      logs.length === 0
        ? `there is no log ${where}.`
        : `no log ${where} names its board. Name the log itself and say --board NAME.`,
    );
  if (others.length > 0) {
    const each = ids.map((one) => `${one} (${counts.get(one)})`).join(", ");
    return failed(`the logs ${where} are of several boards: ${each}. Say which: --board ID.`);
  }
  return done({ id, name: id, logs: logs.filter((log) => log.board === id) });
}
