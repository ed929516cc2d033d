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
}

/** zlib's fastest: the others take off hardly more. */
const LEVEL = 1;

/** To be handed to another thread. */
export function packResults(results: readonly Checked[]): PackedResults {
  const parts: Uint8Array[] = [];
  let at = 0;
  const all = results.map((result) => {
    const from = at;
    if (result.is !== "checked") return { ...result, from, to: from };
    const { json, ...rest } = result;
    const part = deflateRawSync(json, { level: LEVEL });
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
  return { all, bytes };
}

/** The results again; the JSON of each is unpacked whenever it is asked for. */
export function unpackResults({ all, bytes }: PackedResults): Checked[] {
  return all.map(({ from, to, ...result }): Checked => {
    if (result.is !== "checked") return result;
    const json = (): string => inflateRawSync(bytes.subarray(from, to)).toString("utf8");
    return withLater(result, { json });
  });
}
