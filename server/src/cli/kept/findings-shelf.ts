// What the language server found in closed logs, kept between two starts in a file like that of the command line.
import { deflateRawSync, inflateRawSync } from "node:zlib";
import { nextTurn } from "../../base/turns";
import type { FindingsShelf, KeptFindings } from "../../workspace/host";
import type { OpenFile, Surroundings } from "../io";
import { UNSURE } from "../seen";
import { writeOutput } from "../write-output";
import { type KeptFile, type KeptLog, keptIn, keptPieces } from "./file";
import { makeFolders } from "./keeper";
import { type Shelved, shelfPlace } from "./place";

/** zlib's fastest: the others take off hardly more. */
const LEVEL = 1;
/** Logs whose findings are looked at before others are heard: a few milliseconds. */
const AT_A_TIME = 64;
/** What stands for devices and procedures in the file: they are in the stamp of each log. */
const LIBRARY = "";

/** Undefined where there is no place for it. */
export function findingsShelfFor(server: Shelved, io: Surroundings): FindingsShelf | undefined {
  const place = shelfPlace(server, "findings", io);
  if (!place || !io.build) return undefined;
  const { build } = io;
  const { path, folder, root } = place;
  const program = (): Promise<string | undefined> => build().catch(() => undefined);
  let open: OpenFile | undefined;
  const close = (): void => {
    open?.close();
    open = undefined;
  };
  return {
    async load() {
      close();
      const of = await program();
      const file = of === undefined ? undefined : await io.disk.open(path);
      if (of === undefined || !file?.ok) return new Map();
      open = file.value;
      const kept = keptIn(open, { root, build: of });
      if (!kept) close();
      return kept ? byUri(kept) : new Map();
    },
    async save(more, counts) {
      const of = await program();
      if (of === undefined) return;
      const there = await io.disk.open(path);
      try {
        const kept = there.ok ? keptIn(there.value, { root, build: of }) : undefined;
        const logs = new Map<string, KeptLog>();
        let looked = 0;
        for (const [uri, one] of [...(kept ? byUri(kept) : []), ...(more as ReadonlyMap<string, Packed>)]) {
          // What is not there as it was written is left out; what is, is read again when it is written.
          if (counts(uri) && one.packed !== undefined) logs.set(uri, keptLog(uri, one));
          if (++looked % AT_A_TIME === 0) await nextTurn();
        }
        const pieces = keptPieces(logs, { root, build: of, library: LIBRARY }, UNSURE);
        await makeFolders(folder, io.disk);
        // Without it the next start is slower, and that is all.
        await writeOutput(path, pieces, { force: true }, io);
      } finally {
        if (there.ok) there.value.close();
      }
    },
    close,
    hold: (stamp, json) => packedOf(stamp, deflateRawSync(json, { level: LEVEL }).toString("base64")),
  };
}

/** As they stand in the file, and wait for it in memory: a tenth of their length. */
interface Packed extends KeptFindings {
  /** Read from the file whenever it is asked for; undefined where it is not there as it was written. */
  readonly packed: string | undefined;
}

const packedOf = (stamp: string, packed: string): Packed => ({ stamp, packed, json: () => unpacked(packed) });

function byUri({ logs }: KeptFile): Map<string, Packed> {
  const all = new Map<string, Packed>();
  for (const [uri, { checked }] of logs) {
    if (checked?.result.is !== "checked") continue;
    const { stamp, result } = checked;
    all.set(uri, {
      stamp,
      get packed() {
        return checked.isWhole() ? result.json : undefined;
      },
      json() {
        return unpacked(this.packed);
      },
    });
  }
  return all;
}

function unpacked(packed: string | undefined): string | undefined {
  try {
    return packed === undefined ? undefined : inflateRawSync(Buffer.from(packed, "base64")).toString("utf8");
  } catch {
    return undefined;
  }
}

/** As that of a log of which nothing else is kept; whether it is as it was is told by the stamp. */
const keptLog = (uri: string, one: Packed): KeptLog => ({
  size: 0,
  changed: 0,
  remembered: { uri },
  checked: {
    stamp: one.stamp,
    inWorld: false,
    result: {
      is: "checked",
      path: "",
      kind: "log",
      get json() {
        const { packed } = one;
        if (packed === undefined) throw new RangeError("It is not there any more.");
        return packed;
      },
      alone: true,
    },
    isWhole: () => true,
  },
});
