// Two ways of listing minimal hitting sets that share nothing with the program's.
import logic from "logic-solver";

export const bySizeAndName = (a: readonly string[], b: readonly string[]): number =>
  a.length - b.length || (a.join("\n") < b.join("\n") ? -1 : 1);

/** Every subset of the elements is tried; keeps those that hit all and have no smaller one inside. */
export function bruteForce(conflicts: readonly (readonly string[])[]): string[][] {
  const elements = [...new Set(conflicts.flat())].sort();
  const masks = conflicts.map((set) => set.reduce((mask, name) => mask | (1 << elements.indexOf(name)), 0));
  const hitting: number[] = [];
  for (let mask = 0; mask < 1 << elements.length; mask += 1) {
    if (masks.every((conflict) => (conflict & mask) !== 0)) hitting.push(mask);
  }
  const all = new Set(hitting);
  // A superset of a hitting set hits too, so one element less is enough to look at.
  const minimal = hitting.filter(
    (mask) => !elements.some((_, i) => mask & (1 << i) && all.has(mask & ~(1 << i))),
  );
  return minimal.map((mask) => elements.filter((_, i) => mask & (1 << i))).sort(bySizeAndName);
}

/** By satisfiability, one size after the other, a fresh solver for each: a set found forbids all that hold it. */
export function bySatisfiability(conflicts: readonly (readonly string[])[], maxSize: number): string[][] {
  const elements = [...new Set(conflicts.flat())].sort();
  const found: string[][] = [];
  for (let size = 0; size <= Math.min(maxSize, elements.length); size += 1) {
    const solver = new logic.Solver();
    for (const conflict of conflicts) solver.require(logic.or(conflict));
    for (const smaller of found) solver.forbid(logic.and(smaller));
    solver.require(logic.equalBits(logic.sum(elements), logic.constantBits(size)));
    for (;;) {
      const solution = solver.solve();
      if (!solution) break;
      const set = solution.getTrueVars().filter((name) => elements.includes(name));
      found.push(set.sort());
      solver.forbid(logic.and(set));
    }
  }
  return found.sort(bySizeAndName);
}

/** Subsets of `components`, smallest first, for which `consistent` holds and for no subset of which it does. */
export function minimalSubsets(
  components: readonly string[],
  holds: (subset: ReadonlySet<string>) => boolean,
): string[][] {
  const subsets = Array.from({ length: 1 << components.length }, (_, mask) =>
    components.filter((_, i) => mask & (1 << i)),
  ).sort(bySizeAndName);
  const minimal: string[][] = [];
  for (const subset of subsets) {
    if (minimal.some((smaller) => smaller.every((name) => subset.includes(name)))) continue;
    if (holds(new Set(subset))) minimal.push(subset);
  }
  return minimal;
}
