import { describe, expect, test } from "vitest";
import { deviation, judgeFrequency } from "../../../server/src/compute/circuit/frequency";
import { words } from "../../support/words";
import { close, reason, ruling } from "./support";

test("deviation keeps the digits that matter", () => {
  const found = close(deviation(3_579_600, 3_579_545), 55 / 3_579_545);
  expect(found.formula).toBe("(3579600 Hz - 3579545 Hz) / 3579545 Hz = 15.37 ppm");
  close(deviation(1e6, 1e6), 0);
  expect(reason(deviation(1, 0))).toMatch(/nominal frequency must be above zero/);
  expect(reason(deviation(-1, 1))).toMatch(/measured frequency/);
});

describe("against a window", () => {
  const CLOCK = { nominal: 3_579_545, limit: 100e-6, limitSource: "crystal data sheet, from memory" };
  test("inside, outside on either side, at the edge", () => {
    ruling(judgeFrequency({ ...CLOCK, measured: 3_579_600 }), "within-limits");
    expect(words(ruling(judgeFrequency({ ...CLOCK, measured: 3_580_000 }), "out-of-limits"))).toMatch(
      /127\.1 ppm fast; 100 ppm either way/,
    );
    expect(words(ruling(judgeFrequency({ ...CLOCK, measured: 3_579_000 }), "out-of-limits"))).toMatch(/slow/);
    ruling(judgeFrequency({ ...CLOCK, measured: 3_579_900, uncertainty: 2 }), "within-limits");
    ruling(judgeFrequency({ ...CLOCK, measured: 3_579_900, uncertainty: 5 }), "suspect");
  });
  test("at nominal it is neither fast nor slow", () => {
    expect(words(ruling(judgeFrequency({ ...CLOCK, measured: CLOCK.nominal }), "within-limits"))).not.toMatch(
      /fast|slow/,
    );
  });
  test("a stopped clock is said to be one", () => {
    expect(words(ruling(judgeFrequency({ ...CLOCK, measured: 0 }), "out-of-limits"))).toMatch(/does not run/);
  });
  test("a window of nothing is refused", () => {
    expect(reason(judgeFrequency({ ...CLOCK, measured: 1, limit: 0 }))).toMatch(/limit/);
    expect(reason(judgeFrequency({ ...CLOCK, measured: Number.POSITIVE_INFINITY }))).toMatch(/measured/);
  });
});
