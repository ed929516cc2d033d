import { describe, expect, test } from "vitest";
import { actionOf } from "../../../server/src/log/timeline/actions";
import { latestOf } from "../../../server/src/log/timeline/latest";
import { isPlanned, namesReplacing, saysPutBack } from "../../../server/src/log/timeline/words";
import { designators } from "../../../server/src/log/timeline/work";

test.each([
  "to replace",
  "to be replaced",
  "To do: reflow",
  "plan: fit modification",
  "planned",
  "will replace",
  "proposed: socket",
  "needs replacing",
  "need to reflow",
  "should be replaced",
  "must be reflowed",
  "has to be swapped",
])("%s is planned", (action) => {
  expect(isPlanned(action)).toBe(true);
});

test.each([
  "replace",
  "replaced",
  "removed to test it",
  "touched up",
  "top cleaned",
  "planed flat",
  "needed new pads, fitted",
  "",
])("%s is done", (action) => {
  expect(isPlanned(action)).toBe(false);
});

test("words that leave another part in the place", () => {
  expect(
    ["replaced", "swapped", "fitted new", "renewed", "to be replaced"].filter(namesReplacing),
  ).toHaveLength(5);
  expect(["cleaned", "removed", "socketed", "fitted"].filter(namesReplacing)).toEqual([]);
});

describe("a part is put back", () => {
  test.each([
    "put back",
    "swapped for a known-good one, put back",
    "no change, original put back",
    "the same. Put the old one back",
    "put it back in its socket",
    "tried U3's, then put U14 back",
    "swapped back",
    "changed it back",
    "no better, old one refitted",
    "original chip reinstalled",
    "old one back in",
  ])("%s", (words) => {
    expect(saysPutBack(words)).toBe(true);
  });

  test.each([
    "replaced",
    "replaced, heat sink put back",
    "replaced, put back the cover",
    "replaced, board put back",
    "put back in the machine, works",
    "replaced, not put back yet",
    "to be put back",
    "removed until it is put back",
    "old one back in its bag",
    "refitted",
    "back plane cleaned",
    "",
  ])("is not said by %s", (words) => {
    expect(saysPutBack(words)).toBe(false);
  });
});

test("designators with ranges written out", () => {
  expect(designators("U14 (74LS04)")).toEqual(["U14"]);
  expect(designators("u3, U4")).toEqual(["U3", "U4"]);
  expect(designators("Q1 to Q4")).toEqual(["Q1", "Q2", "Q3", "Q4"]);
});

test("the kind of work out of its words", () => {
  expect(actionOf("swapped in known-good")).toBe("replace");
  expect(actionOf("pulled")).toBe("remove");
  expect(actionOf("put back")).toBeUndefined();
});

test("of each place what was taken after the most repairs counts, and all of one time", () => {
  const all = ["a0", "a1", "b0", "a1 too", "b0 too"];
  expect(
    latestOf(
      all,
      (one) => one[0],
      (one) => Number(one[1]),
    ),
  ).toEqual(["a1", "b0", "a1 too", "b0 too"]);
});
