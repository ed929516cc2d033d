// 7404: 1A 1, 1Y 2, 2A 3, 2Y 4, 3A 5, 3Y 6, GND 7, 4Y 8, 4A 9, 5Y 10, 5A 11, 6Y 12, 6A 13, VCC 14. The trial
// board ties pin 13 to ground and pin 9 to +5V. LS usual windows: signal 0.4 V to 0.7 V, supply 0.15 V to 0.5 V.

import { describe, expect, it } from "vitest";
import { inWords } from "../../server/src/text/saying";
import { judgePin } from "../support/judged";
import { everything } from "../support/words";

type Case = [place: string, typed: string, verdict: string, says: string];

const table = (cases: readonly Case[], front = "board: trial") =>
  it.each(cases)("%s at %s is %s: %s", async (place, typed, verdict, says) => {
    const judgement = await judgePin(place, typed, { front });
    expect({ verdict: judgement.verdict, sentence: everything(judgement) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
    const reported = verdict === "out-of-limits" || verdict === "suspect";
    if (verdict !== "impossible") expect(judgement.code).toBe(reported ? "diode-out-of-window" : undefined);
  });

describe("a signal pin", () => {
  table([
    ["U1.1", "0.58", "within-limits", "Not disproved"],
    ["U1.1", "0.4", "within-limits", "0.4 V to 0.7 V"],
    ["U1.1", "0.700", "within-limits", "U1 pin 1 (1A) reads 0.7 V"],
    ["U1.1", "580 mV", "within-limits", "reads 0.58 V"],
    ["U1.1", "0.75", "suspect", "Just outside:"],
    ["U1.1", "0.35", "suspect", "Just outside:"],
    ["U1.1", "1.42", "out-of-limits", "clamp is likely open"],
    ["U1.1", "0.2", "out-of-limits", "Leaking to ground"],
    ["U1.1", "0.002", "out-of-limits", "Shorted to ground"],
    ["U1.1", "0", "out-of-limits", "Shorted to ground"],
    ["U1.1", "short", "out-of-limits", "reads a short"],
    ["U1.1", "OL", "out-of-limits", "joint is open"],
    ["U1.1", "> 2", "out-of-limits", "reads > 2"],
    ["U1.1", "<0.1", "out-of-limits", "Leaking to ground"],
    ["U1.1", "0.5-0.6", "within-limits", "reads 0.5-0.6"],
    ["U1.1", "0.3-0.6", "suspect", "The range typed crosses the limit"],
    ["U1.1", ">0.5", "suspect", "either side of the limit"],
    ["U1.1", "~0.6", "within-limits", "Not disproved"],
    ["U1.1", "1", "suspect", "as a lone 1"],
    ["U1.1", "H", "unjudged", "Not a drop in volts"],
    ["U1.1", "-", "not-measured", "Not measured"],
    ["U1.5", "0.58", "within-limits", "U1 pin 5 (3A)"],
  ]);
});

describe("a pin with a resistor on its net", () => {
  table([
    ["U1.3", "0.2", "out-of-limits", "R1 (9 k\u03a9) on PULLED carries too little of the meter's 1 mA"],
    ["U1.3", "0.55", "within-limits", "Not disproved"],
    ["U1.3", "0.002", "out-of-limits", "Shorted to ground"],
    ["U1.3", "1.4", "out-of-limits", "clamp is likely open"],
  ]);
});

describe("ground and supply", () => {
  table([
    ["U1.7", "0.001", "within-limits", "a ground pin"],
    ["U1.7", "0.05", "within-limits", "at most 50 mV"],
    ["U1.7", "0.4", "out-of-limits", "path to ground is open or resistive"],
    ["U1.7", "OL", "out-of-limits", "path to ground is open or resistive"],
    ["U1.gnd", "0.001", "within-limits", "U1 pin 7 (GND)"],
    ["U1.13", "0.002", "within-limits", "a pin tied to ground"],
    ["U1.13", "0.58", "out-of-limits", "path to ground is open or resistive"],
    ["U2.16", "0.3", "within-limits", "supply pin's drop"],
    ["U2.16", "0.01", "out-of-limits", "rail's resistance to ground"],
    ["U2.16", "OL", "out-of-limits", "joint and the track to the supply"],
    ["U1.9", "0.31", "within-limits", "tied to the +5V rail"],
    ["U1.9", "0.9", "out-of-limits", "may not reach its rail"],
    ["U2.12", "0.3", "within-limits", "a pin on the -12V rail that is not shorted"],
    ["U2.12", "OL", "within-limits", "a pin on the -12V rail that is not shorted"],
    ["U2.12", "0.01", "out-of-limits", "a pin on the -12V rail that is not shorted"],
    // Ground in the middle of the row, supply at pin 5: the device says so, not the corner.
    ["U5.12", "0.001", "within-limits", "U5 pin 12 (GND)"],
    ["U5.5", "0.3", "within-limits", "supply pin's drop"],
    ["U5.8", "0.55", "within-limits", "Not disproved"],
  ]);
});

describe("what has no window", () => {
  table([
    ["U7.9", "OL", "unjudged", "not connected inside the chip"],
    ["U7.9", "0.002", "unjudged", "not connected inside the chip"],
    ["Q1.2", "0.65", "unjudged", "no usual window for this pin of a 2N3904"],
    ["R1.2", "0.5", "unjudged", "names no device at R1"],
    ["U4.1", "0.5", "unjudged", "names no device at U4"],
    ["U3.2", "0.5", "unjudged", "does not know no-such-chip"],
    ["U99.1", "0.5", "unjudged", "does not list U99"],
    // Where it is tied to says enough, whatever the part is.
    ["C1.2", "0.001", "within-limits", "a pin tied to ground"],
    ["U3.1", "0.4", "out-of-limits", "path to ground"],
    ["J1.A3", "0.5", "unjudged", "names no device at J1"],
  ]);
  table([["U1.1", "1.42", "unjudged", "Nothing says what U1 is"]], "job: 1");
  table([["U1.1", "1.42", "unjudged", "Nothing says what U1 is"]], "board: nowhere");
});

describe("the board file's expectation", () => {
  table([
    [
      "U2.3",
      "0.53",
      "within-limits",
      "Not disproved. the board file's expected reading at U2 pin 3 three boards",
    ],
    // Inside the family's window, outside the board's: the board's counts.
    ["U2.3", "0.60", "out-of-limits", "0.5 V to 0.56 V"],
    ["U2.3", "0.45", "out-of-limits", "Leaking to ground"],
    ["U1.14", "0.30", "out-of-limits", "the board file's expected reading at U1 pin 14"],
    ["U2.D1", "0.53", "within-limits", "three boards"],
  ]);

  it("is held against with the meter's uncertainty", async () => {
    const front = "board: trial\nmeter: bench";
    // a = 1 % of 0.563 V and 2 counts of 1 mV = 7.63 mV; U = 1.1547 a.
    const above = await judgePin("U2.3", "0.563", { front });
    expect(above.verdict).toBe("suspect");
    expect(above.uncertainty).toBeCloseTo(0.00881, 5);
    expect(everything(above)).toContain("Too close to the limit for this meter");
    expect(everything(above)).not.toContain("replace");
    expect(above.formula).toBe("0.563 V ± 8.8 mV straddles 0.56 V");
    const inside = await judgePin("U2.3", "0.555", { front });
    expect(inside.verdict).toBe("suspect");
    expect((await judgePin("U2.3", "0.550", { front })).verdict).toBe("within-limits");
    expect((await judgePin("U2.3", "0.570", { front })).verdict).toBe("out-of-limits");
  });

  it("asks for the digits where too few were typed", async () => {
    const rough = await judgePin("U2.3", "0.6", { front: "board: trial\nmeter: bench" });
    // a = 8 mV and h = 50 mV, half of the 0.1 V typed: U = 1.1547 * 50.64 mV.
    expect(rough.uncertainty).toBeCloseTo(0.05847, 5);
    expect(rough.verdict).toBe("suspect");
    expect(everything(rough)).toContain("every digit the meter shows");
  });

  it("takes about for about", async () => {
    expect((await judgePin("U2.3", "0.57")).verdict).toBe("out-of-limits");
    expect((await judgePin("U2.3", "~0.57")).verdict).toBe("suspect");
  });

  it("links to where it is written", async () => {
    const { reference } = await judgePin("U2.3", "0.53");
    expect(reference).toMatchObject({ kind: "board", low: 0.5, high: 0.56, unit: "V" });
    expect(reference?.link?.uri).toBe("mem:/ws/trial.board.yaml");
  });
});

describe("what cannot be", () => {
  table(
    [
      ["U1.15", "0.5", "impossible", "has no pin 15"],
      ["U1.0", "0.5", "impossible", "has no pin 0"],
      ["U1.1", "-0.58", "impossible", "cannot be below 0"],
      ["U1.1", "58 ohm", "impossible", "is a resistance"],
      ["U1.1", "3.1", "impossible", "above the meter's 2.8 V diode-test voltage"],
      ["U1.1", "2.9-3.1", "impossible", "diode-test voltage"],
      ["U1.1", ">3", "out-of-limits", "clamp"],
      ["U1.1", "2.7", "out-of-limits", "clamp"],
    ],
    "board: trial\nmeter: bench",
  );

  it("without a meter leaves a high drop out of limits, up to what no meter shows", async () => {
    expect((await judgePin("U1.1", "3.1")).verdict).toBe("out-of-limits");
    expect(await judgePin("U1.1", "58.1")).toMatchObject({ verdict: "impossible", code: "impossible-value" });
  });

  it.each([
    ["without a meter", "board: trial"],
    ["with one", "board: trial\nmeter: bench"],
  ])(
    "asks for the point where digits were copied from the display, %s, and judges nothing until it is there",
    async (_which, front) => {
      const { verdict, code, says } = await judgePin("U1.1", "580", { front });
      const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
      expect({ verdict, code }).toEqual({ verdict: "unjudged", code: "point-missing" });
      expect(sentence).toContain("reads 580 without its point: 0.580 V?");
    },
  );

  it("asks after the point of 58.1, and takes 58 V for what no meter shows", async () => {
    expect(everything(await judgePin("U1.1", "58.1"))).toContain("decimal point");
    expect((await judgePin("U1.1", "58 V")).code).toBe("impossible-value");
  });

  it("says of each reading that digits may be how it would be judged, the likelier first", async () => {
    const { says, mayBe } = await judgePin("U1.1", "58");
    const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
    expect(mayBe).toEqual([
      { text: "0.58 V", verdict: "within-limits" },
      { text: "0.058 V", verdict: "out-of-limits" },
    ]);
    expect(sentence).toContain("0.58 V (within limits) or 0.058 V (out of limits)?");
    expect((await judgePin("U1.7", "0.05")).mayBe).toBeUndefined();
  });
});

it("says what cannot be read, with the likely text", async () => {
  const judgement = await judgePin("U1.1", "O.58");
  expect(judgement).toMatchObject({ verdict: "unjudged", code: "unreadable-value" });
  expect(everything(judgement)).toContain("Did you mean 0.58?");
});
