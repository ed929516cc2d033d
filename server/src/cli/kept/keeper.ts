// What is kept of one folder: read before its files are checked, written afterwards where enough has changed.
import { dirname, join } from "node:path";
import { once } from "../../base/once";
import type { Remembered } from "../../workspace/remembered";
import { textHash } from "../../workspace/text-hash";
import type { Desk } from "../desk";
import type { FoundFile } from "../find-files";
import { type Disk, failed, type Io, type Tried } from "../io";
import type { CheckOptions } from "../options";
import { writeOutput } from "../write-output";
import { type KeptFor, type KeptLog, type KeptLogs, keptBytes, keptIn, MOST_KEPT } from "./file";
import { folderOfCache, keptName } from "./place";

/** Smaller folders are read again sooner than a file of what they said. */
const FEWEST = 50;
/** Of the files so many have to be checked again for it to be worth writing. */
const WORTH = 1 / 20;

/** Looks after what is kept of one folder; what it cannot load or save is only lost time. */
export interface Keeper {
  load(): Promise<KeptLogs>;
  /** @param changed how many of them are new or were checked again */
  save(kept: KeptLogs, changed: number): Promise<void>;
  /** Stands for all that a log's findings hang on: undefined where it hangs on more than can be told. */
  stamp(uri: string): string | undefined;
}

/** Undefined where nothing is to be kept, or nobody knows which program keeps it. */
export async function keeperFor(
  root: string,
  desk: Desk,
  options: CheckOptions,
  io: Io,
): Promise<Keeper | undefined> {
  const build = await io.build?.();
  const folder = folderOfCache(options.cache, io);
  if (folder === undefined || build === undefined || !io.clock || desk.markdown().length < FEWEST)
    return undefined;
  const of: KeptFor = { root, build, library: desk.library() };
  const path = join(folder, keptName(root));
  const { clock } = io;
  return {
    async load() {
      const bytes = await io.disk.read(path, MOST_KEPT);
      return bytes.ok ? keptIn(bytes.value, of) : new Map();
    },
    async save(kept, changed) {
      if (changed < kept.size * WORTH) return;
      const bytes = keptBytes(kept, of, clock());
      if (!bytes) return;
      await makeFolders(folder, io.disk);
      // Without it the next run is slower, and that is all.
      await writeOutput(path, bytes, { force: true }, io);
    },
    stamp: stamps(desk, options, io),
  };
}

/** The folder and those above it that are not there. */
export async function makeFolders(folder: string, disk: Disk): Promise<Tried<void>> {
  const look = await disk.look(folder);
  if (look.ok)
    return look.value.kind === "folder" ? { ok: true, value: undefined } : failed("is not a folder");
  if (dirname(folder) === folder) return failed(look.reason);
  const above = await makeFolders(dirname(folder), disk);
  return above.ok ? disk.makeFolder(folder) : above;
}

function stamps(desk: Desk, { severity, chosen }: CheckOptions, io: Io): Keeper["stamp"] {
  const base = textHash(
    JSON.stringify([
      desk.judgedBy(),
      io.cwd,
      io.today(),
      [...severity],
      [...chosen].map(([k, v]) => [k, [...v]]),
    ]),
  );
  const remembered = once(() => desk.remembered());
  const boards = once(() => boardHashes(desk, remembered()));
  return (uri) => {
    const own = remembered().get(uri);
    if (own?.hash === undefined) return own && NO_LOG;
    const others = desk.boardsNamed(uri).map((board) => boards().get(board) ?? "");
    return textHash(JSON.stringify([base, own.hash, others, desk.related(uri) ?? null]));
  };
}

/** Markdown that is no log hangs on nothing but itself. */
const NO_LOG = "no log";

/** For each board what all of its logs say: its limits and all that is known of it come of them. */
function boardHashes(desk: Desk, remembered: ReadonlyMap<string, Remembered>): Map<string, string> {
  const all = new Map<string, string[]>();
  for (const { uri, hash } of remembered.values()) {
    if (hash === undefined) continue;
    for (const board of desk.boardsNamed(uri)) {
      const list = all.get(board);
      if (list) list.push(hash);
      else all.set(board, [hash]);
    }
  }
  return new Map([...all].map(([board, hashes]) => [board, textHash(hashes.sort().join(" "))]));
}

/** What is kept of a file, where it is as it was. */
export function asItWas(kept: KeptLogs, { real, size, changed }: FoundFile): KeptLog | undefined {
  const known = kept.get(real);
  return known && known.size === size && known.changed === changed ? known : undefined;
}
