// Many things in a row, some at a time, so that what is asked of all of them is asked only of those about a change.
//
// Where a run begins is told by the things themselves, each by lot when it is first seen: one that comes or goes moves no
// beginning but its own.

import { memo } from "./memo";

/** Things that stand next to each other: the very same object for as long as the same ones do. */
export interface KeyRun<K extends object> {
  readonly keys: readonly K[];
}

/** A run at its place. */
export interface PlacedRun<K extends object> {
  /** Number of its first one among all, from 0. */
  readonly first: number;
  readonly run: KeyRun<K>;
}

/** One in how many begins a run, and how many a run has at most. */
const ONE_IN = 16;
const MOST = 48;

let seen = 0;
const isBeginning = memo((_key: object): boolean => {
  seen = (seen + 1) | 0;
  return Math.imul(seen ^ (seen >>> 7), 0x9e3779b1) >>> 0 < 2 ** 32 / ONE_IN;
});

const lastFrom = memo((_first: object): { run: KeyRun<object> | undefined } => ({ run: undefined }));

/** All of the keys in runs, in their order. A key may stand there more than once. */
export function runsOf<K extends object>(keys: readonly K[]): readonly PlacedRun<K>[] {
  const runs: PlacedRun<K>[] = [];
  for (let first = 0; first < keys.length; ) {
    const last = lastFrom(keys[first]!);
    if (!last.run || !standsAt(last.run, keys, first))
      last.run = { keys: keys.slice(first, endOf(keys, first)) };
    const run = last.run as KeyRun<K>;
    runs.push({ first, run });
    first += run.keys.length;
  }
  return runs;
}

function standsAt(run: KeyRun<object>, keys: readonly object[], first: number): boolean {
  if (first + run.keys.length > keys.length) return false;
  return run.keys.every((key, at) => key === keys[first + at]);
}

function endOf(keys: readonly object[], first: number): number {
  const most = Math.min(keys.length, first + MOST);
  let end = first + 1;
  while (end < most && !isBeginning(keys[end]!)) end++;
  return end;
}
