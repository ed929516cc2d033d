// The rank the faulty part has to have, on seeds the diagnosis was not written by. `npm run bench` prints it for all
// boards, holds what the advice on readings saves, and tries the harder bench on which shared nets hide open pins.
import { describe, expect, test } from "vitest";
import { ranking } from "./measure";

const FROM = 5001;

describe("on a simulated bench", () => {
  test("the faulty part is first on 4 boards of 5 and among the first three on 19 of 20", () => {
    const { first, topThree, missed } = ranking(FROM, 80, false);
    expect(first).toBeGreaterThanOrEqual(0.8);
    expect(topThree).toBeGreaterThanOrEqual(0.95);
    expect(missed).toBe(0);
  }, 120_000);

  test("where shared nets hide open pins, still on 3 boards of 4 and 9 of 10", () => {
    const { first, topThree } = ranking(FROM, 80, true);
    expect(first).toBeGreaterThanOrEqual(0.75);
    expect(topThree).toBeGreaterThanOrEqual(0.9);
  }, 120_000);
});
