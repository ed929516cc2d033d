// What was found in files, as threads hand it over: small, and outside of what is cleared of memory again and again. Ten thousand
// results wait in the program until all are there to be printed.
import { deflateRawSync, inflateRawSync } from "node:zlib";
import { withLater } from "../../base/later";
import type { Checked } from "../desk";

type Rest<C> = C extends { readonly json: string } ? Omit<C, "json"> : C;

/** Results of some files, in order; the JSON of each that has any is packed between two of these places of the bytes. */
export interface PackedResults {
  readonly all: readonly (Rest<Checked> & { readonly from: number; readonly to: number })[];
  readonly bytes: Uint8Array;
  /** What each is packed by: the first results of the same thread, in memory that all threads share. */
  readonly like: Uint8Array;
}

/** zlib's: with something alike to go by, the lower ones take off less and cost as much. */
const LEVEL = 3;
/** zlib looks back no further, in bytes. */
const MOST_LIKE = 32 * 1024;

/** Packs results to be handed to another thread. They are much like one another, so that by the first ones half comes off. */
export function resultPacker(): (results: readonly Checked[]) => PackedResults {
  let like: Uint8Array = new Uint8Array();
  return (results) => {
    if (like.length === 0) like = shared(firstOf(results));
    return pack(results, like);
  };
}

/** As much of these as is looked at. */
function firstOf(results: readonly Checked[]): Uint8Array {
  const parts: Uint8Array[] = [];
  let length = 0;
  for (const result of results) {
    if (length >= MOST_LIKE) break;
    if (result.is !== "checked") continue;
    const part = Buffer.from(result.json);
    parts.push(part);
    length += part.length;
  }
  return Buffer.concat(parts).subarray(0, MOST_LIKE);
}

function shared(bytes: Uint8Array): Uint8Array {
  const copy = new Uint8Array(new SharedArrayBuffer(bytes.length));
  copy.set(bytes);
  return copy;
}

function pack(results: readonly Checked[], like: Uint8Array): PackedResults {
  const parts: Uint8Array[] = [];
  let at = 0;
  const all = results.map((result) => {
    const from = at;
    if (result.is !== "checked") return { ...result, from, to: from };
    const { json, ...rest } = result;
    const part = deflateRawSync(json, { level: LEVEL, dictionary: like });
    parts.push(part);
    at += part.length;
    return { ...rest, from, to: at };
  });
  // Of its own memory: what stands in a larger piece would be handed over with all of it.
  const bytes = new Uint8Array(at);
  let to = 0;
  for (const part of parts) {
    bytes.set(part, to);
    to += part.length;
  }
  return { all, bytes, like };
}

/** The results again; the JSON of each is unpacked whenever it is asked for. */
export function unpackResults({ all, bytes, like }: PackedResults): Checked[] {
  return all.map(({ from, to, ...result }): Checked => {
    if (result.is !== "checked") return result;
    const json = (): string =>
      inflateRawSync(bytes.subarray(from, to), { dictionary: like }).toString("utf8");
    return withLater(result, { json });
  });
}
