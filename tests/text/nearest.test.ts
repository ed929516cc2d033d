import { expect, test } from "vitest";
import { onlyNearest } from "../../server/src/text/nearest";

test.each([
  ["U9", ["U1", "U2"], undefined],
  ["U12", ["U1", "U2"], undefined],
  ["U12", ["U1", "U5", "R12"], undefined],
  ["U41", ["U11", "U14", "U40"], "U14"],
  ["TP11", ["TP1", "U7"], "TP1"],
  ["X", [], undefined],
])("%s among %j is %s", (typed, known, expected) => {
  expect(onlyNearest(typed, known)).toBe(expected);
});
