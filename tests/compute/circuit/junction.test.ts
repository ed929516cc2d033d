import { describe, expect, test } from "vitest";
import { judgeJunctions, junctionWindow } from "../../../server/src/compute/circuit/junction";
import {
  EXPECTED,
  isJunctionType,
  JUNCTION_PAIRS,
  JUNCTION_TYPES,
} from "../../../server/src/compute/circuit/junction-table";
import { words } from "../../support/words";
import { reason, ruling } from "./support";

const OL = Number.POSITIVE_INFINITY;
const NPN = { be: 0.66, bc: 0.64, ce: OL, eb: OL, cb: OL, ec: OL };
const SETS = {
  NPN,
  PNP: { be: OL, bc: OL, ce: OL, eb: 0.66, cb: 0.64, ec: OL },
  "NPN-Darlington": { be: 1.2, bc: 0.62, ce: OL, eb: OL, cb: OL, ec: 0.52 },
  "PNP-Darlington": { be: OL, bc: OL, ce: 0.52, eb: 1.2, cb: 0.62, ec: OL },
  "N-MOSFET": { be: OL, bc: OL, ce: OL, eb: OL, cb: OL, ec: 0.52 },
  SCR: { be: 0.7, bc: OL, ce: OL, eb: OL, cb: OL, ec: OL },
} as const;

describe("a sound set of six", () => {
  test.each(JUNCTION_TYPES)("%s disproves nothing and proves nothing", (type) => {
    const found = judgeJunctions({ type, readings: SETS[type] });
    ruling(found, "within-limits");
    expect(found.ok && found.hints).toEqual([]);
  });
  test.each(JUNCTION_TYPES)("%s with any pair shorted is not", (type) => {
    for (const pair of JUNCTION_PAIRS) {
      const found = judgeJunctions({ type, readings: { ...SETS[type], [pair]: 0.003 } });
      // A MOSFET's charged gate turns the channel on, which is no defect.
      ruling(found, type === "N-MOSFET" && pair === "ce" ? "suspect" : "out-of-limits");
    }
  });
  test.each(JUNCTION_TYPES)("%s with an expected drop missing is open", (type) => {
    const drops = JUNCTION_PAIRS.filter((pair) => EXPECTED[type][pair].kind === "drop");
    expect(drops.length).toBeGreaterThan(0);
    for (const pair of drops) {
      const found = ruling(
        judgeJunctions({ type, readings: { ...SETS[type], [pair]: OL } }),
        "out-of-limits",
      );
      expect(words(found.pairs.find((entry) => entry.pair === pair))).toMatch(/reads open; usual is/);
    }
  });
});

describe("in place against out of circuit", () => {
  test("a lowered drop is suspect on the board, out of limits on the bench", () => {
    const readings = { ...NPN, be: 0.31 };
    ruling(judgeJunctions({ type: "NPN", readings }), "suspect");
    ruling(judgeJunctions({ type: "NPN", readings, inCircuit: false }), "out-of-limits");
  });
  test("a reading where open is expected likewise", () => {
    const readings = { ...NPN, ce: 1.1 };
    ruling(judgeJunctions({ type: "NPN", readings }), "suspect");
    ruling(judgeJunctions({ type: "NPN", readings, inCircuit: false }), "out-of-limits");
  });
  test("a raised drop is the part's in both: nothing beside it raises a drop", () => {
    const readings = { ...NPN, be: 0.95 };
    ruling(judgeJunctions({ type: "NPN", readings }), "out-of-limits");
    ruling(judgeJunctions({ type: "NPN", readings, inCircuit: false }), "out-of-limits");
  });
  test("a drop within the uncertainty of its window is suspect", () => {
    ruling(judgeJunctions({ type: "NPN", readings: { be: 0.805 }, uncertainty: 0.01 }), "suspect");
  });
});

describe("Darlingtons", () => {
  test("take the two junctions that would be too much for a single transistor", () => {
    ruling(judgeJunctions({ type: "NPN-Darlington", readings: { be: 1.25 } }), "within-limits");
    ruling(judgeJunctions({ type: "NPN", readings: { be: 1.25 } }), "out-of-limits");
  });
  test("their built-in resistors and diode are not judged, a short is", () => {
    const readings = { eb: 0.9, ec: 0.55 };
    ruling(judgeJunctions({ type: "NPN-Darlington", readings }), "unjudged");
    ruling(judgeJunctions({ type: "NPN-Darlington", readings: { ec: 0.001 } }), "out-of-limits");
  });
  test("the device's own window comes first, with its source", () => {
    const windows = { "base-emitter": [1.0, 1.3] as const };
    const given = {
      type: "NPN-Darlington",
      readings: { be: 0.7 },
      windows,
      windowSource: "this board's file",
    } as const;
    const found = ruling(judgeJunctions(given), "suspect");
    expect(words(found.pairs[0])).toMatch(/usual is 1 V to 1\.3 V/);
    expect(found.source).toBe("this board's file");
    expect(junctionWindow("NPN-Darlington", "base-emitter")).toEqual([0.6, 1.4]);
  });
});

describe("hints", () => {
  test("all junctions the other way round: PNP, or the leads", () => {
    const found = judgeJunctions({ type: "NPN", readings: SETS.PNP });
    expect(ruling(found, "out-of-limits").hints[0]?.suggests).toMatch(/the part is PNP, or the leads/);
  });
  test("collector and emitter swapped, only beyond the uncertainty", () => {
    const readings = { be: 0.64, bc: 0.67 };
    const [hint] = ruling(judgeJunctions({ type: "NPN", readings }), "within-limits").hints;
    expect(hint?.suggests).toMatch(/swapped/);
    expect(
      ruling(judgeJunctions({ type: "NPN", readings, uncertainty: 0.02 }), "within-limits").hints,
    ).toEqual([]);
    expect(ruling(judgeJunctions({ type: "NPN", readings: { be: 0.64 } }), "within-limits").hints).toEqual(
      [],
    );
  });
});

describe("input", () => {
  test("names its leads by type", () => {
    const found = ruling(judgeJunctions({ type: "N-MOSFET", readings: { ec: OL } }), "out-of-limits");
    expect(words(found.pairs[0])).toMatch(/^Source to drain reads open/);
    expect(
      words(ruling(judgeJunctions({ type: "SCR", readings: { ce: 0 } }), "out-of-limits").pairs[0]),
    ).toMatch(/^Anode to cathode/);
  });
  test("a negative drop is impossible, unless the meter's zero explains it", () => {
    ruling(judgeJunctions({ type: "NPN", readings: { be: -0.3 } }), "impossible");
    ruling(judgeJunctions({ type: "NPN", readings: { ce: -0.001 }, uncertainty: 0.002 }), "out-of-limits");
  });
  test("no reading, not a number and an empty window are refused", () => {
    expect(reason(judgeJunctions({ type: "NPN", readings: {} }))).toMatch(/None of the six/);
    expect(reason(judgeJunctions({ type: "NPN", readings: { be: Number.NaN } }))).toMatch(/be reading/);
    expect(
      reason(judgeJunctions({ type: "NPN", readings: { be: 1 }, windows: { "base-emitter": [0.8, 0.5] } })),
    ).toMatch(/empty/);
  });
  test("families without junctions are told apart", () => {
    expect(isJunctionType("NPN")).toBe(true);
    expect(isJunctionType("TTL")).toBe(false);
  });
});
