// What feeds a chip decides what its pins may read: rails with their sign, thresholds by the supply, ratings of outputs. Each
// with readings close by that must not be told, and with knowledge that contradicts itself, which judges nothing.

import { describe, expect, it } from "vitest";
import { judgeBlock } from "../../server/src/judge";
import { beside, everything } from "../support/words";
import { openWorld } from "../support/workspace";

interface Told {
  readonly verdict: string;
  readonly sentence: string;
}

/** The judgements of a log's level rows, "U1 7404 | 2 | 3.5", below rails that the log states or a board file gives. */
async function levels(rows: readonly string[], rails: readonly string[] = [], board = ""): Promise<Told[]> {
  const supplies = rails.map((rail) => `| ${rail} |\n`).join("");
  const pins = rows
    .map((row) => {
      const [place = "", pin = "", typed = "", note = ""] = row.split("|").map((cell) => cell.trim());
      const [ref = "", device = ""] = place.split(" ");
      return `| ${ref} | ${device} | ${pin} | ${typed} | ${note} |\n`;
    })
    .join("");
  const file = board
    ? `//- feed.board.yaml\nmendlog-board: 1\nid: feed\ntitle: Feed\nsource: invented\n${board}\n`
    : "";
  const { service } = await openWorld(
    `${file}//- log.md\n---\nmendlog: 1\n${board ? "board: feed\n" : ""}---\n\n${supplies && `## Supply rails\n\n| Rail | Reading |\n|-|-|\n${supplies}\n`}## Logic levels\n\n| Ref | Device | Pin | Reading | Note |\n|-|-|-|-|-|\n${pins}`,
  );
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("not a log");
  return view.doc.blocks.flatMap(({ block }) =>
    [...judgeBlock(block, view.ctx).values()]
      .filter(({ reading }) => reading.measure === "level")
      .map((told) => ({ verdict: told.verdict, sentence: `${everything(told)} ${beside(told)}` })),
  );
}

const one = async (row: string, rails: readonly string[] = [], board = ""): Promise<Told> => {
  const [first] = await levels([row], rails, board);
  if (!first) throw new Error("no reading");
  return first;
};

describe("thresholds of the 4000 series", () => {
  // 7 V and 3 V at 10 V, 11 V and 4 V at 15 V (CD4001B data sheet): 8.6 V and 3.4 V at 12 V.
  it.each([
    ["8.7", "within-limits", "8.7 V is high"],
    ["8.0", "out-of-limits", "between its points at 10 V and 15 V, for +12V"],
    ["3.3", "within-limits", "3.3 V is low"],
    ["3.7", "out-of-limits", "at most 3.4 V"],
  ])("at %s on +12 V is %s", async (typed, verdict, says) => {
    const told = await one(`U1 4011 | 1 | ${typed}`, ["+12V | 12.0"]);
    expect(told).toMatchObject({ verdict, sentence: expect.stringContaining(says) });
  });

  it("are those of the one rail that the supply pin reads, where there are several", async () => {
    const rails = ["+5V | 5.0", "+12V | 12.0"];
    const [, at12] = await levels(["U1 4011 | 14 | 12.1", "U1 4011 | 1 | 5.0"], rails);
    const [, at5] = await levels(["U1 4011 | 14 | 5.0", "U1 4011 | 1 | 5.0"], rails);
    expect([at12?.verdict, at5?.verdict]).toEqual(["out-of-limits", "within-limits"]);
  });

  it("are asked for where nothing tells which rail it is", async () => {
    const told = await one("U1 4011 | 1 | 5.0", ["+5V | 5.0", "+12V | 12.0"]);
    expect(told).toMatchObject({
      verdict: "unjudged",
      sentence: expect.stringContaining("depends on what feeds pin 14 (VDD): +5V or +12V"),
    });
  });

  it("need no answer where every rail gives the same", async () => {
    const rails = ["+5V | 5.0", "+12V | 12.0"];
    expect(await one("U1 4011 | 3 | 0.02", rails)).toMatchObject({ verdict: "within-limits" });
    expect(await one("U1 4011 | 3 | 11.9", rails)).toMatchObject({ verdict: "within-limits" });
  });

  it("judge nothing without any rail", async () => {
    expect(await one("U1 4011 | 3 | 8.0")).toMatchObject({ verdict: "unjudged" });
  });
});

describe("a supply pin", () => {
  const THREE = ["+5V | 5.0", "+12V | 12.0", "-5V | -5.0"];

  it.each([
    ["U1 4116 | 1 | -4.95", "within-limits"],
    ["U1 4116 | 1 | -3.9", "out-of-limits"],
    ["U1 4116 | 1 | 4.95", "out-of-limits"],
    ["U1 4116 | 8 | 11.9", "within-limits"],
    ["U1 4116 | 8 | 5.0", "out-of-limits"],
    ["U1 4164 | 8 | 12.0", "out-of-limits"],
    ["U1 4164 | 8 | 5.0", "within-limits"],
  ])("%s is %s", async (row, verdict) => {
    expect(await one(row, THREE)).toMatchObject({ verdict });
  });

  it("of an amplifier is one of the board's rails with its sign, or suspect where it is none", async () => {
    const rails = ["+5V | 5.0", "+12V | 12.0", "-12V | -12.0"];
    expect(await one("U1 TL082 | 4 | -12.1", rails)).toMatchObject({
      verdict: "within-limits",
      sentence: expect.stringContaining("on the -12V rail"),
    });
    expect(await one("U1 TL082 | 8 | 5.0", rails)).toMatchObject({ verdict: "within-limits" });
    expect(await one("U1 TL082 | 8 | 7.9", rails)).toMatchObject({ verdict: "out-of-limits" });
    // One supply only: V- then is ground.
    expect(await one("U1 TL082 | 4 | 0.01", ["+12V | 12.0"])).toMatchObject({ verdict: "within-limits" });
  });

  it("of a memory on a backup rail is judged by that rail", async () => {
    const board = `rails: { "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC }, VMEM: { nominal: 2.6 V, tolerance: 0.4 V, net: VMEM } }
parts: { U1: { device: "5101" }, U2: { device: "7404" } }
nets: { VMEM: [U1.22, U2.14] }`;
    expect(await one("U1 5101 | 22 | 2.6", [], board)).toMatchObject({ verdict: "within-limits" });
    expect(await one("U1 5101 | 22 | 1.9", [], board)).toMatchObject({ verdict: "out-of-limits" });
    // Logic is not kept alive by anything.
    expect(await one("U2 7404 | 14 | 2.6", [], board)).toMatchObject({ verdict: "out-of-limits" });
    expect(await one("U2 7404 | 14 | 5.0", [], board)).toMatchObject({ verdict: "unjudged" });
  });

  it.each([
    ["the supply pin", "U1 CD4011 | 14 | 11.9"],
    ["a pin that it feeds", "U1 CD4011 | 3 | 6.0"],
  ])("on a net with two voltages judges nothing at %s", async (_which, row) => {
    const board = `rails: { "+12V": { nominal: 12 V, tolerance: 5 %, net: V12 }, ODD: { nominal: 10 V, tolerance: 5 %, net: V12 } }
parts: { U1: { device: CD4011 } }
nets: { V12: [U1.14] }`;
    expect(await one(row, [], board)).toMatchObject({
      verdict: "unjudged",
      sentence: expect.stringContaining("U1.14 on +12V and on ODD"),
    });
  });

  it("with a tolerance that takes in a dead rail judges nothing", async () => {
    const board = `rails: { "-5V": { nominal: -5 V, tolerance: 150 %, net: VBB } }
parts: { U1: { device: CA3130 } }
nets: { VBB: [U1.4] }`;
    expect(await one("U1 CA3130 | 4 | -3.0", [], board)).toMatchObject({ verdict: "unjudged" });
  });
});

describe("an open output", () => {
  const RAILS = ["+5V | 5.0", "+12V | 12.0", "+24V | 24.5"];

  it.each([
    ["U1 7407 | 2 | 24.1", "within-limits"],
    ["U1 7407 | 2 | 33", "out-of-limits"],
    ["U1 7417 | 2 | 11.8", "within-limits"],
    ["U1 7417 | 2 | 24.1", "out-of-limits"],
    ["U1 7405 | 2 | 4.9", "within-limits"],
    ["U1 7405 | 2 | 11.8", "out-of-limits"],
    ["U1 7407 | 2 | 1.4", "out-of-limits"],
    ["U1 ULN2003A | 16 | 1.1", "within-limits"],
    ["U1 ULN2003A | 16 | 24.3", "within-limits"],
    ["U1 74LS04 | 2 | 11.8", "out-of-limits"],
    ["U1 6821 | 38 | 4.9", "within-limits"],
    ["U1 6821 | 38 | 11.8", "out-of-limits"],
    ["U1 UDN2981 | 18 | 23", "within-limits"],
    ["U1 UDN2981 | 18 | 0.2", "within-limits"],
    ["Q1 TIP102 | C | 24.3", "within-limits"],
    ["Q1 TIP102 | C | 140", "out-of-limits"],
    ["Q1 TIP102 | C | 8.0", "unjudged"],
    ["Q1 TIP102 | B | 1.4", "unjudged"],
  ])("%s is %s", async (row, verdict) => {
    expect(await one(row, RAILS)).toMatchObject({ verdict });
  });

  it("names its rating with the source", async () => {
    const { sentence } = await one("U1 7417 | 2 | 24.1", RAILS);
    expect(sentence).toContain("24.1 V is more than the 15 V an output of a 7417 is rated for");
    expect(sentence).toContain("SN7417 data sheet (Texas Instruments)");
  });
});

describe("a pin that carries no logic level", () => {
  const RAILS = ["+12V | 12.0", "-12V | -12.0"];

  it.each([
    ["U1 TL082 | 1 | -6.2", "unjudged"],
    ["U1 TL082 | 1 | 14.5", "out-of-limits"],
    ["U1 TL082 | 1 | -14.5", "out-of-limits"],
    ["U1 MC1488 | 3 | 10.2", "within-limits"],
    ["U1 MC1488 | 3 | -10.2", "within-limits"],
    ["U1 MC1488 | 3 | 0.3", "out-of-limits"],
    ["U1 MC1489 | 1 | -10.2", "within-limits"],
    ["U1 MC1489 | 1 | 0.1", "unjudged"],
  ])("%s is %s", async (row, verdict) => {
    expect(await one(row, RAILS)).toMatchObject({ verdict });
  });

  it.each([
    ["U1 555 | 3 | 10.6", "within-limits"],
    ["U1 555 | 3 | 0.2", "within-limits"],
    ["U1 555 | 3 | 5.5", "suspect"],
    ["U1 555 | 5 | 8.1", "within-limits"],
    ["U1 555 | 5 | 3.0", "suspect"],
    ["U1 555 | 6 | 5.5", "unjudged"],
    ["U1 LM380 | 8 | 6.1", "within-limits"],
    ["U1 CD4066 | 1 | 5.9", "unjudged"],
    ["U1 CD4066 | 13 | 5.9", "out-of-limits"],
  ])("%s on +12 V is %s", async (row, verdict) => {
    expect(await one(row, ["+12V | 12.0"])).toMatchObject({ verdict });
  });

  it("on a crystal or a clock between the levels is not judged, and one that stands is", async () => {
    expect(await one("U1 8085 | 1 | 1.6", ["+5V | 5.0"])).toMatchObject({ verdict: "unjudged" });
    expect(await one("U1 Z80 | 6 | 1.6", ["+5V | 5.0"])).toMatchObject({ verdict: "unjudged" });
    expect(await one("U1 Z80 | 6 | 4.7", ["+5V | 5.0"])).toMatchObject({ verdict: "within-limits" });
  });
});

describe("a negative voltage", () => {
  it("is impossible only where nothing on the board stands below ground", async () => {
    expect(await one("U1 7404 | 2 | -3.0", ["+5V | 5.0"])).toMatchObject({ verdict: "impossible" });
    expect(await one("U1 7404 | 2 | -3.0", ["+5V | 5.0", "-12V | -12"])).toMatchObject({
      verdict: "out-of-limits",
    });
  });
});

describe("an output that may be off", () => {
  it("between the levels is a doubt, and one that always drives is out of limits", async () => {
    expect(await one("U1 74LS244 | 18 | 1.5", ["+5V | 5.0"])).toMatchObject({
      verdict: "suspect",
      sentence: expect.stringContaining("may be off"),
    });
    expect(await one("U1 74LS04 | 2 | 1.5", ["+5V | 5.0"])).toMatchObject({ verdict: "out-of-limits" });
  });
});
