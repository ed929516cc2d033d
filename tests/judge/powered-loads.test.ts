import { describe, expect, it } from "vitest";
import { inWords } from "../../server/src/text/saying";
import { judgeRows } from "../support/powered";
import { everything } from "../support/words";

const coil = async (row: string, front = "") =>
  (await judgeRows("Coil resistance", "| Ref | Pin | Item | Reading |", [row], front))[0]!;

describe("a coil's resistance", () => {
  // 24 V / 22 Ω = 1.091 A; ± 10 % is 19.8 Ω to 24.2 Ω; 24 V / 8 A = 3 Ω.
  it.each([
    // 24 / 24.1 = 0.996 A, below the fuse's 1 A and the driver's 8 A.
    ["24.1 ohm", "within-limits", undefined, "The coil draws 995.9 mA; its driver carries 8 A"],
    ["22.0 ohm", "suspect", "coil-overload", "1.091 A; its fuse is 1 A"],
    ["15.0 ohm", "out-of-limits", "coil-overload", "It should read 22 Ω ± 10 %. Turns are shorted"],
    // 24 / 2.9 = 8.276 A.
    ["2.90 ohm", "out-of-limits", "coil-overload", "The coil draws 8.276 A; its driver carries 8 A"],
    ["3.0 ohm", "out-of-limits", "coil-overload", "The coil draws 8 A; its driver carries 8 A"],
    [
      "short",
      "out-of-limits",
      "coil-overload",
      'The coil "Gate" reads a short. Only the wiring limits its current; its driver carries 8 A. The winding is shorted',
    ],
    [
      "0",
      "out-of-limits",
      "coil-overload",
      'The coil "Gate" reads a short. Only the wiring limits its current; its driver carries 8 A. The winding is shorted',
    ],
    [
      "OL",
      "out-of-limits",
      "outside-expected",
      'The coil "Gate" reads open. No current flows. The winding is open',
    ],
    ["40.0 ohm", "out-of-limits", "outside-expected", "Check its lugs and joints"],
  ])("of %s is %s as %s: %s", async (typed, verdict, code, says) => {
    const judgement = await coil(`| Q3 | | | ${typed} |`);
    expect({ verdict: judgement.verdict, code: judgement.code, sentence: everything(judgement) }).toEqual({
      verdict,
      code,
      sentence: expect.stringContaining(says),
    });
  });

  it("has the current and the heat in its formula, and never proves the coil", async () => {
    const { formula, says } = await coil("| Q3 | | | 24.1 ohm |");
    const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
    expect(formula).toContain("24 V / 24.1 Ω = 995.9 mA; (24 V)² / 24.1 Ω = 23.9 W");
    expect(sentence).toContain("Not disproved: a few shorted turns change less than that");
  });

  it("has for limits the least that driver and fuse carry, and the winding's own most", async () => {
    // 24 V / 1 A = 24 Ω is more than 22 Ω less 10 %; 22 Ω plus 10 % is 24.2 Ω.
    const { reference } = await coil("| Q3 | | | 24.1 ohm |");
    expect(reference).toMatchObject({ low: 24, unit: "ohm", source: "Ohm's law" });
    expect(reference?.high).toBeCloseTo(24.2, 10);
    expect((await coil("| Q4 | | | 24.1 ohm |")).reference).toMatchObject({ low: 3 });
  });

  it("is found by its driver, by the connector on the driver's net and by its name", async () => {
    expect(everything(await coil("| J5 | 3 | | 2.9 ohm |"))).toContain('coil "Gate" of Q3');
    expect(everything(await coil("| K9 | | gate | 2.9 ohm |"))).toContain('coil "Gate" of Q3');
    expect((await coil("| J5 | 2 | | 2.9 ohm |")).verdict).toBe("unjudged");
    expect((await coil("| K9 | | bell | 2.9 ohm |")).verdict).toBe("unjudged");
  });

  it("without a fuse that can be read or a driver's limit says what it does not know", async () => {
    const noFuse = await coil("| Q4 | | | 2.9 ohm |");
    expect(noFuse).toMatchObject({ verdict: "out-of-limits", code: "coil-overload" });
    expect(everything(noFuse)).not.toContain("fuse");
    expect(await coil("| Q5 | | | 2.9 ohm |")).toMatchObject({
      verdict: "unjudged",
      says: { fact: expect.stringContaining("neither the driver's limit nor the fuse is known") },
    });
    expect((await coil("| Q5 | | | short |")).code).toBe("coil-overload");
  });

  it("is read with the meter: its uncertainty decides at the edge, and one of unknown accuracy decides nothing", async () => {
    // 0.2 % of 3.02 Ω and 10 counts of 10 mΩ: 0.106 Ω, which straddles 3 Ω.
    const exact = await coil("| Q4 | | | 3.02 ohm |", "meter: exact\n");
    expect(exact).toMatchObject({ verdict: "suspect", code: "coil-overload" });
    expect((await coil("| Q4 | | | 3.02 ohm |")).verdict).toBe("within-limits");
    expect(await coil("| Q4 | | | 2 ohm |", "meter: plain\n")).toMatchObject({
      verdict: "unjudged",
      says: { fact: expect.stringContaining("gives no accuracy of Plain meter") },
    });
    // What needs no accuracy is told all the same.
    expect((await coil("| Q4 | | | short |", "meter: plain\n")).verdict).toBe("out-of-limits");
  });
});

describe("a memory back-up", () => {
  const supply = async (row: string) =>
    judgeRows("Supply rails", "| Rail | Measured at | DC | Current |", [row]);

  it("charges through its resistor: the drop across it is a current", async () => {
    // 0.5 V / 62 Ω = 8.065 mA; 5 V - 0.6 V = 4.4 V is all there is.
    const [within] = await supply("| VMEM | R2 | 0.500 V | |");
    expect(within).toMatchObject({ verdict: "within-limits" });
    expect(within?.formula).toContain("(500 mV - 0 V) / 62 Ω = 8.065 mA".replace("500 mV", "0.5 V"));
    expect(everything(within)).toContain("is a charge current of 8.065 mA");
    const [above] = await supply("| VMEM | R2 | 4.80 V | |");
    expect(above).toMatchObject({ verdict: "out-of-limits", code: "outside-expected" });
    // Without the resistor's name it is the rail.
    expect(everything((await supply("| VMEM | | 4.40 V | |"))[0])).toContain("the VMEM rail");
  });

  it("charges with no more than an empty capacitor takes", async () => {
    // 4.4 V / (62 Ω less 10 %) = 4.4 / 55.8 = 78.85 mA.
    const current = async (typed: string) =>
      (await supply(`| VMEM | R2 | | ${typed} |`)).find(({ reading }) => reading.measure === "load")!;
    expect(await current("70 mA")).toMatchObject({ verdict: "within-limits" });
    expect(everything(await current("100 mA"))).toContain("takes 78.85 mA");
    expect(await current("100 mA")).toMatchObject({ verdict: "out-of-limits", code: "outside-expected" });
    expect((await current("79 mA")).verdict).toBe("suspect");
  });

  const held = async (row: string) =>
    (await judgeRows("Reset timing", "| Ref | Signal | Reading |", [row]))[0]!;

  it("holds for as long as its charge lasts", async () => {
    // (1 F less 20 %) × (4.4 V - 2 V) / 10 µA = 192000 s = 53.3 h.
    expect(await held("| C4 | | 60 h |")).toMatchObject({ verdict: "within-limits" });
    const short = await held("| C4 | | 14 h |");
    expect(short).toMatchObject({ verdict: "out-of-limits", code: "outside-expected" });
    // 1 F × 2.4 V / 50400 s = 47.62 µA.
    expect(everything(short)).toContain(
      "Worked from 4.4 V to 2 V at 10 µA. This time is that of a current of 47.62 µA",
    );
    expect((await held("| | VMEM | 14 h |")).verdict).toBe("out-of-limits");
    expect((await held("| C3 | | 14 h |")).verdict).toBe("unjudged");
  });

  it("that was still alive when it was looked at is judged only by what that shows", async () => {
    expect((await held("| C4 | | >60 h |")).verdict).toBe("within-limits");
    expect(await held("| C4 | | >12 h |")).toMatchObject({
      verdict: "unjudged",
      says: { fact: expect.stringContaining("Write the time to tell whether it did") },
    });
    expect((await held("| C4 | | <12 h |")).verdict).toBe("out-of-limits");
  });
});
