// The width that one board stands for, against sums worked by hand and a table of Student's t.
import { describe, expect, it } from "vitest";
import { windowFrom } from "../../../server/src/judge/reference-job/limits";
import type { ReferenceReading } from "../../../server/src/judge/reference-job/types";
import { LEAST_DROP, leastWidth, likePins, windowWidth } from "../../../server/src/judge/reference-job/width";
import { referenceSource } from "../../../server/src/judge/reference-job/words";

const DROP = { half: LEAST_DROP };
/** Every reading typed to the same digit. */
const all = (digit: number): number[] => [digit, digit, digit, digit, digit];

describe("the least width", () => {
  it("is 50 mV for a drop and a share of the reading for all else", () => {
    expect(leastWidth(0.58, "voltage", true)).toEqual({ half: 0.05 });
    expect(leastWidth(0, "voltage", true)).toEqual({ half: 0.05 });
    expect(leastWidth(12, "voltage", false)?.half).toBeCloseTo(0.6, 12);
    expect(leastWidth(-12, "voltage", false)?.half).toBeCloseTo(0.6, 12);
    expect(leastWidth(200, "resistance", false)?.half).toBeCloseTo(40, 12);
    expect(leastWidth(1e6, "frequency", false)?.half).toBeCloseTo(1e5, 6);
    expect(leastWidth(0, "resistance", false)).toBeUndefined();
  });
});

describe("the spread of like pins", () => {
  it("is 1.4826 times the median distance from the median, whatever one odd pin reads", () => {
    const like = likePins([0.55, 0.56, 0.57, 0.58, 0.59, 0.9], all(0.01));
    // The median is 0.575: distances 0.025, 0.015, 0.005, 0.005, 0.015, 0.325, whose median is 0.015.
    expect(like?.sigma).toBeCloseTo(1.482602 * 0.015, 7);
    expect(like?.pins).toBe(6);
  });

  it("is no less than what the digits leave open, and none for four pins", () => {
    expect(likePins([0.58, 0.58, 0.58, 0.58, 0.58], all(0.01))?.sigma).toBeCloseTo(0.01 / Math.sqrt(12), 12);
    // One of five typed to a tenth only: the mean of the squares is (4 * 0.01^2 + 0.1^2) / 5 = 0.00208.
    expect(likePins([0.58, 0.58, 0.58, 0.58, 0.6], [0.01, 0.01, 0.01, 0.01, 0.1])?.sigma).toBeCloseTo(
      Math.sqrt(0.00208 / 12),
      9,
    );
    expect(likePins([0.55, 0.56, 0.57, 0.58], all(0.01))).toBeUndefined();
    expect(likePins([0.55, 0.56, 0.57, 0.58, Number.POSITIVE_INFINITY], all(0.01))).toBeUndefined();
  });
});

describe("the width of one board's reading", () => {
  it("is the least where the like pins lie closer, or where there are none", () => {
    expect(windowWidth(DROP, undefined, 0.01)).toEqual({ half: 0.05, least: 0.05 });
    expect(windowWidth(DROP, { pins: 20, sigma: 0.005 }, 0.002)).toEqual({ half: 0.05, least: 0.05 });
  });

  it("is by hand: t times the root of twice the spread squared and the meter's own", () => {
    // Ten pins, 9 degrees of freedom: t = 2.262 for 95 % on both sides (e-Handbook 1.3.6.7.2, from memory).
    // 2 * 0.03^2 + 0.005^2 = 0.001825, its root 0.042720; times 2.262 gives 0.09663.
    const width = windowWidth(DROP, { pins: 10, sigma: 0.03 }, 0.005);
    expect(width.half).toBeCloseTo(0.09664, 4);
    expect(width.spread).toEqual({ pins: 10, sigma: 0.03 });
    // Five pins: t = 2.776; with no meter 2.776 * 0.03 * 1.41421 = 0.11778.
    expect(windowWidth(DROP, { pins: 5, sigma: 0.03 }, 0).half).toBeCloseTo(0.11778, 4);
  });

  it("holds what it says: of like pins drawn at random, 95 % differ by less", () => {
    // Both boards' pins and the meter normal; the spread itself is taken from ten of the first board's like pins.
    let seed = 12345;
    const uniform = () => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return (seed + 0.5) / 2 ** 32;
    };
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    let inside = 0;
    const rounds = 4000;
    for (let i = 0; i < rounds; i++) {
      const drawn = Array.from({ length: 30 }, () => 0.58 + 0.06 * normal());
      const like = likePins(drawn, [0.001]);
      const { half } = windowWidth(DROP, like, 0.002);
      if (Math.abs(0.06 * normal() - 0.06 * normal() + 0.002 * normal()) <= half) inside += 1;
    }
    // The median's spread of 30 pins is itself uncertain by about 15 %, which costs a few in a hundred.
    expect(inside / rounds).toBeGreaterThan(0.9);
    expect(inside / rounds).toBeLessThan(0.98);
  });
});

const reading = (value: number, half = 0.05, least = 0.05, rest: Partial<ReferenceReading> = {}) => ({
  uri: "mem:/good.md",
  job: "2026-003",
  value,
  resolution: 0.01,
  unit: "V",
  half,
  least,
  ...rest,
});
const TTL = { low: 0.4, high: 0.7 };

describe("the window", () => {
  it("is the reading and its width on both sides, and twice that to be far", () => {
    const window = windowFrom([reading(0.58)], TTL, false);
    expect(window.low).toBeCloseTo(0.53, 12);
    expect(window.high).toBeCloseTo(0.63, 12);
    expect(window.beyond.low).toBeCloseTo(0.48, 12);
    expect(window.beyond.high).toBeCloseTo(0.68, 12);
  });

  it("does not reach past the family's for the spread of like pins alone", () => {
    const window = windowFrom([reading(0.58, 0.2)], TTL, false);
    expect(window).toEqual({ low: 0.4, high: 0.7, beyond: { low: 0.4, high: 0.7 } });
    expect(windowFrom([reading(0.58, 0.2)], undefined, false).high).toBeCloseTo(0.78, 12);
  });

  it("holds the least width where the reading lies at the family's end or outside", () => {
    const edge = windowFrom([reading(0.69, 0.2)], TTL, false);
    expect(edge.high).toBeCloseTo(0.74, 12);
    expect(edge.beyond.high).toBeCloseTo(0.79, 12);
    const outside = windowFrom([reading(0.3)], TTL, false);
    expect(outside.low).toBeCloseTo(0.25, 12);
    expect(outside.high).toBeCloseTo(0.35, 12);
  });

  it("never leaves a reference's own reading out, however many there are", () => {
    const all = [0.41, 0.58, 0.66].map((value) => reading(value));
    const { low, high } = windowFrom(all, TTL, false);
    expect(low).toBeCloseTo(0.36, 12);
    expect(high).toBeCloseTo(0.71, 12);
  });

  it("has no end on the other side of zero, and no low one where less is no fault", () => {
    expect(windowFrom([reading(0.01)], undefined, false)).not.toHaveProperty("low");
    expect(windowFrom([reading(-0.01)], undefined, false)).not.toHaveProperty("high");
    expect(windowFrom([reading(0.03, 0.006, 0.006)], undefined, true)).toMatchObject({
      high: expect.closeTo(0.036, 12),
    });
    expect(windowFrom([reading(0.03, 0.006, 0.006)], undefined, true)).not.toHaveProperty("low");
  });
});

describe("the words", () => {
  it("say that it is one board, how wide and by whose word", () => {
    expect(referenceSource([reading(0.58)], "V", undefined)).toBe(
      "the reference job 2026-003 read 0.58 V there; one board, at least ±50 mV by common practice, no source",
    );
    expect(referenceSource([reading(200, 40, 40, { share: 0.2 })], "Ω", undefined)).toBe(
      "the reference job 2026-003 read 200 Ω there; one board, at least ±20 % by common practice, no source",
    );
    expect(
      referenceSource([reading(0.58, 0.0966, 0.05, { spread: { pins: 10, sigma: 0.03 } })], "V", undefined),
    ).toBe(
      "the reference job 2026-003 read 0.58 V there; one board, ±97 mV: its 10 like pins spread by 30 mV, with the meter's uncertainty (95 %)",
    );
  });

  it("name four jobs and count the rest, and say another revision", () => {
    const all = ["1", "2", "3", "4", "5"].map((job) => reading(0.58, 0.05, 0.05, { job }));
    expect(referenceSource(all, "V", undefined)).toContain("jobs 1, 2, 3 and 4 and 1 more read");
    expect(referenceSource([reading(0.58, 0.05, 0.05, { revision: "A" })], "V", "B")).toContain(
      "2026-003 (revision A)",
    );
    expect(referenceSource([reading(0.58, 0.05, 0.05, { revision: "A" })], "V", "A")).not.toContain(
      "revision",
    );
  });
});
