// The no-load rise of unregulated rails, the frequency of a ripple and the current on first power. Figures: common
// practice, no source.

import { describe, expect, it } from "vitest";
import { judgeTable } from "../support/judged";
import { judgeRows } from "../support/powered";
import { everything } from "../support/words";

const ALONE = "received: 2026-03-02";

async function rail(heading: string, header: string, row: string, front = ALONE, before = "") {
  const marks = header.replace(/[^|]+/g, "-");
  return judgeTable(`${header}\n${marks}\n${row}\n\n${before}`, { heading, front });
}

describe("an unregulated rail with nothing on it", () => {
  it.each([
    ["Supply rails, unloaded", "+24V", "33.9", "within-limits"],
    ["Supply rails, unloaded", "+8V unreg", "11.9", "within-limits"],
    ["Supply rails, unloaded", "+12V unreg", "17.8", "within-limits"],
    ["Supply rails, unloaded", "+12V unreg", "20.5", "within-limits"],
    ["Supply rails, unloaded", "+24V coils", "36", "within-limits"],
    ["Supply rails, no load", "+24V", "33.9", "within-limits"],
    ["Supply rails, unloaded", "-24V", "-33.9", "within-limits"],
    ["Supply rails", "+24V", "33.9", "suspect"],
    // Regulated rails have no such room, and twice the name no rail.
    ["Supply rails, unloaded", "+12V unreg", "24", "out-of-limits"],
    ["Supply rails, unloaded", "+24V", "48", "out-of-limits"],
    ["Supply rails, unloaded", "+5V", "5.6", "out-of-limits"],
    ["Supply rails, unloaded", "+12V", "16.9", "out-of-limits"],
    ["Supply rails, loaded", "+24V", "35", "out-of-limits"],
    ["Supply rails, loaded", "+12V unreg", "20.5", "out-of-limits"],
    ["Supply rails, unloaded", "+24V", "12", "out-of-limits"],
  ])("%s: %s at %s is %s", async (heading, name, typed, verdict) => {
    const [found] = await rail(heading, "| Rail | DC |", `| ${name} | ${typed} |`);
    expect({ verdict: found?.verdict, sentence: everything(found) }).toEqual({
      verdict,
      sentence: expect.any(String),
    });
  });

  it("is asked for its load where nobody said it", async () => {
    const [found] = await rail("Supply rails", "| Rail | DC |", "| +24V | 33.9 |");
    expect(everything(found)).toContain("Say in the heading whether it was loaded");
  });

  it("is told by the note and by the column too", async () => {
    const [noted] = await rail("Supply rails", "| Rail | DC | Note |", "| +24V | 33.9 | board unplugged |");
    expect(noted?.verdict).toBe("within-limits");
    const [off, on] = await rail("Supply rails", "| Rail | No load | Loaded |", "| +24V | 33.9 | 33.9 |");
    expect([off?.verdict, on?.verdict]).toEqual(["within-limits", "out-of-limits"]);
  });

  it("of a board file is what its rectifier says", async () => {
    // 9 V +- 3 V behind C1 and a full-wave rectifier.
    const [loaded, unloaded] = await Promise.all(
      ["loaded", "unloaded"].map(
        async (load) =>
          (await judgeRows(`Supply rails, ${load}`, "| Rail | DC |", ["| +5V raw | 13.2 |"]))[0],
      ),
    );
    expect([loaded?.verdict, unloaded?.verdict]).toEqual(["out-of-limits", "within-limits"]);
  });
});

describe("the frequency of a ripple", () => {
  it.each([
    ["+12V unreg", "1.2 V 60 Hz", "out-of-limits", "a full-wave rectifier leaves 120 Hz"],
    [
      "+12V unreg",
      "1.2 Vpp at 50 Hz",
      "out-of-limits",
      "One leg of the rectifier or half the winding is open",
    ],
    ["+5V", "80 mV 50 Hz", "out-of-limits", "unless this rail is half-wave rectified"],
    ["+12V unreg", "1.2 V 120 Hz", "unjudged", "Nothing gives a ripple limit"],
    ["+12V unreg", "1.2 V 100 Hz", "unjudged", "Nothing gives a ripple limit"],
    ["+12V unreg", "1.2 V", "unjudged", "Nothing gives a ripple limit"],
    // Hum of so little is what the probe picks up.
    ["+5V", "5 mV 50 Hz", "within-limits", "the limit is 50 mV"],
    ["+5V", "5 mV 100 Hz", "within-limits", "the limit is 50 mV"],
  ])("%s with %s is %s: %s", async (name, typed, verdict, says) => {
    const [found] = await rail("Supply rails, loaded", "| Rail | Ripple |", `| ${name} | ${typed} |`);
    expect({ verdict: found?.verdict, sentence: everything(found) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
  });

  it.each([
    ["| Rail | Ripple (V) | Ripple frequency |", "| +12V unreg | 1.2 | 60 Hz |", "out-of-limits"],
    ["| Rail | Ripple (V) | Hz |", "| +12V unreg | 1.2 | 60 |", "out-of-limits"],
    ["| Rail | Ripple (V) | Hz |", "| +12V unreg | 1.2 | 120 |", "unjudged"],
    ["| Rail | Ripple (V) | Note |", "| +12V unreg | 1.2 | at 50 Hz |", "out-of-limits"],
    ["| Rail | Ripple (V) | Note |", "| +12V unreg | 1.2 | at 100 Hz |", "unjudged"],
    ["| Rail | Ripple frequency |", "| +12V unreg | 60 Hz |", "out-of-limits"],
    ["| Rail | Ripple frequency |", "| +12V unreg | 120 Hz |", "unjudged"],
  ])("stands in a column or a note: %s %s", async (header, row, verdict) => {
    const [found] = await rail("Supply rails, loaded", header, row);
    expect(found?.verdict).toBe(verdict);
  });

  it.each([
    // Half-wave by the board file: its ripple is at the mains frequency.
    ["Half", "4.15 V 60 Hz", "within-limits"],
    // Full-wave: even a little of it is half a bridge.
    ["+5V raw", "1.0 V 50 Hz", "suspect"],
    ["+5V raw", "1.0 V 100 Hz", "within-limits"],
    ["+5V raw", "3.0 V 50 Hz", "out-of-limits"],
  ])("of the board file's %s at %s is %s", async (name, typed, verdict) => {
    const [found] = await judgeRows("Supply rails, loaded", "| Rail | Ripple |", [`| ${name} | ${typed} |`]);
    expect(found?.verdict).toBe(verdict);
  });
});

describe("the current on first power", () => {
  const chips = "U60 (6802), U61 (2114) and U62 (7404) are on it.\n";

  it.each([
    ["First power", "| +5V | 1.2 | 3.0 A |", "out-of-limits", "like 400 mΩ; below 2 Ω is a short"],
    ["First power", "| +5V | 2.1 | 1.0 A |", "suspect", "like 2.1 Ω; below 5 Ω is doubtful"],
    [
      "Supply rails, current limit 1 A",
      "| +5V | 5.0 | 1.0 A |",
      "suspect",
      "all that the current limit of 1 A allows",
    ],
    ["First power", "| +5V | 5.0 | 0.004 A |", "out-of-limits", "far less than"],
    // Near misses: in order, low for a weak supply, under the limit, and nothing connected.
    ["First power", "| +5V | 5.02 | 0.65 A |", "unjudged", "Nothing says what"],
    ["First power", "| +5V | 4.4 | 0.3 A |", "unjudged", "Nothing says what"],
    ["Supply rails, current limit 1 A", "| +5V | 5.0 | 0.62 A |", "unjudged", "Nothing says what"],
    ["First power, unloaded", "| +5V | 5.0 | 0.004 A |", "unjudged", "Nothing says what"],
    ["First power", "| +12V | 12.0 | 5 mA |", "unjudged", "Nothing says what"],
  ])("%s: %s is %s", async (heading, row, verdict, says) => {
    const judged = await rail(heading, "| Rail | DC | Current |", row, ALONE, chips);
    const found = judged.find(({ reading }) => reading.measure === "load");
    expect({ verdict: found?.verdict, sentence: everything(found) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
  });

  // The trial board's +5V usually carries 1.5 A.
  it.each([
    ["1.2 A", "unjudged"],
    ["2.2 A", "unjudged"],
    ["2.4 A", "suspect"],
    ["2.9 A", "suspect"],
    ["4.2 A", "out-of-limits"],
    ["0.7 A", "unjudged"],
    ["0.4 A", "suspect"],
    ["0.1 A", "out-of-limits"],
  ])("against the board file's load: %s is %s", async (typed, verdict) => {
    const judged = await rail(
      "Supply rails",
      "| Rail | DC | Current |",
      `| +5V | 5.02 | ${typed} |`,
      "board: trial",
    );
    expect(judged.find(({ reading }) => reading.measure === "load")?.verdict).toBe(verdict);
  });
});
