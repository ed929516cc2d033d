// What is kept of one folder: read before its files are checked, written afterwards where enough has changed.
import { createHash } from "node:crypto";
import { dirname, join } from "node:path";
import { once } from "../../base/once";
import { findingStamps } from "../../workspace/finding-stamps";
import { isMarkdown } from "../../workspace/host";
import { type Checked, type Desk, distinctFiles } from "../desk";
import type { FoundFile } from "../find-files";
import { type Disk, failed, type Io, type Tried } from "../io";
import type { CheckOptions } from "../options";
import { UNSURE } from "../seen";
import type { Group } from "../targets";
import { writeOutput } from "../write-output";
import { type KeptCheck, type KeptFile, type KeptLog, type KeptLogs, keptIn, keptPieces } from "./file";
import { folderOfCache, keptName } from "./place";

/** Smaller folders are read again sooner than a file of what they said. */
const FEWEST = 50;
/** Of the files so many have to be checked again for it to be worth writing. */
const WORTH = 1 / 20;

/** What is kept of the files of one group. */
export interface Kept {
  /** What was found in the files that were asked for, where it is there of all of them and nothing it hangs on has changed. */
  ready(): readonly Checked[] | undefined;
  keeper(desk: Desk): Keeper;
  /** What was found may not be asked for any more. */
  close(): void;
}

/** Looks after what is kept of one folder; what it cannot load or save is only lost time. */
export interface Keeper {
  /** What was kept, as far as it was read with the same devices and procedures. */
  readonly logs: KeptLogs;
  /** @returns whether a check holds as long as nothing on the disk changes */
  holdsInWorld(check: KeptCheck): boolean;
  /**
   * @param changed how many of them are new or were checked again
   * @param isTold all that there is to say was found in the files, and not in reading them
   */
  save(kept: KeptLogs, changed: number, isTold: boolean): Promise<void>;
  /** Stands for all that a log's findings hang on: undefined where it hangs on more than can be told. */
  stamp(uri: string): string | undefined;
}

/**
 * Undefined where nothing is to be kept, or nobody knows which program keeps it.
 * @param looked when the files were, in milliseconds since 1970
 */
export async function keptOfGroup(
  group: Group,
  options: CheckOptions,
  io: Io,
  looked: number | undefined,
): Promise<Kept | undefined> {
  const build = await io.build?.();
  const folder = folderOfCache(options.cache, io);
  const files = distinctFiles(group);
  if (folder === undefined || build === undefined || looked === undefined) return undefined;
  if (files.filter(({ path }) => isMarkdown(path)).length < FEWEST) return undefined;
  const { root } = group;
  const path = join(folder, keptName(root));
  const file = await io.disk.open(path);
  const kept = file.ok ? keptIn(file.value, { root, build }) : undefined;
  const world = worldOf(files, options, io, looked);
  return {
    ready: () => (kept && world !== undefined && kept.world === world ? readyOf(kept, group) : undefined),
    keeper(desk) {
      const library = desk.library();
      const logs: KeptLogs = kept?.library === library && kept.isWhole() ? kept.logs : new Map();
      return {
        logs,
        holdsInWorld: ({ inWorld }) => inWorld && world !== undefined && kept?.world === world,
        async save(all, changed, isTold) {
          if (changed < all.size * WORTH) return;
          const pieces = keptPieces(all, { root, build, library, world: isTold ? world : undefined }, looked);
          await makeFolders(folder, io.disk);
          // Without it the next run is slower, and that is all.
          await writeOutput(path, pieces, { force: true }, io);
        },
        stamp: stamps(desk, options, io),
      };
    },
    close() {
      if (file.ok) file.value.close();
    },
  };
}

function readyOf(kept: KeptFile, { files }: Group): Checked[] | undefined {
  const ready: Checked[] = [];
  for (const file of files) {
    const checked = asItWas(kept.logs, file)?.checked;
    if (!checked?.inWorld || !checked.isWhole()) return undefined;
    ready.push(checked.result);
  }
  return ready;
}

/** Stands for all that any finding hangs on; undefined where a file may have been written again unseen. */
function worldOf(
  files: readonly FoundFile[],
  { severity, chosen }: CheckOptions,
  io: Io,
  looked: number,
): string | undefined {
  const sum = createHash("sha256");
  sum.update(JSON.stringify([io.cwd, io.today(), [...severity], pairsOf(chosen)]));
  for (const { path, real, size, changed } of files) {
    if (changed === undefined || changed > looked - UNSURE) return undefined;
    sum.update(`${JSON.stringify([path, real, size, changed])}\n`);
  }
  return sum.digest("hex");
}

const pairsOf = (chosen: CheckOptions["chosen"]) => [...chosen].map(([code, values]) => [code, [...values]]);

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
  const base = JSON.stringify([desk.judgedBy(), io.cwd, io.today(), [...severity], pairsOf(chosen)]);
  // All is remembered only when the first is asked for.
  const all = once(() => {
    const hashes = new Map([...desk.remembered()].map(([uri, { hash }]) => [uri, hash]));
    const { boardsNamed, related } = desk;
    return findingStamps({ base, hashes, boardsNamed, related });
  });
  return (uri) => all()(uri);
}

/** What is kept of a file, where it is as it was. */
export function asItWas(kept: KeptLogs, { real, size, changed }: FoundFile): KeptLog | undefined {
  const known = kept.get(real);
  return known && known.size === size && known.changed === changed ? known : undefined;
}
