// Conflict sets as numbers: what both searches for hitting sets work on.
import { allBits, type Bits, hasBit, isEmpty, minus, noBits, setBit } from "./bits";

export interface Family {
  /** Names by number, in the order of preference. */
  readonly names: readonly string[];
  /** Cost by number. */
  readonly costs: readonly number[];
  /** The conflicts that say something of their own, as element numbers in ascending order. */
  readonly conflicts: readonly (readonly number[])[];
  /** By conflict: its elements. */
  readonly members: readonly Bits[];
  /** By element: the conflicts it is in. */
  readonly hits: readonly Bits[];
  readonly all: Bits;
}

/** Numbers the elements, cheapest first; a conflict that holds all of another is dropped, being implied by it. */
export function familyOf(sets: readonly (readonly string[])[], cost: (element: string) => number): Family {
  const names = [...new Set(sets.flat())]
    .map((name) => ({ name, cost: cost(name) }))
    .sort((a, b) => a.cost - b.cost || compareText(a.name, b.name));
  const number = new Map(names.map(({ name }, i) => [name, i]));
  const numbered = sets
    .map((set) => [...new Set(set)].map((name) => number.get(name)!).sort((a, b) => a - b))
    .sort((a, b) => a.length - b.length || compareNumbers(a, b));
  const conflicts: number[][] = [];
  for (const set of numbered) {
    const members = new Set(set);
    if (conflicts.some((smaller) => smaller.every((element) => members.has(element)))) continue;
    conflicts.push(set);
  }
  const hits = names.map(() => noBits(conflicts.length));
  conflicts.forEach((set, c) => {
    for (const element of set) setBit(hits[element]!, c);
  });
  return {
    names: names.map(({ name }) => name),
    costs: names.map((entry) => entry.cost),
    conflicts,
    members: conflicts.map((set) => {
      const bits = noBits(names.length);
      for (const element of set) setBit(bits, element);
      return bits;
    }),
    hits,
    all: allBits(conflicts.length),
  };
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
 */
export function leastCost(
  family: Family,
  uncovered: Bits,
  forbidden: Bits,
  costs: readonly number[] | undefined,
): number | undefined {
  const used = noBits(family.names.length);
  let total = 0;
  for (let c = 0; c < family.conflicts.length; c += 1) {
    if (!hasBit(uncovered, c)) continue;
    const members = family.members[c]!;
    let any = false;
    let apart = true;
    for (let i = 0; i < members.length; i += 1) {
      const allowed = members[i]! & ~forbidden[i]!;
      any ||= allowed !== 0;
      apart &&= (allowed & used[i]!) === 0;
    }
    if (!any) return undefined;
    if (!apart) continue;
    for (let i = 0; i < members.length; i += 1) used[i]! |= members[i]! & ~forbidden[i]!;
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
