// Conflict sets as numbers: what both searches for hitting sets work on.
import type { Steps } from "../../base/steps";
import { allBits, type Bits, hasBit, isEmpty, minus, noBits, setBit } from "./bits";

/** Bits of which most words are empty: the numbers of those that are not, and what is in them. */
export interface SparseBits {
  readonly at: Uint32Array;
  readonly bits: Uint32Array;
}

export interface SuspectSets {
  /** Names by number, in the order of preference. */
  readonly names: readonly string[];
  /** Cost by number. */
  readonly costs: readonly number[];
  /** The conflicts that say something of their own, as element numbers in ascending order. */
  readonly conflicts: readonly (readonly number[])[];
  /** By conflict: its elements, as the words of bits that hold any. */
  readonly members: readonly SparseBits[];
  /** By element: the conflicts it is in. */
  readonly hits: readonly Bits[];
  readonly all: Bits;
}

/** Names whose cost is asked for, and conflicts that are compared, between two steps. */
const NAMES_A_STEP = 200;
const CONFLICTS_A_STEP = 16;

/** Numbers the elements, cheapest first; a conflict that holds all of another is dropped, being implied by it. */
export function* familyOf(
  sets: readonly (readonly string[])[],
  cost: (element: string) => number,
): Steps<SuspectSets> {
  const named: { readonly name: string; readonly cost: number }[] = [];
  for (const name of new Set(sets.flat())) {
    if (named.length % NAMES_A_STEP === 0) yield;
    named.push({ name, cost: cost(name) });
  }
  const names = named.sort((a, b) => a.cost - b.cost || compareText(a.name, b.name));
  const number = new Map(names.map(({ name }, i) => [name, i]));
  yield;
  const numbered = sets
    .map((set) => [...new Set(set)].map((name) => number.get(name)!).sort((a, b) => a - b))
    .sort((a, b) => a.length - b.length || compareNumbers(a, b));
  const conflicts: number[][] = [];
  for (const [i, set] of numbered.entries()) {
    if (i % CONFLICTS_A_STEP === 0) yield;
    const members = new Set(set);
    if (conflicts.some((smaller) => smaller.every((element) => members.has(element)))) continue;
    conflicts.push(set);
  }
  yield;
  const hits = names.map(() => noBits(conflicts.length));
  conflicts.forEach((set, c) => {
    for (const element of set) setBit(hits[element]!, c);
  });
  return {
    names: names.map(({ name }) => name),
    costs: names.map((entry) => entry.cost),
    conflicts,
    members: conflicts.map(wordsOf),
    hits,
    all: allBits(conflicts.length),
  };
}

/** Of numbers in ascending order. */
function wordsOf(set: readonly number[]): SparseBits {
  const at = [...new Set(set.map((element) => element >>> 5))];
  const bits = new Uint32Array(at.length);
  let word = 0;
  for (const element of set) {
    while (at[word] !== element >>> 5) word += 1;
    bits[word]! |= 1 << (element & 31);
  }
  return { at: Uint32Array.from(at), bits };
}

/**
 * What each chosen element alone still hits once `added` has joined, or undefined where one has nothing left: then
 * no set with all of them is minimal. Conflicts hit by one element alone are its licence to be in the set (the
 * criterion of Murakami and Uno's search for minimal hitting sets; from memory).
 */
export function licences(own: readonly Bits[], added: Bits): Bits[] | undefined {
  const out: Bits[] = [];
  for (const bits of own) {
    const left = minus(bits, added);
    if (isEmpty(left)) return undefined;
    out.push(left);
  }
  return out;
}

/**
 * The least that hitting what is uncovered can cost: uncovered conflicts that share no allowed element need one
 * each. Undefined where a conflict can no longer be hit.
 * @param costs one each where not given
 * @param enough the count may end once it is beyond this
 */
export function leastCost(
  family: SuspectSets,
  uncovered: Bits,
  forbidden: Bits,
  costs: readonly number[] | undefined,
  enough = Number.POSITIVE_INFINITY,
): number | undefined {
  const used = noBits(family.names.length);
  let total = 0;
  for (let c = 0; c < family.conflicts.length; c += 1) {
    if (!hasBit(uncovered, c)) continue;
    const { at, bits } = family.members[c]!;
    let any = false;
    let apart = total <= enough;
    for (let i = 0; i < at.length; i += 1) {
      const allowed = bits[i]! & ~forbidden[at[i]!]!;
      if (allowed === 0) continue;
      any = true;
      apart &&= (allowed & used[at[i]!]!) === 0;
      if (!apart) break;
    }
    if (!any) return undefined;
    if (!apart) continue;
    for (let i = 0; i < at.length; i += 1) used[at[i]!]! |= bits[i]! & ~forbidden[at[i]!]!;
    // Elements are numbered cheapest first.
    total += costs ? costs[family.conflicts[c]!.find((element) => !hasBit(forbidden, element))!]! : 1;
  }
  return total;
}

export const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

export function compareNumbers(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i += 1) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return a.length - b.length;
}
