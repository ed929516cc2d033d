// What the language server remembers of closed logs, kept between two starts in one file: there as a whole or not at all, and as
// harmless to delete or to damage as that of the command line.
import { join, resolve } from "node:path";
import { nextTurn } from "../../base/turns";
import type { Shelf } from "../../workspace/host";
import type { Surroundings } from "../io";
import { writeOutput } from "../write-output";
import { type KeptFor, MOST_KEPT } from "./file";
import { makeFolders } from "./keeper";
import { keptFolder, keptName } from "./place";
import { onShelf, shelfPieces } from "./shelf-file";

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
  if (folder === undefined || folders.length === 0 || !io.build) return undefined;
  const { build } = io;
  const path = join(folder, storage === undefined ? keptName(root, "jobs") : "jobs.kept");
  const keptFor = async (library: string): Promise<KeptFor | undefined> => {
    const program = await build().catch(() => undefined);
    return program === undefined ? undefined : { root, build: program, library };
  };
  return {
    async *load(stamp) {
      const of = await keptFor(stamp);
      const bytes = of && (await io.disk.read(path, MOST_KEPT));
      if (of && bytes?.ok) yield* onShelf(bytes.value, of);
    },
    async save(all, stamp) {
      const of = await keptFor(stamp);
      if (!of) return;
      await makeFolders(folder, io.disk);
      // Without it the next start is slower, and that is all.
      await writeOutput(path, paced(shelfPieces(all, of)), { force: true }, io);
    },
  };
}

/** One after another, with others heard in between. @throws Error where they become more than is kept */
async function* paced(pieces: Iterable<Uint8Array>): AsyncGenerator<Uint8Array, void, void> {
  let length = 0;
  for (const piece of pieces) {
    length += piece.length;
    if (length > MOST_KEPT) throw new Error("It is more than is kept.");
    yield piece;
    await nextTurn();
  }
}
