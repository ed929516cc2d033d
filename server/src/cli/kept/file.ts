// What a folder's logs said, and what was found in them, kept between two runs in one file. It may be deleted at any time; one
// that is of another program, of another folder, or not whole is taken for none. What is long comes first and is read when it
// is asked for; behind it stands a list of all logs, and what tells that the list is whole.
import { createHash } from "node:crypto";
import { withLater } from "../../base/later";
import { once } from "../../base/once";
import type { FileKind } from "../../report/model";
import type { Remembered } from "../../workspace/remembered";
import type { Checked } from "../desk";
import type { OpenFile } from "../io";
import { UNSURE } from "../seen";

/** Raised with every change of what stands in the file. */
const FORMAT = 3;
/** Larger ones are not written, in bytes. */
export const MOST_KEPT = 256 * 1024 * 1024;
/** Bytes that are put together at a time. */
const PIECE = 512 * 1024;
/** A sum, a space, the length of the list before it, an end of line; in bytes. */
const FOOT = 64 + 1 + 12 + 1;

/** What has to be the same for anything kept to be of use. */
export interface KeptFor {
  readonly root: string;
  /** Stands for this program, to the byte. */
  readonly build: string;
  /** Stands for the devices and procedures that logs are read with. */
  readonly library: string;
}

/** What was kept by. */
export interface KeptBy extends KeptFor {
  /** Stands for all that findings hang on, all files as they stand on the disk among it; absent where they are not told for sure. */
  readonly world?: string | undefined;
}

/** What was found in a file. */
export interface KeptCheck {
  /** Stands for all that it was judged by. */
  readonly stamp: string;
  /** It holds wherever `KeptBy.world` does. */
  readonly inWorld: boolean;
  readonly result: Checked;
  /** False where it is not there as it was written: then it may not be used. */
  isWhole(): boolean;
}

/** What is kept of one file, with what tells whether it has changed since. */
export interface KeptLog {
  /** Bytes of the file, and when it was last written, in milliseconds since 1970. */
  readonly size: number;
  readonly changed: number;
  readonly remembered: Remembered;
  readonly checked?: KeptCheck | undefined;
}

/** By absolute path with links followed. */
export type KeptLogs = ReadonlyMap<string, KeptLog>;

/** A file that was read as far as its list. */
export interface KeptFile extends KeptBy {
  readonly logs: KeptLogs;
  /** What is remembered is there as it was written: else it may not be used. */
  isWhole(): boolean;
}

type Meta = readonly [
  path: string,
  uri: string,
  size: number,
  changed: number,
  hash: string | 0,
  head: string | 0,
  /** In bytes. */
  rest: number,
  check: readonly [stamp: string, inWorld: 0 | 1, found?: Found] | 0,
];
type Found = readonly [path: string, kind: FileKind, length: number, sum: string];

interface List extends KeptBy {
  readonly "mendlog-kept": number;
  /** When the files were looked at, in milliseconds since 1970. */
  readonly looked: number;
  readonly rests: readonly [length: number, sum: string];
  readonly logs: readonly Meta[];
}

const sumOf = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

/**
 * The file's bytes, piece by piece.
 * @param looked when its files were, in milliseconds since 1970
 * @throws RangeError where they become too many
 */
export async function* keptPieces(
  kept: KeptLogs,
  by: KeptBy,
  looked: number,
): AsyncGenerator<Uint8Array, void> {
  const encoder = new TextEncoder();
  let waiting: Uint8Array[] = [];
  let bytesWaiting = 0;
  let length = 0;
  const put = (bytes: Uint8Array): void => {
    waiting.push(bytes);
    bytesWaiting += bytes.length;
    length += bytes.length;
    if (length > MOST_KEPT) throw new RangeError("It is more than is kept.");
  };
  const piece = (): Uint8Array => {
    const bytes = Buffer.concat(waiting);
    waiting = [];
    bytesWaiting = 0;
    return bytes;
  };
  const rests = createHash("sha256");
  const restLengths: number[] = [];
  for (const { remembered } of kept.values()) {
    const bytes = encoder.encode(remembered.packed?.rest ?? "");
    rests.update(bytes);
    restLengths.push(bytes.length);
    put(bytes);
    if (bytesWaiting > PIECE) yield piece();
  }
  const sums = [length, rests.digest("hex")] as const;
  const logs: Meta[] = [];
  for (const [path, { size, changed, remembered, checked }] of kept) {
    const { uri, hash = 0, packed } = remembered;
    const check = checked ? checkedMeta(checked, (json) => encoder.encode(json), put) : 0;
    logs.push([path, uri, size, changed, hash, packed?.head ?? 0, restLengths[logs.length]!, check]);
    if (bytesWaiting > PIECE) yield piece();
  }
  const { root, build, library, world } = by;
  const of = { "mendlog-kept": FORMAT, root, build, library, world, looked };
  const list = encoder.encode(JSON.stringify({ ...of, rests: sums, logs } satisfies List));
  put(list);
  put(encoder.encode(`${sumOf(list)} ${String(list.length).padStart(12)}\n`));
  yield piece();
}

function checkedMeta(
  { stamp, inWorld, result }: KeptCheck,
  encode: (json: string) => Uint8Array,
  put: (bytes: Uint8Array) => void,
): Meta[7] {
  if (result.is === "unread") return 0;
  if (result.is === "no log") return [stamp, inWorld ? 1 : 0];
  const bytes = encode(result.json);
  put(bytes);
  return [stamp, inWorld ? 1 : 0, [result.path, result.kind, bytes.length, sumOf(bytes)]];
}

/** What the file keeps; undefined where it is not for this. */
export function keptIn(
  file: OpenFile,
  { root, build }: Pick<KeptFor, "root" | "build">,
): KeptFile | undefined {
  try {
    const end = file.size - FOOT;
    const foot = textIn(file, end, FOOT);
    const length = Number(foot.slice(65));
    const bytes = file.read(end - length, length);
    if (!bytes || sumOf(bytes) !== foot.slice(0, 64)) return undefined;
    const list = JSON.parse(new TextDecoder().decode(bytes)) as List;
    if (list["mendlog-kept"] !== FORMAT || list.root !== root || list.build !== build) return undefined;
    return keptOfList(file, list);
  } catch {
    return undefined;
  }
}

/** @throws RangeError where the file is not as long */
function textIn(file: OpenFile, from: number, length: number): string {
  const bytes = file.read(from, length);
  if (!bytes) throw new RangeError("The file was cut short.");
  return new TextDecoder().decode(bytes);
}

function keptOfList(file: OpenFile, list: List): KeptFile {
  const { root, build, library, world, looked, logs } = list;
  const [length, sum] = list.rests;
  const rests = once(() => file.read(0, length));
  let atRest = 0;
  let atResult = length;
  const kept = new Map<string, KeptLog>();
  for (const [path, uri, size, changed, hash, head, rest, check] of logs) {
    const begins = atRest;
    atRest += rest;
    const packed =
      head !== 0 &&
      withLater({ head }, { rest: () => new TextDecoder().decode(rests()?.subarray(begins, begins + rest)) });
    const checked = check === 0 ? undefined : checkIn(file, check, atResult);
    if (check !== 0 && check[2]) atResult += check[2][2];
    // What was written so shortly before it was looked at may have been written again unseen.
    if (changed > looked - UNSURE) continue;
    const remembered = {
      uri,
      ...(hash === 0 ? {} : { hash }),
      ...(packed ? { packed } : {}),
    };
    kept.set(path, { size, changed, remembered, ...(checked ? { checked } : {}) });
  }
  const isWhole = once(() => {
    const bytes = rests();
    return bytes !== undefined && sumOf(bytes) === sum;
  });
  return { root, build, library, world, logs: kept, isWhole };
}

function checkIn(file: OpenFile, [stamp, inWorld, found]: Exclude<Meta[7], 0>, from: number): KeptCheck {
  const by = { stamp, inWorld: inWorld === 1 };
  if (!found) return { ...by, result: { is: "no log" }, isWhole: () => true };
  const [path, kind, length, sum] = found;
  return {
    ...by,
    result: withLater({ is: "checked", path, kind, alone: true } as const, {
      json: () => textIn(file, from, length),
    }),
    isWhole() {
      const bytes = file.read(from, length);
      return bytes !== undefined && sumOf(bytes) === sum;
    },
  };
}
