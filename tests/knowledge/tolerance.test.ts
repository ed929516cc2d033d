import { expect, test } from "vitest";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { bothWays, railText, windowAround } from "../../server/src/knowledge/tolerance";

const RELATIVE = { low: -0.3, high: 0.5, relative: true };

test.each([
  ["-30 % to +50 %", RELATIVE],
  ["-30 % +50 %", RELATIVE],
  ["+50/-30 %", RELATIVE],
  ["\u221230 % \u2026 +50 %", RELATIVE],
  ["-1 V, +2 V", { low: -1, high: 2, relative: false }],
  ["+40 % to +200 %", { low: 0.4, high: 2, relative: true }],
  ["5 %", undefined],
  ["-5 %", undefined],
  ["0.25 V", undefined],
  ["1 V to 2 V", undefined],
  ["-30 % to +1 V", undefined],
  ["-5 % to -5 %", undefined],
  ["-5 A to +5 A", undefined],
  ["lots", undefined],
])("%s", (text, wanted) => {
  expect(bothWays(text)).toEqual(wanted);
});

test("of a negative rail more is further from zero", () => {
  expect(windowAround(12, RELATIVE)).toEqual([8.4, 18]);
  expect(windowAround(-12, RELATIVE)).toEqual([-18, -8.4]);
});

test("a rail is told with both figures and without a sign that would be wrong", () => {
  expect(railText({ nominal: "5 V", tolerance: "5 %" })).toBe("5 V \u00b1 5 %");
  expect(railText({ nominal: "12 V", tolerance: "-30 % to +50 %" })).toBe("12 V, -30 % to +50 %");
});

const rail = (tolerance: string) =>
  loadBoard(
    `mendlog-board: 1\nid: a\ntitle: A\nrails:\n  "+12V raw": { nominal: 12 V, tolerance: "${tolerance}" }\n`,
  );

test("a board file may give both", () => {
  const { value, problems } = rail("-30 % to +50 %");
  expect(problems).toEqual([]);
  expect(value?.rails.get("+12V raw")?.window).toEqual([8.4, 18]);
  expect(rail("5 %").value?.rails.get("+12V raw")).not.toHaveProperty("window");
});

test.each([
  ["-120 % to +50 %", "tolerance-too-wide"],
  ["-30 A to +50 A", "bad-quantity"],
  ["-30 % to", "bad-quantity"],
])("%s is no tolerance", (text, code) => {
  expect(rail(text).problems.map((problem) => problem.code)).toEqual([code]);
});
