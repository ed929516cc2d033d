// What the language server remembers of closed logs, kept between two starts in one file: written as a whole, and as harmless to
// delete or to damage as that of the command line.
import { join, resolve } from "node:path";
import type { Shelf } from "../../workspace/host";
import type { Surroundings } from "../io";
import { writeOutput } from "../write-output";
import { type KeptFor, keptBytes, keptIn, MOST_KEPT } from "./file";
import { makeFolders } from "./keeper";
import { keptFolder, keptName } from "./place";

export interface Shelved {
  /** Of the workspace. */
  readonly folders: readonly string[];
  /** Absolute path of a folder that the editor keeps for the workspace; without one the user's own serves for all. */
  readonly storage: string | undefined;
}

/** Undefined where there is no place for it. */
export function shelfFor({ folders, storage }: Shelved, io: Surroundings): Shelf | undefined {
  const root = JSON.stringify([...folders].sort());
  const folder = storage === undefined ? keptFolder(io) : resolve(storage);
  if (folder === undefined || folders.length === 0 || !io.clock || !io.build) return undefined;
  const { clock, build } = io;
  const path = join(folder, storage === undefined ? keptName(root, "jobs") : "jobs.kept");
  const keptFor = async (library: string): Promise<KeptFor | undefined> => {
    const program = await build().catch(() => undefined);
    return program === undefined ? undefined : { root, build: program, library };
  };
  return {
    async load(stamp) {
      const of = await keptFor(stamp);
      const bytes = of && (await io.disk.read(path, MOST_KEPT));
      return of && bytes?.ok ? [...keptIn(bytes.value, of).values()].map((one) => one.remembered) : [];
    },
    async save(all, stamp) {
      const of = await keptFor(stamp);
      const kept = new Map(all.map((remembered) => [remembered.uri, { size: 0, changed: 0, remembered }]));
      const bytes = of && keptBytes(kept, of, clock());
      if (!bytes) return;
      await makeFolders(folder, io.disk);
      // Without it the next start is slower, and that is all.
      await writeOutput(path, bytes, { force: true }, io);
    },
  };
}
