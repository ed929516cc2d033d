import { describe, expect, it } from "vitest";
import { baselineLimits } from "../../../server/src/judge/baseline/limits";
import type { BaselineReading } from "../../../server/src/judge/baseline/types";
import { refusalIn, valueIn } from "../../support/computed";

const readings = (values: readonly number[], resolution = 0.001, unit = "V"): BaselineReading[] =>
  values.map((value, i) => ({ uri: `mem:/${i}.md`, job: `job ${i}`, value, resolution, unit }));

/** 0.560, 0.562 ... 0.578: mean 0.569; squares of the distances add up to 330e-6, over 9 gives s = 0.006055. */
const TEN = Array.from({ length: 10 }, (_, i) => 0.56 + i * 0.002);

describe("limits from one reading a board", () => {
  it("are the mean and 3.393 standard deviations for ten boards, by hand", () => {
    const limits = valueIn(baselineLimits(readings(TEN)));
    expect(limits.n).toBe(10);
    expect(limits.centre).toBeCloseTo(0.569, 12);
    expect(limits.spread).toBeCloseTo(0.0060553, 7);
    // 3.393: Statistics for Environmental Engineers, table 21.1, the third decimal computed.
    expect(limits.factor).toBeCloseTo(3.393, 3);
    expect(limits.low).toBeCloseTo(0.54845, 5);
    expect(limits.high).toBeCloseTo(0.58955, 5);
    expect(limits.leftOut).toEqual([]);
  });

  it.each([0.9, 0, Number.POSITIVE_INFINITY])(
    "are the same with an outlier of %d among the boards, which is named",
    (odd) => {
      const limits = valueIn(baselineLimits(readings([...TEN.slice(0, 4), odd, ...TEN.slice(4)])));
      expect(limits.low).toBeCloseTo(0.54845, 5);
      expect(limits.leftOut.map(({ value }) => value)).toEqual([odd]);
      expect(limits.jobs).toHaveLength(10);
    },
  );

  it("take outliers out once, not until nothing stands out", () => {
    // 0.582 is 1.9 spreads off among all, and 4.3 once the two are gone.
    const values = [0.57, 0.571, 0.572, 0.573, 0.574, 0.582, 0.9, 0.91];
    const limits = valueIn(baselineLimits(readings(values)));
    expect(limits.leftOut.map(({ value }) => value)).toEqual([0.9, 0.91]);
    expect(valueIn(baselineLimits(limits.jobs)).leftOut.map(({ value }) => value)).toEqual([0.582]);
  });

  it("are as wide as the digits typed where all boards read alike", () => {
    const limits = valueIn(baselineLimits(readings([0.58, 0.58, 0.58, 0.58, 0.58], 0.01)));
    expect(limits.spread).toBeCloseTo(0.01 / Math.sqrt(12), 12);
    // 5.077: the exact factor for five readings, 95 % of all with 95 % confidence (computed).
    expect(limits.factor).toBeCloseTo(5.077, 3);
    expect(limits.low).toBeCloseTo(0.58 - 5.077 * 0.0028868, 5);
  });

  it("do not reach across zero where no reading did", () => {
    expect(valueIn(baselineLimits(readings([1, 2, 3, 4, 5], 1, "Ω")))).not.toHaveProperty("low");
    expect(valueIn(baselineLimits(readings([-1, -2, -3, -4, -5], 1)))).not.toHaveProperty("high");
    expect(valueIn(baselineLimits(readings([-2, -1, 0, 1, 2], 1)))).toMatchObject({
      low: expect.any(Number),
      high: expect.any(Number),
    });
  });

  it("are refused for fewer than five boards, before and after", () => {
    expect(refusalIn(baselineLimits([]))).toContain("0 boards");
    expect(refusalIn(baselineLimits(readings(TEN.slice(0, 4))))).toContain("4 boards were read");
    expect(refusalIn(baselineLimits(readings([0.57, 0.571, 0.572, 0.573, 0.9])))).toContain("4 boards agree");
    const open = Number.POSITIVE_INFINITY;
    expect(
      refusalIn(baselineLimits(readings([0.57, 0.571, 0.572, 0.573, 0.574, open, open, open, open, open]))),
    ).toContain("infinite");
    expect(baselineLimits(readings(TEN.slice(0, 5))).ok).toBe(true);
  });

  it("have the unit of those that typed one", () => {
    const [first, ...rest] = readings([0, 0.001, 0.002, 0.001, 0.001]);
    expect(valueIn(baselineLimits([{ ...first!, unit: "", resolution: 0 }, ...rest])).unit).toBe("V");
  });
});
