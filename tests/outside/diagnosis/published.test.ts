// The two worked examples that everyone in model-based diagnosis compares with: the polybox of J. de Kleer and
// B. C. Williams, "Diagnosing multiple faults", Artificial Intelligence 32, 1987, and the full adder of R. Reiter,
// "A theory of diagnosis from first principles", same volume. The published conflicts and diagnoses are the
// figures below; that they follow from the circuits is worked out here by trying every value on every wire.
import { describe, expect, test } from "vitest";
import { hittingSets } from "../../../server/src/compute/diagnosis/hitting-sets";
import { minimalSubsets } from "./oracles";

const diagnoses = (conflicts: readonly (readonly string[])[]): readonly (readonly string[])[] => {
  const result = hittingSets(conflicts);
  if (!result.ok) throw new Error(result.reason);
  expect(result.completeUpTo).toBe(Number.POSITIVE_INFINITY);
  return result.sets;
};

/** Conflicts and diagnoses of a circuit, from whether it can behave as seen with a set of components faulty. */
function workOut(components: readonly string[], possible: (faulty: ReadonlySet<string>) => boolean) {
  const others = (set: ReadonlySet<string>) => new Set(components.filter((name) => !set.has(name)));
  return {
    conflicts: minimalSubsets(components, (sound) => !possible(others(sound))),
    diagnoses: minimalSubsets(components, possible),
  };
}

describe("the polybox", () => {
  const COMPONENTS = ["A1", "A2", "M1", "M2", "M3"];
  const [a, b, c, d, e] = [3, 2, 2, 3, 3];
  const WIRES = Array.from({ length: 25 }, (_, value) => value);

  /** X = A·C, Y = B·D, Z = C·E, F = X + Y, G = Y + Z, with F = 10 and G = 12 seen. */
  const polybox = (seen: { x?: number; y?: number }) => (faulty: ReadonlySet<string>) =>
    WIRES.some((x) =>
      WIRES.some((y) =>
        WIRES.some(
          (z) =>
            (seen.x ?? x) === x &&
            (seen.y ?? y) === y &&
            (faulty.has("M1") || x === a * c) &&
            (faulty.has("M2") || y === b * d) &&
            (faulty.has("M3") || z === c * e) &&
            (faulty.has("A1") || x + y === 10) &&
            (faulty.has("A2") || y + z === 12),
        ),
      ),
    );

  test.each([
    {
      name: "F = 10, G = 12",
      seen: {},
      conflicts: [
        ["A1", "M1", "M2"],
        ["A1", "A2", "M1", "M3"],
      ],
      published: [["A1"], ["M1"], ["A2", "M2"], ["M2", "M3"]],
    },
    { name: "then X = 4", seen: { x: 4 }, conflicts: [["M1"]], published: [["M1"]] },
    {
      name: "or Y = 4",
      seen: { y: 4 },
      conflicts: [["M2"], ["A2", "M3"]],
      published: [
        ["A2", "M2"],
        ["M2", "M3"],
      ],
    },
  ])("$name", ({ seen, conflicts, published }) => {
    const worked = workOut(COMPONENTS, polybox(seen));
    expect(worked.conflicts).toEqual(conflicts);
    expect(worked.diagnoses).toEqual(published);
    expect(diagnoses(conflicts)).toEqual(published);
  });

  test("a later reading may be added to the earlier conflicts, implied ones and all", () => {
    const first = [
      ["A1", "M1", "M2"],
      ["A1", "A2", "M1", "M3"],
    ];
    expect(diagnoses([...first, ["M1"]])).toEqual([["M1"]]);
    expect(diagnoses([...first, ["M2"], ["A2", "M3"]])).toEqual([
      ["A2", "M2"],
      ["M2", "M3"],
    ]);
  });
});

describe("the full adder", () => {
  const BITS = [false, true];
  const [a, b, carryIn] = [true, false, true];

  /** Sum 1 and carry 0 seen, where 1 + 0 + 1 is sum 0 and carry 1. */
  const adder = (faulty: ReadonlySet<string>) =>
    BITS.some((half) =>
      BITS.some((both) =>
        BITS.some(
          (carried) =>
            (faulty.has("X1") || half === (a !== b)) &&
            (faulty.has("A1") || both === (a && b)) &&
            (faulty.has("X2") || true === (half !== carryIn)) &&
            (faulty.has("A2") || carried === (half && carryIn)) &&
            (faulty.has("O1") || false === (both || carried)),
        ),
      ),
    );

  test("inputs 1, 0, 1, sum 1, carry 0", () => {
    const conflicts = [
      ["X1", "X2"],
      ["A2", "O1", "X1"],
    ];
    const published = [["X1"], ["A2", "X2"], ["O1", "X2"]];
    const worked = workOut(["A1", "A2", "O1", "X1", "X2"], adder);
    expect(worked.conflicts).toEqual(conflicts);
    expect(worked.diagnoses).toEqual(published);
    expect(diagnoses(conflicts)).toEqual(published);
  });
});
