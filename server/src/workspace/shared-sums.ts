// What is remembered of logs as all threads of a process hold it: the long halves of ten thousand summaries are there once.
import type { PackedSummary } from "../log/summary-pack";
import type { Remembered } from "./remembered";

/** Summaries of some files, to be handed to another thread. Their long halves lie in memory that all threads share. */
export interface Sums {
  readonly all: readonly Sum[];
  readonly bytes: readonly SharedArrayBuffer[];
}

export interface Sum {
  readonly uri: string;
  readonly hash?: string;
  /** Absent where there is nothing to remember. */
  readonly packed?: {
    readonly head: string;
    /** Which of the bytes it lies in, and from where to where. */
    readonly at: number;
    readonly from: number;
    readonly to: number;
  };
}

/** Where a long half lies. */
interface Place {
  readonly bytes: SharedArrayBuffer;
  readonly from: number;
  readonly to: number;
}

const PLACE = Symbol("where the long half of a summary lies");
type Placed = PackedSummary & { readonly [PLACE]?: Place };

/**
 * Moves the long halves of these to memory that threads share, one behind the other, where they do not lie in such. They say the
 * same as before, read from there whenever they are asked for.
 */
export function shareRests(found: readonly Remembered[]): void {
  const packed = found.flatMap((one): PackedSummary[] =>
    one.packed && !(one.packed as Placed)[PLACE] ? [one.packed] : [],
  );
  if (packed.length === 0) return;
  const encoder = new TextEncoder();
  const rests = packed.map(({ rest }) => encoder.encode(rest));
  const bytes = new SharedArrayBuffer(rests.reduce((sum, { length }) => sum + length, 0));
  const view = new Uint8Array(bytes);
  let from = 0;
  for (const [i, rest] of rests.entries()) {
    const to = from + rest.length;
    view.set(rest, from);
    place(packed[i]!, { bytes, from, to });
    from = to;
  }
}

/** To be handed on; see `shareRests`, which is done with them. */
export function packSums(found: readonly Remembered[]): Sums {
  shareRests(found);
  const bytes: SharedArrayBuffer[] = [];
  const numbers = new Map<SharedArrayBuffer, number>();
  const all = found.map(({ uri, hash, packed }): Sum => {
    const known = hash === undefined ? { uri } : { uri, hash };
    const placed = (packed as Placed | undefined)?.[PLACE];
    if (!packed || !placed) return known;
    let at = numbers.get(placed.bytes);
    if (at === undefined) {
      at = bytes.push(placed.bytes) - 1;
      numbers.set(placed.bytes, at);
    }
    return { ...known, packed: { head: packed.head, at, from: placed.from, to: placed.to } };
  });
  return { all, bytes };
}

/** What was put together; each long half is read when it is asked for. */
export function unpackSums({ all, bytes }: Sums): Remembered[] {
  return all.map(({ uri, hash, packed }): Remembered => {
    const known = hash === undefined ? { uri } : { uri, hash };
    if (!packed) return known;
    const { head, at, from, to } = packed;
    return { ...known, packed: place({ head, rest: "" }, { bytes: bytes[at]!, from, to }) };
  });
}

/** Read by a function that all of them share: see `withLater`. */
const REST: PropertyDescriptor = {
  get(this: { readonly [PLACE]: Place }) {
    const { bytes, from, to } = this[PLACE];
    // A decoder takes no shared memory, so this is a copy.
    return new TextDecoder().decode(new Uint8Array(bytes).slice(from, to));
  },
  enumerable: true,
  configurable: true,
};

/** The same object, its long half read from there from now on. */
const place = (packed: PackedSummary, { bytes, from, to }: Place): PackedSummary =>
  Object.defineProperties(packed, {
    rest: REST,
    [PLACE]: { value: { bytes, from, to }, configurable: true },
  });
