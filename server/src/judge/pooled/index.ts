// Limits that were pooled from several shops' exports, which a shop file names: what neither the board file nor the shop's own
// jobs know.
import { memoEach } from "../../base/memo";
import type { PooledLimit, PooledLimits } from "../../knowledge/types";
import { placeWords } from "../baseline/places";
import type { Known } from "../context";
import type { Pooled } from "./types";

/**
 * What a file of pooled limits has of a board. The same object for as long as the file says the same; undefined where
 * it has nothing.
 */
export const pooledFor = (
  file: Known<PooledLimits>,
  board: string,
  revision: string | undefined,
): Pooled | undefined => of(file, JSON.stringify([board, revision ?? null]));

const of = memoEach((file: Known<PooledLimits>, key: string): Pooled | undefined => {
  const [board, revision] = JSON.parse(key) as [string, string | null];
  const limits = new Map<string, PooledLimit>();
  for (const limit of file.value.limits) {
    if (limit.board !== board || (limit.revision !== undefined && limit.revision !== revision)) continue;
    const at = keyOf(limit, limit.place);
    if (!limits.has(at) || limit.revision !== undefined) limits.set(at, limit);
  }
  if (limits.size === 0) return undefined;
  return {
    uri: file.uri,
    source: file.value.source,
    at: (place) => limits.get(keyOf(place, placeWords(place))),
  };
});

const keyOf = (
  {
    procedure,
    measure,
    load,
  }: { readonly procedure: string; readonly measure: string; readonly load?: string },
  place: string,
): string => JSON.stringify([procedure, measure, load ?? null, place.toUpperCase()]);
