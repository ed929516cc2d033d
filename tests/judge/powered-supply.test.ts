import { describe, expect, it } from "vitest";
import { inWords } from "../../server/src/text/saying";
import { judgePowered, judgeRows } from "../support/powered";
import { everything } from "../support/words";

/** What the ripple cell of one row is judged to be. */
async function ripple(rail: string, typed: string, heading = "Supply rails, loaded", front = "") {
  const [found] = await judgeRows(heading, "| Rail | Ripple |", [`| ${rail} | ${typed} |`], front);
  return found!;
}

describe("ripple without a limit of its own", () => {
  // 1 A / (2 × 50 Hz × 4700 µF less 20 %) = 1 / (100 × 3.76e-3) = 2.660 V at most.
  it.each([
    ["+5V raw", "2.50 V", "within-limits", "The capacitor is not disproved"],
    ["+5V raw", "2.65 V", "within-limits", "2.66 V"],
    ["+5V raw", "2.7 V", "suspect", "Too close to tell"],
    // 1 A / (2 × 50 Hz × 3 V) = 3333 µF.
    ["+5V raw", "3.00 V", "out-of-limits", "It is as if C1's 4700 µF were 3333 µF."],
    // Half wave: 0.5 A / (60 Hz × 2200 µF less 10 %) = 0.5 / (60 × 1.98e-3) = 4.209 V.
    ["Half", "4.15 V", "within-limits", "4.209 V"],
    // 0.5 A / (60 Hz × 5 V) = 1667 µF.
    ["Half", "5.00 V", "out-of-limits", "It is as if C2's 2200 µF were 1667 µF."],
    ["Limited", "0.90 V", "within-limits", "Limited rail's ripple limit"],
    ["Limited", "1.20 V", "out-of-limits", "the limit is 1 V"],
    // Its own limit decides, and 1 A / (100 Hz × 2.5 V) = 4000 µF is less than 4700 µF.
    [
      "Limited",
      "2.50 V",
      "out-of-limits",
      "as if C1's 4700 µF were 4000 µF. Worked at 1 A, the board file's load",
    ],
  ])("%s at %s is %s: %s", async (rail, typed, verdict, says) => {
    const judgement = await ripple(rail, typed);
    expect({ verdict: judgement.verdict, sentence: everything(judgement) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
    const reported = verdict === "out-of-limits" || verdict === "suspect";
    expect(judgement.code).toBe(reported ? "rail-out-of-tolerance" : undefined);
  });

  it("above a limit that the whole capacitor would not keep accuses no capacitor", async () => {
    // 1 A / (100 Hz × 1.2 V) = 8333 µF: more than it ever had.
    expect(everything(await ripple("Limited", "1.20 V"))).not.toContain("as if");
  });

  it("has its arithmetic, its reference and the tolerance's source", async () => {
    const { formula, reference, says, uncertainty } = await ripple("+5V raw", "3.00 V");
    const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
    expect(formula).toBe("1 A / (2 × 50 Hz × 3760 µF) = 2.66 V; 3 V ± 5.774 mV > 2.66 V");
    expect(reference).toMatchObject({ unit: "V", link: { uri: "mem:/ws/powered.board.yaml" } });
    expect(reference?.high).toBeCloseTo(1 / (100 * 3760e-6), 10);
    expect(sentence).toContain("C1 ± 20 %: common practice, no source");
    expect(uncertainty).toBeCloseTo(0.01 / Math.sqrt(3), 12);
    expect(everything(await ripple("Half", "5.00 V"))).toContain("C2 ± 10 %: the board file");
  });

  it("is held against the current read in the same row before the board file's", async () => {
    const rows = ["| +5V raw | 3.00 V | 1.50 A |", "| +5V raw | 3.00 V | 0.50 A |"];
    const judged = await judgeRows("Supply rails, loaded", "| Rail | Ripple | Current |", rows);
    const ripples = judged.filter(({ reading }) => reading.measure === "ripple");
    // 1.5 / (100 × 3.76e-3) = 3.989 V; 0.5 / (100 × 3.76e-3) = 1.330 V, and 0.5 / (100 × 3) = 1667 µF.
    expect(ripples.map(({ verdict }) => verdict)).toEqual(["within-limits", "out-of-limits"]);
    expect(everything(ripples[1])).toContain("1667 µF");
    expect(everything(ripples[0])).toContain("at 1.5 A (as read)");
  });

  it("is read with the meter's uncertainty", async () => {
    // 1 % of 2.69 V and 5 counts of 1 mV are 32 mV, 2 × 32 mV / √3 = 37 mV: 2.653 V < 2.66 V.
    expect((await ripple("+5V raw", "2.690 V", "Supply rails", "meter: exact\n")).verdict).toBe("suspect");
    expect((await ripple("+5V raw", "2.690 V", "Supply rails")).verdict).toBe("out-of-limits");
  });

  it.each([
    ["NoMains", "1 V", "does not say what mains frequency NoMains comes from"],
    ["NoShape", "1 V", "does not say whether NoShape is rectified full-wave or half-wave"],
    ["NoLoad", "1 V", "Neither this row nor the board file says what current NoLoad carries"],
    ["Resistor", "1 V", 'gives R1 as "10k 5 %", which is not a capacitance'],
    ["VMEM", "1 V", "gives no ripple limit for VMEM"],
    ["+5V raw", "1 Vrms", "not read peak to peak"],
  ])("of %s at %s is not judged: %s", async (rail, typed, part) => {
    const { verdict, says, code } = await ripple(rail, typed);
    const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
    expect({ verdict, code, sentence }).toEqual({
      verdict: "unjudged",
      code: undefined,
      sentence: expect.stringContaining(part),
    });
  });

  it("read unloaded, on an alternating range or with a meter of unknown accuracy is not judged", async () => {
    expect(await ripple("+5V raw", "3 V", "Supply rails, unloaded")).toMatchObject({
      verdict: "unjudged",
      says: { fact: expect.stringContaining("read unloaded: write the current beside it") },
    });
    expect(await ripple("+5V raw", "3 V", "Supply rails", "meter: plain\n")).toMatchObject({
      verdict: "unjudged",
      says: { fact: expect.stringContaining("gives no accuracy of Plain meter") },
    });
    const [ac] = await judgeRows("Supply rails", "| Rail | AC |", ["| +5V raw | 3 V |"]);
    expect(ac).toMatchObject({
      verdict: "unjudged",
      says: { fact: expect.stringContaining("peak to peak") },
    });
  });
});

/** The judgements of the DC cells of one table, by rail. */
async function rails(rows: readonly string[], heading = "Supply rails, loaded", front = "") {
  const judged = await judgeRows(heading, "| Rail | DC | Ripple |", rows, front);
  const dc = judged.filter(({ reading }) => reading.measure === "dc");
  return new Map(dc.map((judgement) => [judgement.reading.subject.rail?.text, judgement]));
}

describe("a regulator between two rails read together", () => {
  it("has the headroom at the bottom of the ripple", async () => {
    // 9 V - 2 V / 2 = 8 V; 8 V - 5 V - 2 V = 1 V.
    const read = await rails(["| +5V raw | 9.00 | 2.00 V |", "| +5V | 5.00 | |"]);
    expect(read.get("+5V raw")?.verdict).toBe("within-limits");
    expect(read.get("+5V raw")?.formula).toContain("9 V - 2 V / 2 = 8 V; 8 V - 5 V - 2 V = 1 V");
    // (9 V - 5 V) × 1 A = 4 W.
    expect(read.get("+5V")?.formula).toContain(
      "heat in VR1: (9 V - 5 V) × 1 A = 4 W (the board file's load)",
    );
    expect(read.get("+5V")?.verdict).toBe("within-limits");
  });

  it("without enough of it is out of limits, though its rail is not", async () => {
    // 7.5 V - 1 V = 6.5 V; 6.5 V - 5 V - 2 V = -0.5 V. 5 V + 2 V + 1 V = 8 V is what it needs on average.
    const raw = (await rails(["| +5V raw | 7.50 | 2.00 V |", "| +5V | 5.00 | |"])).get("+5V raw");
    expect(raw).toMatchObject({
      verdict: "out-of-limits",
      code: "rail-out-of-tolerance",
      reference: { low: 8, unit: "V", source: "common practice, no source" },
    });
    expect(everything(raw)).toContain("is 1.5 V above its output; VR1 needs 2 V.");
    expect(raw?.formula).toContain("6.5 V - 5 V - 2 V = -0.5 V");
  });

  it("at its edge is suspect", async () => {
    // 8 V - 1 V - 5 V - 2 V = 0 V.
    const read = await rails(["| +5V raw | 8.00 | 2.00 V |", "| +5V | 5.00 | |"]);
    expect(read.get("+5V raw")).toMatchObject({ verdict: "suspect", code: "rail-out-of-tolerance" });
  });

  it("of a negative rail counts the same way, with the board file's dropout", async () => {
    // -17 V + 3 V / 2 = -15.5 V; 15.5 - 12 - 1.5 = 2 V. -16 V + 6 V / 2 = -13 V; 13 - 12 - 1.5 = -0.5 V.
    const sound = await rails(["| -12V raw | -17.0 | 3.0 V |", "| -12V | -12.0 | |"]);
    expect(sound.get("-12V raw")).toMatchObject({ verdict: "within-limits" });
    expect(sound.get("-12V raw")?.formula).toContain("15.5 V - 12 V - 1.5 V = 2 V");
    const starved = await rails(["| -12V raw | -16.0 | 6.0 V |", "| -12V | -12.0 | |"]);
    expect(starved.get("-12V raw")).toMatchObject({
      verdict: "out-of-limits",
      // -(12 V + 1.5 V + 3 V)
      reference: { high: -16.5, source: "data sheet" },
    });
  });

  it("that has dropped out is held against what it should give, and the output says why", async () => {
    // 8.4 V - 3.9 V / 2 = 6.45 V, 1.45 V above 5 V.
    const read = await rails(["| +5V raw | 8.40 | 3.90 V |", "| +5V | 4.61 | 420 mV |"]);
    expect(everything(read.get("+5V raw"))).toContain("is 1.45 V above the 5 V +5V should have");
    expect(read.get("+5V")).toMatchObject({ verdict: "out-of-limits" });
    expect(everything(read.get("+5V"))).toContain("The ripple comes through the regulator.");
    expect(everything(read.get("+5V"))).toContain("VR1 needs 2 V");
  });

  it("whose ripple was not read is judged only where the ripple decides nothing", async () => {
    const low = await rails(["| +5V raw | 6.50 | |", "| +5V | 5.00 | |"]);
    // 6.5 V - 5 V - 2 V = -0.5 V already without ripple.
    expect(low.get("+5V raw")).toMatchObject({ verdict: "out-of-limits" });
    // 7.5 V - 5 V - 2 V = 0.5 V without ripple, -0.83 V with the 2.66 V there may be.
    const open = await rails(["| +5V raw | 7.50 | |", "| +5V | 5.00 | |"]);
    expect(open.get("+5V raw")).toMatchObject({
      verdict: "within-limits",
      formula: expect.not.stringContaining("- 2 V"),
    });
    // 9 V - 2.66 V / 2 = 7.67 V; 0.67 V is left whatever the ripple.
    const wide = await rails(["| +5V raw | 9.00 | |", "| +5V | 5.00 | |"]);
    expect(wide.get("+5V raw")?.formula).toContain("7.67 V - 5 V - 2 V = 0.6702 V");
  });

  it("is found in another table under the same heading, and not under another", async () => {
    const one = "| Rail | DC | Ripple |\n|-|-|-|\n| +5V raw | 7.50 | 2.00 V |\n";
    const two = "| Rail | DC |\n|-|-|\n| +5V | 5.00 |\n";
    const verdicts = async (between: string) => {
      const judged = await judgePowered(`## Supply rails, loaded\n\n${one}\n${between}${two}`);
      return judged.map(({ verdict }) => verdict);
    };
    expect(await verdicts("")).toEqual(["out-of-limits", "within-limits", "within-limits"]);
    expect(await verdicts("## Supply rails, unloaded\n\n")).toEqual([
      "within-limits",
      "within-limits",
      "within-limits",
    ]);
  });

  it("is not judged where it is not known which reading belongs to which, nor with a meter of unknown accuracy", async () => {
    const twice = ["| +5V raw | 7.50 | 2.00 V |", "| +5V | 5.00 | |", "| +5V | 4.99 | |"];
    expect((await rails(twice)).get("+5V raw")?.verdict).toBe("within-limits");
    const once = twice.slice(0, 2);
    expect((await rails(once, "Supply rails", "meter: plain\n")).get("+5V raw")?.verdict).toBe(
      "within-limits",
    );
    expect((await rails(once, "Supply rails", "meter: exact\n")).get("+5V raw")?.verdict).toBe(
      "out-of-limits",
    );
  });

  it("read unloaded has headroom but no heat", async () => {
    const read = await rails(["| +5V raw | 11.0 | 0.10 V |", "| +5V | 5.00 | |"], "Supply rails, unloaded");
    expect(read.get("+5V raw")?.formula).toContain("10.95 V - 5 V - 2 V = 3.95 V");
    expect(read.get("+5V")?.formula).not.toContain("heat");
  });
});
