import { describe, expect, test } from "vitest";
import { netAgreement } from "../../../server/src/compute/nets/agreement";
import type { NetReading, NetReadingKind } from "../../../server/src/compute/nets/net-reading";
import { words } from "../../support/words";
import { reason } from "../circuit/support";

/** "U1.3 0.58, U2.5 open": readings of one net, each with an uncertainty of 5 mV or as given. */
const read = (text: string, uncertainty = 0.005): NetReading[] =>
  text.split(", ").map((entry) => {
    const [place = "", value = ""] = entry.split(" ");
    const [ref = "", pin = ""] = place.split(".");
    return { ref, pin, value: value === "open" ? Number.POSITIVE_INFINITY : Number(value), uncertainty };
  });

function disagree(text: string, kind: NetReadingKind = "drop", uncertainty?: number) {
  const found = netAgreement({ net: "SW_ROW_1", kind, readings: read(text, uncertainty) });
  if (!found.ok) throw new Error(found.reason);
  return found.disagreements;
}

describe("pins of one net", () => {
  test.each([
    "U1.3 0.58",
    "U1.3 0.58, U2.5 0.58",
    "U1.3 0.58, U2.5 0.605",
    "U1.3 open, U2.5 open",
    "U1.3 0, U2.5 0",
    // 20 mV of margin and twice the uncertainty: 30 mV is still agreement.
    "U1.3 0.580, U2.5 0.6099",
  ])("%s agree", (text) => {
    expect(disagree(text)).toEqual([]);
  });

  test("a pin that differs is cut off from the others, and both sides are named", () => {
    const found = disagree("U1.3 0.58, U7.2 0.71, U2.5 0.585");
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ verdict: "out-of-limits" });
    expect(found[0]?.low.map(({ ref }) => ref)).toEqual(["U1", "U2"]);
    expect(found[0]?.high.map(({ ref }) => ref)).toEqual(["U7"]);
    expect(found[0]?.difference).toBeCloseTo(0.125, 10);
    expect(words(found[0])).toMatch(/U2 pin 5 \(0\.585 V\) against U7 pin 2 \(0\.71 V\)/);
    expect(found[0]?.formula).toBe("|0.71 V - 0.585 V| > 30 mV");
  });

  test("open against a drop is a break, whatever the margin", () => {
    const found = disagree("U1.3 0.58, U2.5 open");
    expect(found[0]).toMatchObject({ verdict: "out-of-limits", difference: Number.POSITIVE_INFINITY });
    expect(words(found[0])).toMatch(/U2 pin 5 \(open\)/);
  });

  test("two breaks make three sides", () => {
    const found = disagree("U1.3 0.45, U2.5 0.58, U7.2 open");
    expect(found).toHaveLength(2);
    expect(found.map(({ low, high }) => [low[0]?.ref, high[0]?.ref])).toEqual([
      ["U1", "U2"],
      ["U2", "U7"],
    ]);
    expect(found[0]?.high).toHaveLength(1);
  });

  test("creeping apart step by step is a resistive path, and only suspect", () => {
    const found = disagree("U1.3 0.58, U2.5 0.60, U7.2 0.62");
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ verdict: "suspect" });
    expect(words(found[0])).toMatch(/[Rr]esistive joint/);
  });

  test("a coarse meter explains what a fine one does not", () => {
    expect(disagree("U1.3 0.58, U2.5 0.66", "drop", 0.005)).toHaveLength(1);
    expect(disagree("U1.3 0.58, U2.5 0.66", "drop", 0.05)).toEqual([]);
  });

  test("one uncertain reading does not excuse the certain ones", () => {
    const readings = [...read("U1.3 0.50, U2.5 0.60"), ...read("U7.2 0.55", 0.2)];
    const found = netAgreement({ net: "N", kind: "drop", readings });
    expect(found.ok && found.disagreements.map(({ verdict }) => verdict)).toEqual(["suspect"]);
  });

  test("resistances and levels have margins of their own", () => {
    expect(disagree("U1.3 1000, U2.5 1040", "resistance")).toEqual([]);
    expect(disagree("U1.3 1000, U2.5 1100", "resistance")).toHaveLength(1);
    expect(disagree("U1.3 0.5, U2.5 1.5", "resistance")).toEqual([]);
    expect(disagree("U1.3 3.4, U2.5 3.45", "level")).toEqual([]);
    expect(disagree("U1.3 3.4, U2.5 0.2", "level")).toHaveLength(1);
  });

  test("a margin may be given", () => {
    const readings = read("U1.3 0.58, U2.5 0.60");
    const found = netAgreement({ net: "N", kind: "drop", readings, margin: () => 0 });
    expect(found.ok && found.disagreements).toHaveLength(1);
  });

  test("what is no reading is refused with its place", () => {
    const bad = (text: string, kind: NetReadingKind = "drop") =>
      reason(netAgreement({ net: "N", kind, readings: read(text) }));
    expect(bad("U1.3 x")).toMatch(/reading at U1 pin 3 .* not a number/);
    expect(bad("U1.3 -0.4, U2.5 0.5")).toMatch(/zero or more/);
    expect(bad("U1.3 open", "level")).toMatch(/level at U1 pin 3 must be a finite number/);
  });
});
