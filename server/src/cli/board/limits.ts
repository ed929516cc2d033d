// The command that writes what a board's logs read into its board file.
import { resolve } from "node:path";
import { terminal, visible, visibleFile } from "../../text/terminal";
import { openDesk, relativeToCwd } from "../desk";
import { done, failed, type Io, type Tried } from "../io";
import { findTargets } from "../targets";
import { tell } from "../tell";
import { targetOf, write } from "./import";
import type { LimitsOptions } from "./options";

interface Proposed {
  /** The whole board file with the limits in it. */
  readonly text: string;
  /** Absolute path of the board file it is of. */
  readonly file: string;
  readonly told: string;
}

/** Gives the exit status: 0 written, 2 where nothing was or a log could not be read. */
export async function runBoardLimits(options: LimitsOptions, io: Io): Promise<number> {
  const unread = new Map<string, string>();
  const proposed = await propose(options.path, io, unread);
  for (const [path, message] of unread) tell(io, `${relativeToCwd(io.cwd, path)} ${message}.`);
  if (!proposed.ok) {
    tell(io, `${options.path} ${proposed.reason}`);
    return 2;
  }
  const { text, told } = proposed.value;
  const path = options.output === undefined ? undefined : await put(options.output, proposed.value, io);
  if (path && !path.ok) {
    tell(io, `${options.output} ${path.reason}. Nothing was changed.`);
    return 2;
  }
  tell(io, told);
  io.out.write(path ? terminal`${visible(path.value)}\n` : visibleFile(text));
  return unread.size === 0 ? 0 : 2;
}

/** @param unread is told of the files that it goes by and that could not be read */
async function propose(path: string, io: Io, unread: Map<string, string>): Promise<Tried<Proposed>> {
  const log = resolve(io.cwd, path);
  const look = await io.disk.look(log);
  if (!look.ok) return failed(`${look.reason}.`);
  if (look.value.kind === "folder") return failed("is a folder: name one log of the board.");
  const { groups, problems } = await findTargets(io.disk, [log], io.cwd);
  const group = groups[0];
  const file = group?.files[0];
  if (!group || !file) return failed(`${problems[0]?.message ?? "is no log"}.`);
  const desk = await openDesk(io.disk, group, { severity: new Map() }, io.cwd);
  for await (const _ of desk.remember());
  const text = await desk.text(file);
  const view = text.ok ? await desk.view(file, text.value) : undefined;
  for (const problem of [...problems, ...desk.unread()]) unread.set(problem.path, problem.message);
  if (!text.ok) return failed(`${text.reason}.`);
  if (!view) return failed("is no log: its front matter does not hold `mendlog: 1`.");
  const { board } = view.front;
  if (view.set) return failed("is about several boards: name a log about the one that you want limits for.");
  if (board === undefined) return failed("names no board: write `board:` into its front matter.");
  const proposed = desk.proposeLimits(board);
  if (!proposed)
    return failed(
      `is of the board "${board}", which no board file describes, so there is none to write limits into. Begin one with mendlog board draft or mendlog board import.`,
    );
  if (!proposed.ok) return failed(`gives no limits. ${proposed.reason}`);
  const { path: at, toldWritten, text: whole } = proposed;
  return done({ text: whole, file: at, told: toldWritten });
}

/** The path written, as it is shown. What is there already is only ever the board's own file. */
async function put(output: string, { text, file }: Proposed, io: Io): Promise<Tried<string>> {
  const target = await targetOf(output, undefined, io);
  if (!target.ok) return target;
  const { path, existing } = target.value;
  const own = await io.disk.look(file);
  if (existing && !(own.ok && own.value.real === path))
    return failed(`is not the board file that the limits are for: that is ${relativeToCwd(io.cwd, file)}`);
  const written = await write(target.value, text, io.disk);
  return written.ok ? done(relativeToCwd(io.cwd, path)) : written;
}
