import { describe, expect, test } from "vitest";
import { propagate } from "../../../server/src/compute/measurement/propagate";
import { refusalIn, valueIn } from "../../support/computed";

const sum = (...values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const product = (...values: readonly number[]): number => values.reduce((a, b) => a * b, 1);

describe("propagate", () => {
  const pair = [
    { value: 5, u: 0.3 },
    { value: 2, u: 0.4 },
  ];

  test("independent terms add in quadrature", () => {
    expect(valueIn(propagate(sum, pair))).toEqual({ value: 7, u: expect.closeTo(0.5, 12) });
  });

  test("relative uncertainties of independent factors add in quadrature", () => {
    const { value, u } = valueIn(propagate(product, pair));
    expect(u / value).toBeCloseTo(Math.hypot(0.3 / 5, 0.4 / 2), 12);
  });

  test("fully correlated terms add, opposite ones cancel", () => {
    expect(valueIn(propagate(sum, pair, [[0, 1, 1]])).u).toBeCloseTo(0.7, 12);
    expect(valueIn(propagate(sum, pair, [[0, 1, -1]])).u).toBeCloseTo(0.1, 12);
  });

  test("cancelling to nothing is 0, not the root of a rounding error", () => {
    // 0.27 / 3 is 0.09000000000000001: unguarded, the variance is -3e-18.
    const weighted = (...[a = 0, b = 0]: readonly number[]): number => a + b / 3;
    const inputs = [
      { value: 0, u: 0.09 },
      { value: 0, u: 0.27 },
    ];
    expect(valueIn(propagate(weighted, inputs, [[0, 1, -1]])).u).toBe(0);
  });

  test("refuses correlations that no three inputs can have", () => {
    const inputs = [1, 1, 1].map((u) => ({ value: 0, u }));
    const all = [
      [0, 1, -1],
      [0, 2, -1],
      [1, 2, -1],
    ] as const; // each opposite to both others
    expect(refusalIn(propagate(sum, inputs, all))).toContain("contradict");
  });

  test("exact inputs give an exact result", () => {
    expect(
      valueIn(
        propagate(product, [
          { value: 3, u: 0 },
          { value: 4, u: 0 },
        ]),
      ),
    ).toEqual({ value: 12, u: 0 });
  });

  test.each([
    [[{ value: Number.NaN, u: 1 }], [], "cannot be propagated"],
    [[{ value: 1, u: -1 }], [], "cannot be propagated"],
    [pair, [[0, 2, 0.5]], "makes no sense"],
    [pair, [[0, 1, 1.5]], "makes no sense"],
    [pair, [[1, 1, 0.5]], "makes no sense"],
  ] as const)("refuses %j with %j", (inputs, correlations, words) => {
    expect(refusalIn(propagate(sum, inputs, correlations))).toContain(words);
  });

  test("refuses a pole within reach of the inputs", () => {
    const inverse = (x: number): number => 1 / x;
    expect(refusalIn(propagate(inverse, [{ value: 1, u: 1 }]))).toContain("not finite");
  });
});
