import { describe, expect, it } from "vitest";
import { judgeRailAs, judgeTable } from "../support/judged";
import { everything } from "../support/words";

describe("a rail's voltage", () => {
  it.each([
    ["+5V", "5.02", "within-limits", "4.75 V to 5.25 V"],
    ["+5V", "4.75", "suspect", "every digit the meter shows"],
    ["+5V", "4.31", "out-of-limits", "Something loads it"],
    ["+5V", "5.60 V", "out-of-limits", "before the logic is harmed"],
    ["+5V", "5", "suspect", "every digit the meter shows"],
    ["+5V", "4.9-5.1", "within-limits", "reads 4.9-5.1"],
    ["+5V", "4.5-5.1", "suspect", "crosses the limit"],
    ["+5V", "<1", "out-of-limits", "Something loads it"],
    ["+5V", "0", "out-of-limits", "Something loads it"],
    ["-12V", "-12.1", "within-limits", "-13.2 V to -10.8 V"],
    ["-12V", "\u221212.1", "within-limits", "-13.2 V to -10.8 V"],
    ["-12V", "12.1", "out-of-limits", "fits with the other sign"],
    ["-12V", "-9.8", "out-of-limits", "Switch off"],
    ["-12V", "-14.5", "out-of-limits", "Switch off"],
    ["-5V", "-5.1", "within-limits", "-5.25 V to -4.75 V"],
    ["+12V", "12.2", "within-limits", "the board file's expected reading at +12V"],
    // Within the rail's tolerance, outside what the board file expects: the expectation is the closer word.
    ["+12V", "12.8", "out-of-limits", "11.5 V to 12.5 V"],
    ["VAUX", "9.0", "unjudged", "no rail called VAUX. It has +5V, -12V, -5V, +12V."],
    ["+9V", "9.0", "within-limits", "the +9V rail (9 V ± 5 %)"],
    ["", "5.0", "unjudged", "does not say which rail"],
    ["+5V", "H", "unjudged", "Not a voltage"],
  ])("%s at %s is %s: %s", async (rail, typed, verdict, says) => {
    const judgement = await judgeRailAs(rail, typed);
    expect({ verdict: judgement.verdict, sentence: everything(judgement) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
  });

  it("of a negative rail is too much where it is the lower", async () => {
    // -9.8 V is nearer to zero than -10.8 V: too little, not too much.
    expect(everything(await judgeRailAs("-12V", "-9.8"))).toContain("Something loads it");
    expect(everything(await judgeRailAs("-12V", "-14.5"))).toContain("before the logic is harmed");
  });

  it.each([
    "+5V",
    "+5",
    "5V",
    "5 v",
    "+ 5 V",
    "5 volts",
    "+5VDC",
    "VCC",
    "vcc",
    "TP1",
    "+5V (TP1)",
    "+5V [at U1]",
    "+5V at U1 pin 14",
    "5V, far end",
  ])("is found by %s", async (typed) => {
    expect(everything(await judgeRailAs(typed, "5.02"))).toContain("the +5V rail");
  });

  it.each(["-12", "-12V", "\u221212 V", "VEE"])("is found by %s", async (typed) => {
    expect((await judgeRailAs(typed, "-12.0")).verdict).toBe("within-limits");
  });

  it("is not taken for another by a sign left out", async () => {
    expect(everything(await judgeRailAs("12", "12.0"))).toContain("+12V");
    expect(everything(await judgeRailAs("5V", "-5.0"))).toContain("the +5V rail");
  });

  it("says under which load it was read", async () => {
    expect(everything(await judgeRailAs("+5V", "4.3", "DC", { heading: "Supply rails, loaded" }))).toContain(
      "+5V reads 4.3 loaded",
    );
  });

  it("is held against with the meter, each range with its own accuracy", async () => {
    const front = "board: trial\nmeter: bench";
    // a = 0.5 % of 5.19 V and 2 counts of 10 mV = 45.95 mV; U = 1.1547 a.
    const near = await judgeRailAs("+5V", "5.19", "DC", { front });
    expect(near.uncertainty).toBeCloseTo(0.05306, 5);
    expect(near.verdict).toBe("within-limits");
    expect((await judgeRailAs("+5V", "5.21", "DC", { front })).verdict).toBe("suspect");
    expect((await judgeRailAs("+5V", "5.29", "DC", { front })).verdict).toBe("suspect");
    expect((await judgeRailAs("+5V", "5.31", "DC", { front })).verdict).toBe("out-of-limits");
  });
});

describe("a rail that is not named", () => {
  it("is the one whose test point or pin the row names", async () => {
    const judged = await judgeTable(
      "| Test point | Pin | Volts |\n|-|-|-|\n| TP1 | | 4.31 |\n| U1 | 14 | 4.32 |\n| U1 | 2 | 4.33 |\n",
      { heading: "Supply rails" },
    );
    expect(judged.map((j) => j.verdict)).toEqual(["out-of-limits", "out-of-limits", "unjudged"]);
    expect(everything(judged[0])).toContain("the +5V rail");
  });
});

describe("ripple and current", () => {
  it.each([
    ["+5V", "12 mV", "within-limits", "the limit is 50 mV"],
    ["+5V", "120 mV", "out-of-limits", "The reservoir capacitor is low"],
    ["+5V", "50 mV", "suspect", "Write down every digit"],
    // The file gives no limit for this one: what is usual for a rail of its name.
    ["-12V", "12 mV", "within-limits", "the limit is 50 mV"],
    ["-12V", "80 mV", "suspect", "from what is usual, but not by much"],
    ["-12V", "80 mV", "suspect", "the -12V rail's ripple limit common practice, no source"],
    ["-12V", "120 mV", "out-of-limits", "the -12V rail's ripple limit common practice, no source"],
  ])("%s with a ripple of %s is %s: %s", async (rail, typed, verdict, says) => {
    const [, ripple] = await judgeTable(`| Rail | DC | Ripple |\n|-|-|-|\n| ${rail} | | ${typed} |\n`, {
      heading: "Supply rails",
    });
    expect(ripple?.verdict).toBe(verdict);
    expect(ripple?.says.fact).toContain(`${rail} ripple reads ${typed}; the limit is 50 mV.`);
    expect(everything(ripple)).toContain(says);
  });

  it("does not hold a current against the rail's voltage", async () => {
    const [dc, load] = await judgeTable("| Rail | DC | Current |\n|-|-|-|\n| +5V | 5.02 | 1.2 A |\n", {
      heading: "Supply rails",
    });
    expect(dc?.verdict).toBe("within-limits");
    expect(load).toMatchObject({ verdict: "unjudged" });
    expect(load?.code).toBeUndefined();
    expect(everything(load)).toContain("usually carries 1.5 A");
  });
});

describe("a soak", () => {
  it("judges the rail at each time and not the time", async () => {
    const judged = await judgeTable(
      "| After | Rail | DC | Result |\n|-|-|-|-|\n| 10 min | +5V | 4.2 | ok |\n",
      {
        heading: "Soak",
      },
    );
    expect(judged.map((j) => [j.reading.measure, j.verdict])).toEqual([
      ["elapsed", "unjudged"],
      ["dc", "out-of-limits"],
      ["result", "unjudged"],
    ]);
  });
});
