// The command that begins a log, with the text that the editor's own new log has.
import { basename, dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { boardFromWords, type NamedBoard, newLogText } from "../features/new-log";
import { newLogChoices } from "../features/new-log/choices";
import { tidyFacts } from "../features/new-log/facts";
import { logPathFor, uriIn } from "../features/new-log/place";
import { terminal, visible, visibleFile } from "../text/terminal";
import { isMarkdown } from "../workspace/host";
import { canonicalUri } from "../workspace/uri";
import { openDesk, relativeToCwd } from "./desk";
import { findAround } from "./find-files";
import { done, failed, type Io, type Tried } from "./io";
import { knowledgeRoot } from "./knowledge-root";
import type { NewOptions } from "./options";
import { tell } from "./tell";
import { writeOutput } from "./write-output";

/** Where a log is to go: a folder that is there and, where one was named, a file in it. */
interface Target {
  readonly folder: string;
  readonly file?: string;
}

interface Begun {
  readonly text: string;
  /** Absolute. */
  readonly path: string;
  /** What there is to say of it, as sentences. */
  readonly notes: readonly string[];
}

export async function runNew({ facts, output }: NewOptions, io: Io): Promise<number> {
  const told = (message: string): number => {
    tell(io, message);
    return 2;
  };
  const target = await targetOf(output, io);
  if (!target.ok) return told(`${output} ${target.reason}.`);
  const begun = await begin(facts, target.value, io);
  if (!begun.ok) return told(begun.reason);
  const { text, path, notes } = begun.value;
  if (output !== undefined) {
    const written = await writeOutput(path, text, {}, io);
    if (!written.ok) return told(`${relativeToCwd(io.cwd, path)} ${written.reason}.`);
  }
  for (const note of notes) tell(io, note);
  io.out.write(
    output === undefined ? visibleFile(text) : terminal`${visible(relativeToCwd(io.cwd, path))}\n`,
  );
  return 0;
}

async function targetOf(output: string | undefined, { cwd, disk }: Io): Promise<Tried<Target>> {
  if (output === undefined) return done({ folder: cwd });
  const path = resolve(cwd, output);
  const there = await disk.look(path);
  if (there.ok && there.value.kind === "folder") return done({ folder: path });
  if (there.ok) return failed("is there already and stays as it is");
  if (!isMarkdown(path.replaceAll("\\", "/")))
    return failed(`is no name for a log: logs are Markdown files, such as ${basename(path)}.md`);
  const folder = await disk.look(dirname(path));
  if (!folder.ok || folder.value.kind !== "folder")
    return failed(`cannot be written: the folder ${relativeToCwd(cwd, dirname(path))} is not there`);
  return done({ folder: dirname(path), file: path });
}

async function begin(given: NewOptions["facts"], { folder, file }: Target, io: Io): Promise<Tried<Begun>> {
  const root = await knowledgeRoot(io.disk, folder, io.cwd);
  const around = await findAround(io.disk, root);
  const group = { root, files: [], around: around.files };
  const desk = await openDesk(io.disk, group, { severity: new Map() }, io.cwd);
  for await (const _ of desk.remember());
  const { boards, library } = desk.knowledge();
  const logs = desk.jobs();
  const board = boardFromWords(given.board ?? "", { boards, library, logs });
  const unread = [...around.problems, ...desk.unread()].map(
    ({ path, message }) => `${relativeToCwd(io.cwd, path)} ${message}.`,
  );
  // The board may be described in a file that nobody could read: a log without what it says would be the poorer for it.
  const isAsked = given.board !== undefined && given.board !== "";
  if (isAsked && !board?.file && !board?.known && unread.length > 0) {
    const where =
      relativeToCwd(io.cwd, root) === "."
        ? "below the current folder"
        : `below ${relativeToCwd(io.cwd, root)}`;
    return failed(
      [`no board file ${where} that could be read describes "${given.board}".`, ...unread].join(" "),
    );
  }
  const received = given.received ?? io.today();
  const { job, taken } = newLogChoices(logs, desk.knowledge(), received);
  const facts = tidyFacts({ ...(job === undefined ? {} : { job }), ...given, received });
  const { name } = logPathFor({
    ...facts,
    ...(board ? { board: board.id } : {}),
    ...(board?.file ? { boardUri: board.file.uri } : {}),
    folder: uriOf(folder),
    logs,
    files: around.files.map((found) => uriOf(found.path)),
  });
  const path = file ?? (await freePath(uriIn(`${uriOf(folder)}/`, name), io));
  const text = newLogText(facts, board, library);
  const checked = await desk.check({ path, real: path, size: text.length }, text);
  // What there is to say of the board is said once, and in the words of a command.
  const findings = (checked?.findings ?? [])
    .filter(({ code }) => code !== "unknown-board" && code !== "board-not-named")
    .map(({ start, message }) => `line ${start.line} of the new log: ${message}`);
  const notes = [
    ...unread,
    ...boardNotes(board, relativeToCwd(io.cwd, root)),
    ...factNotes(facts, taken, board),
  ];
  return done({ text, path, notes: [...notes, ...findings] });
}

/** The place proposed knows of logs only; another file may have the name all the same. */
async function freePath(uri: string, { disk }: Io): Promise<string> {
  const proposed = fileURLToPath(uri);
  let path = proposed;
  for (let n = 2; (await disk.look(path)).ok; n++)
    path = join(dirname(proposed), `${basename(proposed, ".md")}-${n}.md`);
  return path;
}

/** What the log can do without a file of its board, and what may have been meant. */
function boardNotes(board: NamedBoard | undefined, root: string): string[] {
  if (!board)
    return ['no board is named. Write what it is behind "board:", so that later jobs find this one.'];
  if (board.file) return [];
  const where = root === "." ? "below the current folder" : `below ${root}`;
  const how = board.known
    ? "what its earlier logs say of it holds for this one too."
    : "readings are judged by the part numbers and rails that the log itself names.";
  const meant = board.near ? `Did you mean ${board.near.id}? If not, ${how}` : capital(how);
  return [`no board file ${where} describes "${board.id}" yet. ${meant}`];
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What the editor says beside its questions. */
function factNotes(
  { job, revision }: ReturnType<typeof tidyFacts>,
  taken: readonly string[],
  board: NamedBoard | undefined,
): string[] {
  const isTaken = taken.some((number) => number.toLowerCase() === job?.toLowerCase());
  const revisions = [...(board?.file?.value.revisions.keys() ?? [])];
  const isNew = revision !== undefined && revisions.length > 0 && !revisions.includes(revision);
  return [
    ...(isTaken ? [`${job} is the number of another log already.`] : []),
    ...(isNew ? [`the board file has no revision "${revision}"; it has ${revisions.join(", ")}.`] : []),
  ];
}

const uriOf = (path: string): string => canonicalUri(pathToFileURL(path).href);
