import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { runsOf } from "../../server/src/base/runs";

const keysOf = (count: number): object[] => Array.from({ length: count }, (_, n) => ({ n }));
const joined = (keys: readonly object[]): object[] => runsOf(keys).flatMap(({ run }) => run.keys);

describe("runs of keys", () => {
  it("hold all keys in their order, whatever comes, goes, changes places or stands there twice", () => {
    const edit = fc.record({ at: fc.nat(), how: fc.nat(3), to: fc.nat() });
    fc.assert(
      fc.property(fc.nat(120), fc.array(edit, { maxLength: 12 }), (count, edits) => {
        const keys = keysOf(count);
        for (const { at, how, to } of edits) {
          const place = at % (keys.length + 1);
          const other = keys[to % Math.max(1, keys.length)];
          if (how === 0) keys.splice(place, 1);
          else if (how === 1) keys.splice(place, 0, {});
          else if (how === 2 && place < keys.length) keys[place] = {};
          else if (other) keys.splice(place, 0, other);
          expect(joined(keys)).toEqual(keys);
          let next = 0;
          for (const { first, run } of runsOf(keys)) {
            expect(first).toBe(next);
            expect(run.keys.length).toBeGreaterThan(0);
            next += run.keys.length;
          }
        }
      }),
    );
  });

  it("stay the very same objects but for those about a change", () => {
    const keys = keysOf(2000);
    const before = new Set(runsOf(keys).map(({ run }) => run));
    expect(before.size).toBeGreaterThan(60);
    for (const at of [0, 1, 999, 1999]) {
      keys[at] = {};
      const now = runsOf(keys).map(({ run }) => run);
      expect(now.filter((run) => !before.has(run)).length).toBeLessThanOrEqual(3);
      for (const run of now) before.add(run);
    }
    keys.splice(500, 0, {}, {});
    keys.splice(100, 1);
    const now = runsOf(keys).map(({ run }) => run);
    expect(now.filter((run) => !before.has(run)).length).toBeLessThanOrEqual(6);
  });
});
