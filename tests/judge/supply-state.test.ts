// What a logic probe shows at supply and ground pins, by the supply they are made for.
import { describe, expect, it } from "vitest";
import { judgeTable } from "../support/judged";

async function state(number: string, pin: string, typed: string) {
  const [found] = await judgeTable(
    `| Ref | Pin | State |\n|-|-|-|\n| U70 (${number}) | ${pin} | ${typed} |\n`,
    {
      heading: "Logic states",
      front: "received: 2026-03-02",
    },
  );
  return found?.verdict;
}

describe("a supply pin's state", () => {
  it.each([
    ["7404", "14", "L", "out-of-limits"],
    ["7404", "14", "floating", "out-of-limits"],
    ["7404", "7", "H", "out-of-limits"],
    ["7404", "7", "pulsing", "out-of-limits"],
    ["7490", "5", "L", "out-of-limits"],
    ["7490", "10", "H", "out-of-limits"],
    // Near misses: in order, and by other corners.
    ["7404", "14", "H", "within-limits"],
    ["7404", "7", "L", "within-limits"],
    ["7490", "5", "H", "within-limits"],
    ["7490", "10", "L", "within-limits"],
    ["4049", "1", "H", "within-limits"],
    // -5 V is low to a probe, and high would be wrong; +12 V is high.
    ["4116", "1", "L", "within-limits"],
    ["4116", "1", "H", "out-of-limits"],
    ["4116", "8", "H", "within-limits"],
  ])("%s pin %s at %s is %s", async (number, pin, typed, verdict) => {
    expect(await state(number, pin, typed)).toBe(verdict);
  });

  it.each(["L", "H"])("is not judged at %s where the pin may be ground or negative", async (typed) => {
    expect(await state("4051", "7", typed)).toBe("unjudged");
  });
});
