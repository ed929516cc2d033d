// The one way by which anything that a command makes reaches the disk. What logs are judged by and made from is never
// written over, whatever was asked for, by its name or by a link; and a file is there as a whole, before and after.
import { basename, dirname, resolve } from "node:path";
import { isLog } from "../log/sniff";
import { isMarkdown, type KnowledgeKind, knowledgeKind } from "../workspace/host";
import { type Content, type Disk, done, failed, type Surroundings, type Tried } from "./io";
import { isBelow } from "./knowledge-root";
import { HEAD_BYTES } from "./read-text";

/** What a command may do to the place that it writes to. */
export interface Writing {
  /** Whether the person said so: a file that is there and is no source is written over. Absent where a command never does. */
  readonly force?: boolean;
  /** The kind of knowledge file that the command makes itself, and with `force` may make again. */
  readonly own?: KnowledgeKind;
  /** Absolute paths of folders, in one of which the file must lie with every link followed; anywhere by default. */
  readonly within?: readonly string[];
}

/**
 * Writes a command's output to a file that was named.
 * @param path as it was named, from the current folder
 * @returns nothing, or the end of a sentence that begins with the path: what is there then stays as it was
 */
export async function writeOutput(
  path: string,
  content: Content,
  { force, within, own }: Writing,
  io: Pick<Surroundings, "cwd" | "disk">,
): Promise<Tried<void>> {
  const target = resolve(io.cwd, path);
  const may = await mayLieThere(target, within ?? [], io);
  if (!may.ok) return may;
  if (await isLink(target, io.disk)) return failed("is refused: it is a link. Name the file itself");
  const there = await io.disk.look(target);
  if (!there.ok) return io.disk.create(target, content);
  if (there.value.kind !== "file") return failed("is refused: it is not a file");
  const spared = await spareSource(target, own, io.disk);
  if (!spared.ok) return spared;
  if (force) return io.disk.replace(target, content);
  const how = force === undefined ? "" : ". Say --force to write over it";
  return failed(`is there already and stays as it is${how}`);
}

/**
 * Makes the folder that a command's files go to, where it is not there yet.
 * @param path as it was named, from the current folder
 * @returns nothing, or the end of a sentence that begins with the path
 */
export async function outputFolder(
  path: string,
  io: Pick<Surroundings, "cwd" | "disk">,
): Promise<Tried<void>> {
  const target = resolve(io.cwd, path);
  const may = await mayLieThere(target, [], io);
  if (!may.ok) return may;
  const there = await io.disk.look(target);
  if (there.ok)
    return there.value.kind === "folder" ? done(undefined) : failed("is refused: it is not a folder");
  if (await isLink(target, io.disk)) return failed("is refused: it is a link to nowhere");
  return io.disk.makeFolder(target);
}

/**
 * True where a path itself is a link, wherever that leads.
 * @param path absolute
 */
export async function isLink(path: string, disk: Disk): Promise<boolean> {
  const names = await disk.names(dirname(path));
  return names.ok && names.value.some(({ name, kind }) => name === basename(path) && kind === "link");
}

/** Fails where the folder is not there, is outside of where it must be, or was named inside and leads out by a link. */
async function mayLieThere(
  target: string,
  within: readonly string[],
  { disk, cwd }: Pick<Surroundings, "cwd" | "disk">,
): Promise<Tried<void>> {
  const folder = await disk.look(dirname(target));
  if (!folder.ok || folder.value.kind !== "folder")
    return failed("cannot be written: its folder is not there");
  const isIn = async (home: string): Promise<boolean> => {
    const look = await disk.look(home);
    return look.ok && isBelow(look.value.real, folder.value.real);
  };
  const places = await Promise.all(within.map(isIn));
  if (within.length > 0 && !places.includes(true))
    return failed(
      `is refused: it is outside the current folder and outside the workspace of the log (${within.at(-1)})`,
    );
  if (isBelow(cwd, dirname(target)) && !(await isIn(cwd)))
    return failed("is refused: a link in its path leads out of the current folder. Name the folder itself");
  return done(undefined);
}

/** Told by what the file holds: a link has another name, and a log is one under any. */
async function spareSource(target: string, own: KnowledgeKind | undefined, disk: Disk): Promise<Tried<void>> {
  const name = target.replaceAll("\\", "/");
  const kind = knowledgeKind(name);
  if (kind !== undefined && kind !== own) return failed("is refused: it is a knowledge file");
  const head = await disk.read(target, HEAD_BYTES);
  const text = head.ok ? new TextDecoder().decode(head.value) : "";
  // Markdown that cannot be read, or is in an encoding that is not, cannot be told from a log.
  const isUntold = isMarkdown(name) && (!head.ok || text.includes("\0"));
  return isLog(text) || isUntold ? failed("is refused: it is a log") : done(undefined);
}
