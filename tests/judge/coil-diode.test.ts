import { describe, expect, it } from "vitest";
import { judgeTable } from "../support/judged";
import { everything } from "../support/words";

/** Judgements of the diode columns of one row of a coil table, in a log that names no board. */
async function diodes(header: string, row: string) {
  const marks = header.replace(/[^|]+/g, "-");
  const judged = await judgeTable(`${header}\n${marks}\n${row}\n`, {
    heading: "Coil resistance",
    front: "received: 2026-03-02",
  });
  return judged.filter(({ reading }) => reading.measure !== "resistance");
}

describe("the diode across a coil", () => {
  it.each([
    ["OL", "out-of-limits", "open or missing"],
    ["open", "out-of-limits", "open or missing"],
    ["0.002", "out-of-limits", "shorted"],
    ["2 mV", "out-of-limits", "shorted"],
    ["short", "out-of-limits", "shorted"],
    ["OL / OL", "out-of-limits", "open both ways"],
    ["OL, OL", "out-of-limits", "open both ways"],
    ["0.002 / 0.002", "out-of-limits", "shorted"],
    ["0.55/0.54", "suspect", "conducts both ways"],
    ["0.22", "suspect", "Schottky"],
    ["1.1", "suspect", "Two in series"],
    // Near misses.
    ["0.55", "within-limits", "Not disproved"],
    ["0.55 V", "within-limits", "Not disproved"],
    ["550 mV", "within-limits", "Not disproved"],
    ["0.55 / OL", "within-limits", "open the other way"],
    ["OL / 0.56", "within-limits", "open the other way"],
    ["0.55 fwd, OL rev", "within-limits", "open the other way"],
    ["0.4", "within-limits", "Not disproved"],
    ["-", "not-measured", "Not measured"],
    // 12 ohm at half a milliampere to two are 6 mV to 24 mV.
    ["0.012", "unjudged", "the winding of 12 \u03a9 itself"],
    ["550", "unjudged", 'write "mV"'],
  ])("%s is %s: %s", async (typed, verdict, says) => {
    const [found] = await diodes("| Coil | Ohms | Diode |", `| Gate | 12 | ${typed} |`);
    expect({ verdict: found?.verdict, sentence: everything(found) }).toEqual({
      verdict,
      sentence: expect.stringContaining(says),
    });
    const told = verdict === "out-of-limits" || verdict === "suspect";
    expect(found?.code).toBe(told ? "coil-diode" : undefined);
  });

  it.each([
    ["0.55", "OL", ["within-limits", "within-limits"], []],
    ["OL", "0.55", ["within-limits", "within-limits"], []],
    ["OL", "OL", ["out-of-limits", "out-of-limits"], ["coil-diode"]],
    ["0.55", "0.002", ["out-of-limits", "out-of-limits"], ["coil-diode"]],
    ["", "OL", ["not-measured", "within-limits"], []],
  ])("%s one way and %s the other is told once", async (one, other, verdicts, codes) => {
    const found = await diodes(
      "| Driver | Ohms | Diode | Diode reversed |",
      `| Q5 | 12 | ${one} | ${other} |`,
    );
    expect(found.map(({ verdict }) => verdict)).toEqual(verdicts);
    expect(found.flatMap(({ code }) => code ?? [])).toEqual(codes);
  });

  it("is read in millivolts where the header says so", async () => {
    const [found] = await diodes("| Coil | Ohms | Diode (mV) |", "| Gate | 12 | 550 |");
    expect(found?.verdict).toBe("within-limits");
  });

  it("leaves the winding to its own judge", async () => {
    const judged = await judgeTable("| Coil | Ohms | Diode |\n|-|-|-|\n| Gate | OL | 0.55 |\n", {
      heading: "Coils",
      front: "received: 2026-03-02",
    });
    expect(judged.map(({ code }) => code)).toEqual([undefined, undefined]);
  });
});
