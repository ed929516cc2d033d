// Hitting sets against two independent ways of finding them: every subset tried, and a satisfiability solver.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type HittingSetOptions, hittingSets } from "../../../server/src/compute/diagnosis/hitting-sets";
import { bruteForce, bySatisfiability } from "./oracles";

const found = (conflicts: readonly (readonly string[])[], options?: HittingSetOptions) => {
  const result = hittingSets(conflicts, options);
  if (!result.ok) throw new Error(result.reason);
  return result;
};

const familyOver = (elements: number, most: number, longest: number) =>
  fc.array(
    fc.uniqueArray(
      fc.integer({ min: 0, max: elements - 1 }).map((i) => `U${String(i).padStart(2, "0")}`),
      { minLength: 1, maxLength: longest },
    ),
    { maxLength: most },
  );

describe("against every subset tried", () => {
  test("all of them, without a bound on the size", () => {
    fc.assert(
      fc.property(familyOver(10, 8, 6), (conflicts) => {
        const result = found(conflicts, { maxSize: 10 });
        expect(result.sets).toEqual(bruteForce(conflicts));
        expect(result.completeUpTo).toBe(Number.POSITIVE_INFINITY);
      }),
      { numRuns: 400, seed: 1 },
    );
  });

  test("complete up to the size stated, and nothing that is not minimal beyond it", () => {
    fc.assert(
      fc.property(
        familyOver(10, 10, 4),
        fc.nat(3),
        fc.nat(60),
        fc.nat(5),
        (conflicts, maxSize, maxNodes, beyond) => {
          const result = found(conflicts, { maxSize, maxNodes, beyond });
          const all = bruteForce(conflicts);
          expect(result.sets.filter((set) => set.length <= result.completeUpTo)).toEqual(
            all.filter((set) => set.length <= result.completeUpTo),
          );
          const keys = new Set(all.map(String));
          for (const set of result.sets) expect(keys).toContain(String(set));
          expect(new Set(result.sets.map(String)).size).toBe(result.sets.length);
        },
      ),
      { numRuns: 400, seed: 2 },
    );
  });

  test("beyond the listing the cheapest come first", () => {
    fc.assert(
      fc.property(
        familyOver(9, 7, 5),
        fc.array(fc.nat(9), { minLength: 9, maxLength: 9 }),
        (conflicts, costs) => {
          const cost = (name: string) => costs[Number(name.slice(1))] ?? 0;
          const total = (set: readonly string[]) => set.reduce((sum, name) => sum + cost(name), 0);
          const cheapest = (sets: readonly (readonly string[])[]) => sets.map(total).sort((a, b) => a - b);
          const result = found(conflicts, { maxSize: 0, beyond: 4, cost });
          expect(cheapest(result.sets)).toEqual(cheapest(bruteForce(conflicts)).slice(0, 4));
        },
      ),
      { numRuns: 300, seed: 3 },
    );
  });
});

describe("against a satisfiability solver", () => {
  test("up to three elements out of thirty", () => {
    fc.assert(
      fc.property(familyOver(30, 9, 8), (conflicts) => {
        const listed = found(conflicts, { maxSize: 3, beyond: 0 }).sets;
        expect(listed).toEqual(bySatisfiability(conflicts, 3));
      }),
      { numRuns: 12, seed: 4 },
    );
  });
});
