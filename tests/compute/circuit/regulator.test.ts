import { describe, expect, test } from "vitest";
import {
  dissipation,
  dropoutHeadroom,
  judgeDissipation,
  valley,
} from "../../../server/src/compute/circuit/regulator";
import { words } from "../../support/words";
import { close, reason, ruling } from "./support";

const FIVE = { output: 5, dropout: 2, dropoutSource: "LM7805 data sheet" };

describe("valley of the input", () => {
  test("average less half the ripple, towards zero for a negative rail too", () => {
    close(valley({ average: 9, ripple: 1.5 }), 8.25);
    close(valley({ average: -9, ripple: 1.5 }), -8.25);
  });
  test("a negative ripple is refused", () => {
    expect(reason(valley({ average: 9, ripple: -1 }))).toMatch(/ripple/);
  });
});

describe("dropout headroom", () => {
  test("an input that is further above the output than the dropout is enough", () => {
    const found = ruling(dropoutHeadroom({ ...FIVE, inputMinimum: 8.25 }), "within-limits");
    expect(found.headroom.value).toBeCloseTo(1.25, 12);
    expect(found.formula).toBe("8.25 V - 5 V - 2 V = 1.25 V");
    expect(found.source).toBe("LM7805 data sheet");
  });
  test("exactly the dropout is still enough", () => {
    ruling(dropoutHeadroom({ ...FIVE, inputMinimum: 7 }), "within-limits");
  });
  test("too little points at what feeds it, not at the regulator", () => {
    const found = ruling(dropoutHeadroom({ ...FIVE, inputMinimum: 6.2 }), "out-of-limits");
    expect(words(found)).toMatch(/1\.2 V above the output.*reservoir capacitor/);
  });
  test("inside the uncertainty either way is suspect", () => {
    ruling(dropoutHeadroom({ ...FIVE, inputMinimum: 7.05, uncertainty: 0.1 }), "suspect");
    ruling(dropoutHeadroom({ ...FIVE, inputMinimum: 6.95, uncertainty: 0.1 }), "suspect");
  });
  test("a negative regulator counts the other way", () => {
    ruling(dropoutHeadroom({ ...FIVE, inputMinimum: -6.5, output: -5 }), "out-of-limits");
    ruling(dropoutHeadroom({ ...FIVE, inputMinimum: -8, output: -5 }), "within-limits");
  });
  test("signs that do not belong together are refused", () => {
    expect(reason(dropoutHeadroom({ ...FIVE, inputMinimum: -8 }))).toMatch(/same sign/);
    expect(reason(dropoutHeadroom({ ...FIVE, inputMinimum: Number.NaN }))).toMatch(/not a number/);
  });
});

describe("dissipation", () => {
  test("is the voltage across the regulator times the current, for a negative one too", () => {
    const found = close(dissipation({ input: 9, output: 5, current: 0.8 }), 3.2);
    expect(found).toMatchObject({ unit: "W", formula: "(9 V - 5 V) × 800 mA = 3.2 W" });
    close(dissipation({ input: -12, output: -5, current: 0.1 }), 0.7);
  });
  test("against a limit with its source", () => {
    const given = { input: 12, output: 5, current: 1, limitSource: "TO-220 without heat sink, from memory" };
    expect(words(ruling(judgeDissipation({ ...given, limit: 2 }), "out-of-limits"))).toMatch(/7 W.*2 W/);
    ruling(judgeDissipation({ ...given, limit: 7 }), "within-limits");
  });
  test("an input below the output is refused", () => {
    expect(reason(dissipation({ input: 4, output: 5, current: 1 }))).toMatch(/below the output/);
    expect(reason(dissipation({ input: 8, output: 5, current: -1 }))).toMatch(/load current/);
  });
});
