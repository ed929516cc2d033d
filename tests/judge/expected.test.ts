import { describe, expect, it } from "vitest";
import { judgePin, judgeTable } from "../support/judged";
import { everything } from "../support/words";

const one = async (heading: string, table: string) => (await judgeTable(table, { heading }))[0];

describe("a reading that only the board file can judge", () => {
  it.each([
    ["118 ohm", "within-limits"],
    ["118", "within-limits"],
    ["0.2 k", "within-limits"],
    ["2.1 ohm", "out-of-limits"],
    [">20M", "out-of-limits"],
    ["OL", "out-of-limits"],
    ["400", "suspect"],
  ])("%s is %s", async (typed, verdict) => {
    const judgement = await one("Resistance to ground", `| Rail | Reading |\n|-|-|\n| 5V | ${typed} |\n`);
    expect(judgement?.verdict).toBe(verdict);
    expect(judgement?.code).toBe(verdict === "within-limits" ? undefined : "outside-expected");
    expect(judgement?.formula).not.toMatch(/∞|NaN/);
  });

  it("is found by pin as well as by rail", async () => {
    expect((await judgePin("U1.2", "4k7", { heading: "Resistance to ground" })).verdict).toBe(
      "within-limits",
    );
    expect((await judgePin("u1.pin 2", "20 k", { heading: "Resistance to ground" })).verdict).toBe(
      "out-of-limits",
    );
    expect((await judgePin("U1.3", "20 k", { heading: "Resistance to ground" })).verdict).toBe("unjudged");
  });

  it("says a big capacitor in microfarads and leaves its series resistance alone", async () => {
    const [capacitance, esr] = await judgeTable(
      "| Ref | Capacitance | ESR |\n|-|-|-|\n| C2 | 5200 uF | 0.05 |\n",
      {
        heading: "Capacitance and ESR",
      },
    );
    expect(capacitance).toMatchObject({ verdict: "out-of-limits" });
    expect(everything(capacitance)).toContain("12000 µF to 22000 µF");
    expect(esr).toMatchObject({ verdict: "unjudged" });
  });

  it("has its tolerance from whoever gave the value: the log's own row, or the board file", async () => {
    const heading = "Resistance";
    const [own] = await judgeTable("| Ref | Nominal | Reading |\n|-|-|-|\n| R9 | 1k 5 % | 1.3k |\n", {
      heading,
    });
    expect(own?.verdict).toBe("out-of-limits");
    expect(everything(own)).toContain("this log");
    expect(everything(own)).not.toContain("the board file");
  });

  it("is the first of several of one quantity: the others are measured another way", async () => {
    const reversed = await judgeTable("| Rail | Reading | Reversed |\n|-|-|-|\n| +5V | 118 | 20 |\n", {
      heading: "Resistance to ground",
    });
    expect(reversed.map((j) => j.verdict)).toEqual(["within-limits", "unjudged"]);
  });

  it("is unjudged where nothing is expected, and says so", async () => {
    const judgement = await judgePin("U1.1", "3.4", { heading: "Frequency" });
    expect(judgement).toMatchObject({
      verdict: "unjudged",
      says: { fact: expect.stringContaining("gives no expected reading") },
    });
  });

  it("says what is missing where a row names no part, or the log no board", async () => {
    const bare = await one("Diode check", "| Pin | Reading |\n|-|-|\n| 1 | 0.5 |\n");
    expect(everything(bare)).toContain("does not say which part it is");
    const alone = await judgePin("U1.1", "3.4", { heading: "Frequency", front: "job: 3" });
    expect(everything(alone)).toContain("Nothing says what to expect");
  });

  it("cannot be below 0", async () => {
    const judgement = await judgePin("U1.1", "-40", { heading: "Resistance to ground" });
    expect(judgement).toMatchObject({ verdict: "impossible", code: "impossible-value" });
    expect(everything(judgement)).toContain("a resistance measured this way cannot be below 0");
  });
});
