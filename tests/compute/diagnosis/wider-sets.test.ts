import { expect, test } from "vitest";
import { diagnosed, high, low, rowDead } from "./small-board";

test("two causes are listed where one hardly accounts for a finding, and none twice", () => {
  // U4 is only a neighbour of the rows; a row part beside it is the likelier story than U4 for both.
  const { candidates } = diagnosed([rowDead, high("U4", "1")]);
  const names = candidates.map(({ suspects }) =>
    suspects
      .map(({ id }) => id)
      .sort()
      .join(" "),
  );
  expect(names).toContain("U1 U4");
  expect(new Set(names).size).toBe(names.length);
  expect(candidates.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
});

test("none is added where every finding is well explained", () => {
  const { candidates } = diagnosed([low("U1", "2"), low("U1", "4")]);
  const ids = candidates.map(({ suspects }) => suspects.map(({ id }) => id));
  expect(ids.filter((set) => set.includes("U1")).every((set) => set.length <= 2)).toBe(true);
});
