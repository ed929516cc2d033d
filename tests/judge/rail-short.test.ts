import { describe, expect, it } from "vitest";
import { shortLimits } from "../../server/src/compute/circuit/rail-short";
import { judgeTable } from "../support/judged";
import { everything } from "../support/words";

async function toGround(rail: string, typed: string, front = "received: 2026-03-02") {
  const [found] = await judgeTable(`| Rail | Reading |\n|-|-|\n| ${rail} | ${typed} |\n`, {
    heading: "Resistance to ground",
    front,
  });
  return found!;
}

describe("a rail's resistance to ground by its voltage", () => {
  it.each([
    ["+12V", "4.5", "out-of-limits", "12 V would drive 2.67 A"],
    ["+170V", "12", "out-of-limits", "170 V would drive 14.2 A"],
    ["+170V", "12 both ways", "out-of-limits", "below 340"],
    ["+5V", "0.4", "out-of-limits", "below 2 \u03a9"],
    ["-12V", "3", "out-of-limits", "12 V would drive 4 A"],
    ["-12V", "8", "suspect", "below 12 \u03a9"],
    ["+24V", "3.2", "suspect", "below 4.8 \u03a9"],
    ["+5V", "<1", "out-of-limits", "is a short"],
    // Near misses.
    ["+5V", "12", "unjudged", "no plain short"],
    ["+5V", "6", "unjudged", "no plain short"],
    ["+12V unreg", "4.5", "unjudged", "no plain short"],
    ["+34V coils", "20", "unjudged", "no plain short"],
    ["+170V", "22k", "unjudged", "no plain short"],
    ["-12V", "220", "unjudged", "no plain short"],
    ["VAUX", "4.5", "unjudged", "below 2 \u03a9"],
    ["+12V", "OL", "unjudged", "no plain short"],
  ])("%s at %s is %s: %s", async (rail, typed, verdict, says) => {
    const found = await toGround(rail, typed);
    expect({ verdict: found.verdict, sentence: everything(found) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
  });

  it("both ways is one finding, and one way is no short", async () => {
    const rows = "| +170V | 12 | 12 |\n| +12V | 4.5 | 300 |\n| -12V | 4 | OL |\n| +15V | 0.3 | 90 |\n";
    const judged = await judgeTable(`| Rail | Reading | Reversed |\n|-|-|-|\n${rows}`, {
      heading: "Resistance to ground",
      front: "received: 2026-03-02",
    });
    expect(judged.map(({ verdict, code }) => `${verdict} ${code}`)).toEqual([
      "out-of-limits rail-shorted",
      "out-of-limits undefined",
      "suspect rail-shorted",
      "unjudged undefined",
      "suspect rail-shorted",
      "unjudged undefined",
      // So little is copper, whatever the other way shows.
      "out-of-limits rail-shorted",
      "unjudged undefined",
    ]);
    expect(everything(judged[0])).toContain("both ways");
    expect(everything(judged[2])).toContain("a short reads the same both ways");
  });

  it("counts the load that the board file gives", () => {
    // 12 V at 0.1 A: twice that is 60 ohm.
    expect(shortLimits({ volts: -12, load: 0.1 })).toMatchObject({ short: 6, doubt: 60 });
    expect(shortLimits({ volts: 12, load: 1 })).toMatchObject({ short: 2.4, doubt: 6 });
    // A big board draws more than this through its two ohms: still copper.
    expect(shortLimits({ volts: 5, load: 20 })).toMatchObject({ short: 2, doubt: 2 });
    expect(shortLimits({})).toMatchObject({ short: 2, doubt: 2 });
    expect(shortLimits({ volts: Number.NaN })).toMatchObject({ short: 2, doubt: 2 });
  });
});
