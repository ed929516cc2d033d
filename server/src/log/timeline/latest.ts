// What was read before a repair no longer counts after a later reading of the same place.

/** Of each place the latest time that something was taken there. */
export function latestTimes<T, P>(
  all: readonly T[],
  placeOf: (one: T) => P,
  timeOf: (one: T) => number,
): ReadonlyMap<P, number> {
  const last = new Map<P, number>();
  for (const one of all) last.set(placeOf(one), Math.max(timeOf(one), last.get(placeOf(one)) ?? 0));
  return last;
}

/** Of each place what was taken after the most repairs. Those of one time all stay: nobody can tell which was the slip. */
export function latestOf<T>(
  all: readonly T[],
  placeOf: (one: T) => unknown,
  timeOf: (one: T) => number,
): readonly T[] {
  const last = latestTimes(all, placeOf, timeOf);
  return all.filter((one) => last.get(placeOf(one)) === timeOf(one));
}
