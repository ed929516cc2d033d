import { expect, test } from "vitest";
import { esrFromLossAngle, judgeEsr, WORN_RATIO } from "../../../server/src/compute/circuit/esr";
import { close, reason, ruling } from "./support";

test("nothing known, nothing judged", () => {
  const found = ruling(judgeEsr({ reading: 4 }), "unjudged");
  expect(found.source).toBe("no reference");
  expect(found.sentence).toMatch(/cannot be judged.*Read a new part/);
});

test("a limit that somebody gives is held, with its source", () => {
  const limit = { value: 0.5, source: "maker's sheet" };
  expect(ruling(judgeEsr({ reading: 0.8, limit }), "out-of-limits").source).toBe("maker's sheet");
  expect(ruling(judgeEsr({ reading: 0.3, limit }), "within-limits").sentence).toMatch(/Not disproved/);
  ruling(judgeEsr({ reading: 0.52, uncertainty: 0.05, limit }), "suspect");
  ruling(judgeEsr({ reading: Number.POSITIVE_INFINITY, limit }), "out-of-limits");
});

test("against a new part the rule is practice, and only suspects", () => {
  const found = ruling(judgeEsr({ reading: 3.1, likeNew: 1 }), "suspect");
  expect(found.source).toBe("common practice, no source");
  expect(found.formula).toBe(`3.1 Ω > ${WORN_RATIO} × 1 Ω`);
  ruling(judgeEsr({ reading: 2.9, likeNew: 1 }), "within-limits");
  ruling(judgeEsr({ reading: 3.1, likeNew: 1, uncertainty: 0.2 }), "within-limits");
});

test("the loss angle gives a limit: 1000 µF, 0.15 at 120 Hz", () => {
  close(esrFromLossAngle({ tanDelta: 0.15, frequency: 120, capacitance: 1e-3 }), 0.198944, 1e-5);
  expect(reason(esrFromLossAngle({ tanDelta: 0, frequency: 120, capacitance: 1e-3 }))).toMatch(/loss angle/);
  expect(reason(esrFromLossAngle({ tanDelta: 0.1, frequency: 120, capacitance: 0 }))).toMatch(/capacitance/);
});

test("what cannot be a reading is refused", () => {
  expect(reason(judgeEsr({ reading: -0.1 }))).toMatch(/series resistance/);
  expect(reason(judgeEsr({ reading: 1, likeNew: 0 }))).toMatch(/new part/);
});
