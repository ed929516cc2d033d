import { describe, expect, test } from "vitest";
import { hittingSetSteps, hittingSets } from "../../../server/src/compute/diagnosis/hitting-sets";
import { boardConflicts } from "./measure-sets";
import { random } from "./random";

const sets = (...args: Parameters<typeof hittingSets>) => {
  const result = hittingSets(...args);
  if (!result.ok) throw new Error(result.reason);
  return result;
};

/** `count` disjoint conflicts of `size` elements. */
const disjoint = (count: number, size: number) =>
  Array.from({ length: count }, (_, c) => Array.from({ length: size }, (_, i) => `C${c}.${i}`));

describe("hitting sets", () => {
  test("nothing disproved: the one explanation is that nothing is faulty", () => {
    expect(sets([])).toMatchObject({
      sets: [[]],
      completeUpTo: Number.POSITIVE_INFINITY,
      stopped: "exhausted",
    });
  });

  test("a conflict held by another, or named twice, changes nothing", () => {
    expect(
      sets([
        ["U1", "U2", "U1"],
        ["U2", "U1"],
        ["U1", "U2", "U3"],
      ]).sets,
    ).toEqual([["U1"], ["U2"]]);
  });

  test("the bound is stated", () => {
    const bounded = sets(disjoint(4, 3), { maxSize: 2, beyond: 0 });
    expect(bounded).toMatchObject({ sets: [], completeUpTo: 2, stopped: "size" });
    expect(bounded.statement).toBe("Complete up to 2 faults; larger explanations were not looked for.");
    const short = sets(disjoint(6, 30), { maxSize: 6, maxNodes: 50, beyond: 0 });
    expect(short).toMatchObject({ stopped: "nodes", nodes: 50 });
    expect(short.statement).toBe(`Complete up to ${short.completeUpTo} faults; stopped after 50 steps.`);
  });

  test("beyond the listing the likeliest are still found, however many faults they take", () => {
    const likely = (name: string) => (name.endsWith(".7") ? 1 : 5);
    const result = sets(disjoint(20, 10), { maxSize: 2, beyond: 1, cost: likely });
    expect(result.sets).toEqual([Array.from({ length: 20 }, (_, c) => `C${c}.7`).sort()]);
    expect(result).toMatchObject({ completeUpTo: 2, stopped: "sets" });
  });

  test("the number of sets is bounded, and what is listed is said to be complete only as far as it is", () => {
    const result = sets(disjoint(2, 100), { maxSets: 500, beyond: 0 });
    expect(result).toMatchObject({ completeUpTo: 1, stopped: "sets" });
    expect(result.sets).toHaveLength(500);
  });

  test("in steps of 16 nodes at most, so that whoever runs it can leave it", () => {
    const conflicts = [["A"], ...disjoint(8, 40)];
    const options = { maxSize: 9, maxNodes: 192, beyond: 0 };
    const steps = hittingSetSteps(conflicts, options);
    let taken = 0;
    let step = steps.next();
    for (; !step.done; step = steps.next()) taken += 1;
    expect(step.value).toEqual(hittingSets(conflicts, options));
    expect(step.value).toMatchObject({ stopped: "nodes", nodes: 192 });
    expect(taken).toBeGreaterThanOrEqual(192 / 16);
    const left = hittingSetSteps(conflicts, options);
    left.next();
    left.return({ ok: false, reason: "nobody waits" });
    expect(left.next().done).toBe(true);
  });

  test("the order of the conflicts and of their elements does not matter", () => {
    const rng = random(11);
    const family = Array.from({ length: 9 }, () =>
      Array.from({ length: 6 }, () => `U${1 + Math.floor(rng() * 25)}`),
    );
    const first = sets(family);
    expect(first.sets.length).toBeGreaterThan(5);
    const turned = [...family].reverse().map((set) => [...set].reverse());
    expect(sets(turned)).toEqual(first);
  });

  test.each([
    [[["U1"], []], {}, "Conflict 2 of 2 is empty: nothing can explain it."],
    [[["U1"]], { maxSize: -1 }, "maxSize must be zero or more, but it is -1."],
    [[["U1"]], { maxNodes: Number.NaN }, "maxNodes must be zero or more, but it is NaN."],
    [[["U1"]], { cost: () => -2 }, "The cost of U1 must be a finite number of zero or more, but it is -2."],
  ])("what cannot be searched is refused with the reason", (conflicts, options, reason) => {
    expect(hittingSets(conflicts, options)).toEqual({ ok: false, reason });
  });

  test("a board's worth: 300 parts, 600 nets, 20 conflicts, within its nodes", () => {
    const result = sets(boardConflicts(5));
    expect(result.sets.length).toBeGreaterThan(0);
    expect(result.completeUpTo).toBeGreaterThanOrEqual(3);
  });
});
