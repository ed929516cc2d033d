// The figures the diagnosis has to keep, on seeds it was not written by. `node tests/bench/diagnosis.js` prints them
// for more boards, and for the harder bench on which shared nets hide open pins.
import { describe, expect, test } from "vitest";
import { ranking } from "./measure";
import { comparison } from "./measure-search";

const FROM = 5001;

describe("on a simulated bench", () => {
  test("the faulty part is first on 4 boards of 5 and among the first three on 19 of 20", () => {
    const { first, topThree, missed } = ranking(FROM, 240, false);
    expect(first).toBeGreaterThanOrEqual(0.8);
    expect(topThree).toBeGreaterThanOrEqual(0.95);
    expect(missed).toBe(0);
  }, 120_000);

  test("where shared nets hide open pins, still on 3 boards of 4 and 9 of 10", () => {
    const { first, topThree } = ranking(FROM, 240, true);
    expect(first).toBeGreaterThanOrEqual(0.75);
    expect(topThree).toBeGreaterThanOrEqual(0.9);
  }, 120_000);

  test("the advice takes at most 60 % of the readings that going pin by pin takes", () => {
    const { ratio, givenUp, needless } = comparison(FROM, 240, false, "readings");
    expect(ratio).toBeLessThanOrEqual(0.6);
    expect(givenUp).toBe(0);
    expect(needless).toBeLessThan(0.1);
  }, 240_000);
});
