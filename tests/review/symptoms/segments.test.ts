import { expect, test } from "vitest";
import { darkSegment } from "../../../server/src/review/symptoms/segments";

test.each([
  ["E 3", "E 9", "f"],
  ["E b", "E 6", "a"],
  ["E 1", "E 7", "a"],
  ["E 5", "E 6", "e"],
  ["E 5", "E 9", "b"],
  ["0", "8", "g"],
])("%s is seen where %s is meant and one segment is dark", (shown, meant, segment) => {
  expect(darkSegment(shown, meant)).toBe(segment);
  // A dark segment takes light away and adds none.
  expect(darkSegment(meant, shown)).toBeUndefined();
});

test.each([
  ["E 3", "E 3"],
  ["E 1", "E 8"],
  ["E 3", "E 10"],
  ["1 flash", "2 flashes"],
  ["3 3", "9 8"],
  ["nothing", "888888"],
  ["", ""],
])("%s is not %s with one segment dark", (shown, meant) => {
  expect(darkSegment(shown, meant)).toBeUndefined();
});

test("one segment dark in several places is one fault", () => {
  expect(darkSegment("33", "99")).toBe("f");
});
