// What is remembered of logs as it is handed to other threads.
import type { Remembered } from "./remembered";

/** Summaries of some files. Their long halves lie one behind the other in memory that all threads share. */
export interface Sums {
  readonly all: readonly Sum[];
  readonly bytes: SharedArrayBuffer;
}

export interface Sum {
  readonly uri: string;
  readonly hash?: string;
  /** Absent where there is nothing to remember. */
  readonly packed?: { readonly head: string; readonly from: number; readonly to: number };
}

/** In shared memory, so that ten thousand of them are there once and not once for each thread. */
export function packSums(found: readonly Remembered[]): Sums {
  const encoder = new TextEncoder();
  const rests = found.map(({ packed }) => (packed ? encoder.encode(packed.rest) : undefined));
  const bytes = new SharedArrayBuffer(rests.reduce((sum, rest) => sum + (rest?.length ?? 0), 0));
  const view = new Uint8Array(bytes);
  let at = 0;
  const all = found.map(({ uri, hash, packed }, i): Sum => {
    const rest = rests[i];
    if (!packed || !rest) return hash === undefined ? { uri } : { uri, hash };
    const from = at;
    view.set(rest, from);
    at += rest.length;
    return { uri, ...(hash === undefined ? {} : { hash }), packed: { head: packed.head, from, to: at } };
  });
  return { all, bytes };
}

/** What was put together; each long half is read when it is asked for. */
export function unpackSums({ all, bytes }: Sums): Remembered[] {
  const view = new Uint8Array(bytes);
  return all.map(({ uri, hash, packed }): Remembered => {
    const known = hash === undefined ? { uri } : { uri, hash };
    if (!packed) return known;
    const { head, from, to } = packed;
    return {
      ...known,
      packed: {
        head,
        // A decoder takes no shared memory, so this is a copy.
        get rest() {
          return new TextDecoder().decode(view.slice(from, to));
        },
      },
    };
  });
}
