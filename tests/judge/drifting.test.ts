// What was still moving when it was written: ordinary across a rail, a question on a signal pin.

import { describe, expect, it } from "vitest";
import { parseCell } from "../../server/src/quantity/parse-cell";
import { judgeTable } from "../support/judged";
import { everything } from "../support/words";

describe("a reading that moves", () => {
  it.each([
    ["15k rising", "bound", 15_000, "rising"],
    ["1.2k and rising", "bound", 1200, "rising"],
    ["300 climbing", "bound", 300, "rising"],
    ["0.55, rising", "bound", 0.55, "rising"],
    ["0.55 rising slowly", "bound", 0.55, "rising"],
    ["15k (still rising)", "bound", 15_000, "rising"],
    ["15k \u2191", "bound", 15_000, "rising"],
    ["0.6 falling", "bound", 0.6, "falling"],
    ["rising to 1.2", "quantity", 1.2, "rising"],
    ["0.3 rising to 1.2", "quantity", 1.2, "rising"],
    ["climbs slowly up to 15k", "quantity", 15_000, "rising"],
    ["drops to 4.6", "quantity", 4.6, "falling"],
    ["0.5", "quantity", 0.5, undefined],
    ["0.5 to 0.6", "range", undefined, undefined],
  ])("%s is a %s", (typed, kind, value, drift) => {
    const read = parseCell(typed, { kind: "quantity", unit: "ohm" });
    const got = read.kind === "quantity" || read.kind === "bound" ? read : undefined;
    expect([read.kind, got?.quantity.value, got?.drift]).toEqual([kind, value, drift]);
  });

  it("without a figure is asked for one", () => {
    const read = parseCell("rising", { kind: "quantity", unit: "V" });
    expect(read).toMatchObject({
      kind: "unreadable",
      reason: expect.stringContaining("does not say where it was"),
    });
  });

  it.each([
    ["+5V", "15k rising", "unjudged", "It was rising. The rail's capacitors charge from the meter"],
    ["+5V", "0.5 rising", "unjudged", "A short would not rise"],
    ["+12V", "rising to 1.2k", "unjudged", "no plain short"],
    ["+12V", "rising to 1.2", "out-of-limits", "is a short"],
    ["+12V", "3 falling", "out-of-limits", "is a short"],
  ])("across %s as %s is %s: %s", async (rail, typed, verdict, says) => {
    const [found] = await judgeTable(`| Rail | Reading |\n|-|-|\n| ${rail} | ${typed} |\n`, {
      heading: "Resistance to ground",
      front: "received: 2026-03-02",
    });
    expect({ verdict: found?.verdict, sentence: everything(found) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
  });

  it.each([
    ["1", "0.5 rising", "suspect", "a logic signal has no capacitor"],
    ["2", "0.6 falling", "suspect", "no capacitor to discharge"],
    ["1", "1.2 rising", "out-of-limits", "usual is"],
    ["14", "0.3 rising", "within-limits", "which is normal"],
    ["14", "0.02 rising", "unjudged", "which is normal"],
    ["2", "rising to 0.55", "within-limits", "usual is 0.4 V to 0.7 V"],
  ])("at pin %s as %s is %s: %s", async (pin, typed, verdict, says) => {
    const [found] = await judgeTable(
      `| Ref | Pin | Reading |\n|-|-|-|\n| U50 (7404) | ${pin} | ${typed} |\n`,
      {
        heading: "Diode check",
        front: "received: 2026-03-02",
      },
    );
    expect({ verdict: found?.verdict, sentence: everything(found) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
  });
});
