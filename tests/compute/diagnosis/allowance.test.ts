// What may be stated of suspects: less than the model says of the likeliest, and in its order.
import { describe, expect, test } from "vitest";
import { stated } from "../../../server/src/compute/diagnosis/allowance";

describe("allowance for what the model does not know", () => {
  test("the likeliest is stated with less, what is behind it with more", () => {
    const [first = 0, second = 0] = stated([0.98, 0.01]);
    expect(first).toBeLessThan(0.97);
    expect(first).toBeGreaterThan(0.7);
    expect(second).toBeGreaterThan(0.025);
  });

  test("who leads still leads, and the sum stays what it was", () => {
    const before = [0.5, 0.3, 0.15, 0.05];
    const said = stated(before);
    expect([...said].sort((a, b) => b - a)).toEqual(said);
    expect(said.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  test("of hundreds each keeps its place, those far down too", () => {
    const many = Array.from({ length: 300 }, (_, i) => 1 / (i + 2) ** 2);
    const said = stated(many);
    expect(said.every((share, i) => i === 0 || share <= said[i - 1]!)).toBe(true);
    expect(stated([])).toEqual([]);
  });
});
