import { describe, expect, it } from "vitest";
import { inWords } from "../../server/src/text/saying";
import { judgeRows } from "../support/powered";
import { everything } from "../support/words";

const frequency = async (ref: string, pin: string, typed: string, front = "") =>
  (await judgeRows("Frequency", "| Ref | Pin | Reading |", [`| ${ref} | ${pin} | ${typed} |`], front))[0]!;

describe("a clock", () => {
  it.each([
    // (895000 - 894886.25) / 894886.25 = 127.1 ppm.
    ["895000 Hz", "out-of-limits", "127.1 ppm fast; 100 ppm either way"],
    // The last digit typed is worth 112 ppm of it: 113.75 Hz is not told from 89 Hz.
    ["895.0 kHz", "suspect", "127.1 ppm fast; 100 ppm either way"],
    ["894.886 kHz", "within-limits", "0.2794 ppm slow, within 100 ppm"],
    // (894960 - 894886.25) / 894886.25 = 82.4 ppm; (894970 - ...) = 93.6 ppm.
    ["894960 Hz", "within-limits", "82.41 ppm fast"],
    ["894802 Hz", "within-limits", "94.15 ppm slow"],
    ["894790 Hz", "out-of-limits", "107.6 ppm slow"],
    ["1.789772 MHz", "out-of-limits", "A ratio of 2 or 3 is a wrong crystal"],
    ["0 Hz", "out-of-limits", "The clock does not run"],
  ])("at %s is %s: %s", async (typed, verdict, says) => {
    const judgement = await frequency("U1", "37", typed);
    expect({ verdict: judgement.verdict, sentence: everything(judgement) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
    expect(judgement.code).toBe(verdict === "within-limits" ? undefined : "outside-expected");
  });

  it("has the deviation in ppm, its limits in hertz and what it is made from", async () => {
    const { formula, reference, says, uncertainty } = await frequency("U1", "37", "895000 Hz");
    const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
    expect(formula).toBe("(895000 Hz - 894886.25 Hz) / 894886.25 Hz = 127.1 ppm, limit 100 ppm");
    // 894886.25 Hz × (1 ± 0.0001)
    expect(reference?.low).toBeCloseTo(894796.761375, 6);
    expect(reference?.high).toBeCloseTo(894975.738625, 6);
    expect(reference).toMatchObject({ unit: "Hz", source: "drawing" });
    expect(sentence).toContain("It is made from Y1");
    expect(uncertainty).toBeCloseTo(1 / Math.sqrt(3), 9);
  });

  it("is found at another pin of its net and by its net's name", async () => {
    expect((await frequency("U2", "1", "895000 Hz")).verdict).toBe("out-of-limits");
    const [named] = await judgeRows("Clock", "| Signal | Reading |", ["| E | 895000 Hz |"]);
    expect(named?.verdict).toBe("out-of-limits");
    expect((await frequency("U2", "3", "895000 Hz")).verdict).toBe("unjudged");
    // The crystal's own frequency is another one.
    expect((await frequency("Y1", "1", "3.579545 MHz")).verdict).toBe("unjudged");
  });

  it("yields to what the board file expects", async () => {
    // 5000 ppm off, within the 1 % expected.
    const judgement = await frequency("U2", "5", "1.005 MHz");
    expect(judgement).toMatchObject({
      verdict: "within-limits",
      says: { fact: expect.stringContaining("the board file says 990 kHz to 1.01 MHz") },
      reference: { kind: "board", source: "three boards" },
    });
  });

  it("is not judged with contradictory limits, a limit of another kind or a meter of unknown accuracy", async () => {
    const contradictory = await frequency("U2", "9", "1.5 MHz");
    expect(contradictory).toMatchObject({
      verdict: "unjudged",
      says: {
        fact: expect.stringContaining("limits that contradict each other: at least 2 MHz and at most 1 MHz"),
      },
    });
    expect(contradictory.code).toBeUndefined();
    expect((await frequency("U2", "11", "1.5 Hz")).verdict).toBe("unjudged");
    expect(await frequency("U1", "37", "895000 Hz", "meter: plain\n")).toMatchObject({
      verdict: "unjudged",
      says: { fact: expect.stringContaining("gives no accuracy of Plain meter") },
    });
    expect((await frequency("U1", "37", "895000 Hz", "meter: exact\n")).verdict).toBe("out-of-limits");
  });

  it("typed in another unit cannot be a reading, and a word or a range is not judged", async () => {
    expect(await frequency("U1", "37", "5 V")).toMatchObject({ verdict: "impossible", code: "wrong-unit" });
    expect((await frequency("U1", "37", "pulse")).verdict).toBe("unjudged");
    expect((await frequency("U1", "37", "894-896 kHz")).verdict).toBe("unjudged");
  });

  it("at a chip whose pins nobody has listed is not judged", async () => {
    expect((await frequency("U3", "5", "1 MHz")).verdict).toBe("unjudged");
  });
});

const delay = async (ref: string, pin: string, typed: string) =>
  (await judgeRows("Reset timing", "| Ref | Pin | Reading |", [`| ${ref} | ${pin} | ${typed} |`]))[0]!;

describe("a reset delay", () => {
  // 10 kΩ × 10 µF × ln(5 / 3) = 51.08 ms; × 0.95 × 0.8 = 38.82 ms, × 1.05 × 1.2 = 64.36 ms.
  it.each([
    ["50 ms", "within-limits", "R1 and C3 give 38.82 ms to 64.36 ms"],
    ["39.0 ms", "within-limits", ""],
    ["64 ms", "suspect", "Too close to tell"],
    ["30 ms", "out-of-limits", "The capacitor is open or has lost capacitance"],
    ["112 ms", "out-of-limits", "The capacitor leaks"],
    ["0.05 s", "within-limits", ""],
    ["0.04 s", "suspect", "Too close to tell"],
    ["OL", "out-of-limits", "Reset never releases"],
  ])("of %s is %s: %s", async (typed, verdict, says) => {
    const judgement = await delay("U1", "40", typed);
    expect({ verdict: judgement.verdict, sentence: everything(judgement) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
    expect(judgement.code).toBe(verdict === "within-limits" ? undefined : "outside-expected");
  });

  it("has its arithmetic, and says whose tolerances and threshold it took", async () => {
    const { formula, says, reference } = await delay("U1", "40", "112 ms");
    const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
    expect(formula).toContain("10 kΩ × 10 µF × ln((5 V - 0 V) / (5 V - 2 V)) = 51.08 ms");
    expect(sentence).toContain(
      "R1 ± 5 %: the board file; C3 ± 20 %: common practice, no source; releases at 2 V: drawing",
    );
    expect(reference?.low).toBeCloseTo(0.1 * Math.log(5 / 3) * 0.95 * 0.8, 12);
    expect(reference?.high).toBeCloseTo(0.1 * Math.log(5 / 3) * 1.05 * 1.2, 12);
  });

  it("is found on the same net, and nowhere else", async () => {
    expect((await delay("U2", "3", "112 ms")).verdict).toBe("out-of-limits");
    expect((await delay("U2", "4", "112 ms")).verdict).toBe("unjudged");
  });

  it("yields to what the board file expects, and is not judged where a part has no value", async () => {
    expect(await delay("U2", "9", "50 ms")).toMatchObject({
      verdict: "out-of-limits",
      says: { fact: expect.stringContaining("10 ms to 20 ms") },
    });
    expect(await delay("U2", "5", "50 ms")).toMatchObject({
      verdict: "unjudged",
      says: { fact: expect.stringContaining('gives R3 as "about right", which is not a resistance') },
    });
  });
});
