import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  chiSquareQuantile,
  chiSquareTail,
  tQuantile,
  tTail,
} from "../../../server/src/compute/measurement/distributions";
import {
  normalCdf,
  normalPdf,
  normalQuantile,
  normalTail,
} from "../../../server/src/compute/measurement/normal";
import { integrate } from "../../../server/src/compute/measurement/quadrature";
import { rootBetween, rootNear } from "../../../server/src/compute/measurement/root";
import { incompleteBeta, incompleteGamma, lnGamma } from "../../../server/src/compute/measurement/special";
import { relative } from "../../support/computed";

const INF = Number.POSITIVE_INFINITY;

describe("at the ends", () => {
  test("the normal distribution ends at 0 and 1, and nonsense has no quantile", () => {
    expect([normalCdf(INF), normalCdf(-INF), normalTail(INF), normalTail(-INF)]).toEqual([1, 0, 0, 1]);
    expect([normalCdf(0), normalTail(0), normalQuantile(0.5)]).toEqual([0.5, 0.5, 0]);
    expect([normalQuantile(0), normalQuantile(1)]).toEqual([-INF, INF]);
    expect([Number.NaN, -0.1, 1.1].map((odd) => normalQuantile(odd))).toEqual([
      Number.NaN,
      Number.NaN,
      Number.NaN,
    ]);
    expect(normalCdf(Number.NaN)).toBeNaN();
    expect(normalTail(Number.NaN)).toBeNaN();
    expect([normalPdf(INF), normalPdf(-INF)]).toEqual([0, 0]);
  });

  test("chi-square and t", () => {
    expect([chiSquareQuantile(0, 3), chiSquareQuantile(1, 3), chiSquareTail(0, 3)]).toEqual([0, INF, 1]);
    expect([tQuantile(0, 3), tQuantile(1, 3), tQuantile(0.5, 3), tTail(INF, 3)]).toEqual([-INF, INF, 0, 0]);
  });

  test.each([
    [Number.NaN, 3],
    [-1, 3],
    [2, 3],
    [0.3, 0],
    [0.3, -1],
    [0.3, INF],
  ])("a share of %d with %d degrees of freedom has no quantile", (share, freedom) => {
    expect(chiSquareQuantile(share, freedom)).toBeNaN();
    expect(tQuantile(share, freedom)).toBeNaN();
  });
});

describe("a quantile undoes its distribution function", () => {
  const p = fc.double({ min: 1e-9, max: 0.999, noNaN: true });
  const freedom = fc.integer({ min: 1, max: 3000 });
  test("that of the normal distribution", () => {
    fc.assert(
      fc.property(p, (share) => {
        expect(relative(normalCdf(normalQuantile(share)), share)).toBeLessThan(1e-12);
      }),
      { seed: 1 },
    );
  });
  test("that of chi-square", () => {
    fc.assert(
      fc.property(p, freedom, (share, v) => {
        expect(relative(1 - chiSquareTail(chiSquareQuantile(share, v), v), share)).toBeLessThan(1e-6);
      }),
      { seed: 2 },
    );
  });
  test("that of Student's t", () => {
    fc.assert(
      fc.property(p, freedom, (share, v) => {
        expect(relative(tTail(-tQuantile(share, v), v), share)).toBeLessThan(1e-10);
      }),
      { seed: 3 },
    );
  });
});

describe("closed forms", () => {
  test.each([0.01, 1, 5, 40, 200])("chi-square with two degrees of freedom is exponential at %d", (x) => {
    expect(relative(chiSquareTail(x, 2), Math.exp(-x / 2))).toBeLessThan(1e-13);
  });
  test.each([0.1, 1, 30])("Student's t with one degree of freedom is an arctangent at %d", (t) => {
    expect(tTail(t, 1)).toBeCloseTo(0.5 - Math.atan(t) / Math.PI, 14);
  });
  test("the gamma function of a whole number is a factorial", () => {
    let factorial = 1;
    for (let n = 1; n <= 30; n += 1) {
      expect(Math.exp(lnGamma(n)) / factorial).toBeCloseTo(1, 12);
      factorial *= n;
    }
    expect(lnGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 14);
  });
  test.each([
    [0.5, 0.2],
    [3, 9],
    [80, 70],
    [80, 95],
  ])("the two incomplete gammas of %d at %d sum to one", (a, x) => {
    const { lower, upper } = incompleteGamma(a, x);
    expect(lower + upper).toBeCloseTo(1, 14);
  });
  test("the incomplete beta mirrors", () => {
    expect(incompleteBeta(2, 3, 0.4) + incompleteBeta(3, 2, 0.6)).toBeCloseTo(1, 14);
    // I_x(1, b) is 1 - (1-x)^b.
    expect(incompleteBeta(1, 4, 0.3)).toBeCloseTo(1 - 0.7 ** 4, 14);
    expect([incompleteBeta(2, 3, 0), incompleteBeta(2, 3, 1)]).toEqual([0, 1]);
  });
});

describe("roots and integrals", () => {
  test("finds the zero, from either side and from afar", () => {
    expect(rootBetween((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 14);
    expect(rootBetween((x) => 2 - x * x, 0, 2)).toBeCloseTo(Math.SQRT2, 14);
    expect(rootNear((x) => x - 1000, 0, 0.1)).toBeCloseTo(1000, 10);
    expect(rootNear((x) => x + 1000, 0, 0.1)).toBeCloseTo(-1000, 10);
    expect(rootNear((x) => x, 0, 1)).toBe(0);
  });
  test("says NaN where there is none", () => {
    expect(rootBetween((x) => x * x + 1, -1, 1)).toBeNaN();
    expect(rootNear(() => 1, 0, 1)).toBeNaN();
    expect(rootNear(() => Number.NaN, 0, 1)).toBeNaN();
  });
  test("a polynomial of degree 31 is integrated exactly by 16 nodes", () => {
    expect(integrate((x) => 32 * x ** 31, 0, 1, 1)).toBeCloseTo(1, 13);
    expect(integrate(Math.sin, 0, Math.PI, 3)).toBeCloseTo(2, 14);
  });
});
