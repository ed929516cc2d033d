// The same command on the same files again: what it printed is printed, and nothing else of the program is loaded for it.
import { join } from "node:path";
import type { Io } from "../io";
import { isStillSo, type Seen } from "../seen";
import { folderOfCache, keptName } from "./place";
import { openPrinted, type Printed, PrintedWriter } from "./printed";

/** What of the world bears on what a command prints, besides the files. */
type World = Pick<Io, "build" | "today" | "cwd" | "env" | "out" | "disk">;

/** Keeps what one command prints from here on, in a folder. */
export type Printing = (folder: string) => Promise<PrintingBegun | undefined>;

export interface PrintingBegun {
  add(text: string): void;
  /** @param seen all on the disk that it hangs on */
  end(seen: Seen, code: number): void;
}

/**
 * Where it is kept, and what stands for all that it hangs on besides files; undefined where nobody knows which program this
 * is.
 */
async function placeOf(folder: string, argv: readonly string[], io: World) {
  const { cwd, env, out } = io;
  const program = await io.build?.().catch(() => undefined);
  if (program === undefined) return undefined;
  const command = JSON.stringify([cwd, argv, out.isTerminal, out.columns ?? null, env.NO_COLOR ?? null]);
  return {
    path: join(folder, keptName(command, "printed")),
    key: JSON.stringify([command, program, process.version, io.today()]),
  };
}

/**
 * What a command printed the last time, where it would print the same again. Whoever gets it closes it.
 * @param argv without the program's own name
 */
export async function printedBefore(argv: readonly string[], io: World): Promise<Printed | undefined> {
  if (argv[0] !== "check") return undefined;
  const folder = folderOfCache(cacheNamed(argv), io);
  const place = folder === undefined ? undefined : await placeOf(folder, argv, io);
  const printed = place && openPrinted(place.path, place.key);
  if (!printed) return undefined;
  if ((await isStillSo(printed.seen, io.disk)) && printed.isWhole()) return printed;
  printed.close();
  return undefined;
}

/**
 * The folder that a command line seems to name: where it does not, nothing lies there under this command line either, since it was
 * read in full when it was written.
 */
function cacheNamed(argv: readonly string[]): string | false | undefined {
  if (argv.includes("--no-cache")) return false;
  const option = "--cache-dir";
  const joined = argv.findLast((word) => word.startsWith(`${option}=`));
  return joined === undefined
    ? argv[argv.lastIndexOf(option) + 1 || argv.length]
    : joined.slice(option.length + 1);
}

/** @param argv without the program's own name */
export function printingOf(argv: readonly string[], io: World): Printing {
  return async (folder) => {
    const place = await placeOf(folder, argv, io);
    if (!place) return undefined;
    const writer = new PrintedWriter(place.path);
    return { add: (text) => writer.add(text), end: (seen, code) => writer.end(place.key, seen, code) };
  };
}
