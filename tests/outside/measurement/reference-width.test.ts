// The width of a reference job's reading worked out again with other people's median, spread and Student's t:
// simple-statistics for the median absolute deviation, @stdlib for the quantile.
import tQuantile from "@stdlib/stats-base-dists-t-quantile";
import fc from "fast-check";
import { medianAbsoluteDeviation } from "simple-statistics";
import { expect, test } from "vitest";
import { likePins, windowWidth } from "../../../server/src/judge/reference-job/width";

/** 1 over the normal quantile of 3/4 (e-Handbook 1.3.5.17, from memory: 0.6745). */
const TO_SIGMA = 1.4826022185;

test("is the larger of 50 mV and t times the root of twice the squared spread and the squared uncertainty", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 300, max: 900 }), { minLength: 5, maxLength: 40 }),
      fc.integer({ min: 0, max: 20 }),
      (millivolts, u) => {
        const volts = millivolts.map((value) => value / 1000);
        const mad = medianAbsoluteDeviation(volts);
        // Half of the pins alike is another rule: their mean distance.
        fc.pre(mad > 0.001);
        const like = likePins(
          volts,
          volts.map(() => 0.001),
        );
        const own =
          tQuantile(0.975, volts.length - 1) * Math.sqrt(2 * (TO_SIGMA * mad) ** 2 + (u / 1000) ** 2);
        const { half, spread } = windowWidth({ half: 0.05 }, like, u / 1000);
        expect(half).toBeCloseTo(Math.max(0.05, own), 7);
        expect(spread !== undefined).toBe(own > 0.05);
      },
    ),
  );
});
