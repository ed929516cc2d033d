import fc from "fast-check";
import { expect, test } from "vitest";
import { heldWhileLight } from "../../server/src/base/held";

test("what was asked for last is held, as much as weighs no more than it may, and the very last in any case", () => {
  const most = 10;
  fc.assert(
    fc.property(
      fc.array(fc.nat(14), { minLength: 1, maxLength: 6 }),
      fc.array(fc.nat(5), { maxLength: 60 }),
      (weights, asked) => {
        const hold = heldWhileLight<{ readonly weight: number }>(most, ({ weight }) => weight);
        const made = weights.map(() => 0);
        const all = weights.map((weight, i) =>
          hold(() => {
            made[i]!++;
            return { weight };
          }),
        );
        /** By their numbers, the last asked for first. */
        let used: number[] = [];
        for (const n of asked) {
          const i = n % weights.length;
          const before = all[i]!.now();
          const times = made[i]!;
          const value = all[i]!.get();
          expect(value.weight).toBe(weights[i]);
          // What was at hand is given, what was not is made.
          if (before) expect(value).toBe(before);
          expect(made[i]).toBe(before ? times : times + 1);
          expect(all[i]!.now()).toBe(value);
          used = [i, ...used.filter((other) => other !== i)];
          const there = used.filter((other) => all[other]!.now());
          expect(there).toEqual(used.slice(0, there.length));
          const sum = there.reduce((total, other) => total + weights[other]!, 0);
          expect(there.length === 1 || sum <= most).toBe(true);
        }
      },
    ),
    { seed: 20_261_201, numRuns: 300 },
  );
});
