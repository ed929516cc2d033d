// What the language server remembers of closed logs, kept between two starts in one file: there as a whole or not at all, and as
// harmless to delete or to damage as that of the command line.
import { nextTurn } from "../../base/turns";
import type { Shelf } from "../../workspace/host";
import type { Surroundings } from "../io";
import { writeOutput } from "../write-output";
import { type KeptFor, MOST_KEPT } from "./file";
import { makeFolders } from "./keeper";
import { type Shelved, shelfPlace } from "./place";
import { onShelf, shelfPieces } from "./shelf-file";

/** Undefined where there is no place for it. */
export function shelfFor(of: Shelved, io: Surroundings): Shelf | undefined {
  const place = shelfPlace(of, "jobs", io);
  if (!place || !io.build) return undefined;
  const { build } = io;
  const { path, folder, root } = place;
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
