import fc from "fast-check";
import { expect, test } from "vitest";
import { tokenEdits } from "../../server/src/protocol/token-edits";

const tokens = fc
  .array(fc.constantFrom([0, 4, 3, 0, 0], [1, 2, 3, 1, 0], [1, 2, 4, 3, 1], [1, 2, 4, 3, 4]))
  .map((list) => list.flat());

const applied = (data: readonly number[], edits: ReturnType<typeof tokenEdits>): number[] => {
  const now = [...data];
  for (const { start, deleteCount, data: own = [] } of [...edits].reverse())
    now.splice(start, deleteCount, ...own);
  return now;
};

test("the old with the edits is the new; the edits are in order, apart, and between tokens", () => {
  fc.assert(
    fc.property(tokens, tokens, (before, after) => {
      const edits = tokenEdits(before, after);
      expect(applied(before, edits)).toEqual(after);
      let end = -1;
      for (const { start, deleteCount, data } of edits) {
        expect(start).toBeGreaterThan(end);
        expect([start % 5, deleteCount % 5, (data?.length ?? 0) % 5]).toEqual([0, 0, 0]);
        end = start + deleteCount;
      }
      expect(end).toBeLessThanOrEqual(before.length);
    }),
  );
});

test("what stays is not said again: a change says itself, no change nothing", () => {
  const many = Array.from({ length: 100 }, (_, i) => [1, i % 7, 3, 0, 0]).flat();
  expect(tokenEdits(many, many)).toEqual([]);
  const two = [...many];
  two[54] = 2;
  two[454] = 2;
  expect(tokenEdits(many, two).map(({ start, deleteCount }) => [start, deleteCount])).toEqual([
    [50, 5],
    [450, 5],
  ]);
  const longer = [...many.slice(0, 250), 1, 9, 9, 9, 9, ...many.slice(250)];
  expect(tokenEdits(many, longer)).toEqual([{ start: 250, deleteCount: 0, data: [1, 9, 9, 9, 9] }]);
});
