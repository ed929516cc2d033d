// What the diagnosis makes of evidence that is of no single pin: a line that a chip holds, a section that stands still, rails
// and chips that fail together, a part that measured wrong with something across it, tables measured the wrong way.
import { describe, expect, test } from "vitest";
import { nextReading } from "../../../server/src/compute/diagnosis/next-reading";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, reservoir: C1, source: invented }
  "+12V": { nominal: 12 V, tolerance: 5 %, net: V12, reservoir: C2, source: invented }
  "-12V": { nominal: -12 V, tolerance: 5 %, net: V12N, reservoir: C3, source: invented }
parts:
  U1: { device: 74LS123 }
  U2: { device: 74LS74 }
  U3: { device: 74LS04 }
  U4: { device: 74LS04, socketed: true }
  R1: { value: 10k }
  RN1: { value: 2k2 }
  D1: { device: 1N4148 }
  C1: { value: 1000 uF 16 V }
  C2: { value: 1000 uF 25 V }
  C3: { value: 1000 uF 25 V }
  C4: { value: 10 nF }
  Q1: { device: 2N3904 }
  Q2: { device: 2N3904 }
  Q3: { device: 2N3904 }
  J1: { value: header 6 }
nets:
  GND: [U1.8, U2.7, U3.7, U4.7, C1.2, C2.2, C3.2, C4.2, J1.1, Q1.1, Q2.1, Q3.1]
  VCC: [U1.16, U2.14, U3.14, U4.14, C1.1, R1.2, D1.1, J1.2, RN1.1]
  V12: [C2.1, J1.3]
  V12N: [C3.1, J1.4]
  DELAY: [R1.1, D1.2, U3.1]
  LINE: [U3.3, U4.2, J1.5, RN1.5]
  GO: [U1.1, J1.6]
  FIRED: [U1.13, U3.5]
  TIME: [U1.15, C4.1]
  B1: [Q1.2, U3.2]
  B2: [Q2.2, U3.4]
  B3: [Q3.2, U3.6]
`;

async function of(body: string) {
  const found = await diagnosedOn(BOARD, body);
  return { ...found, advice: nextReading(found.input, found.result) };
}

describe("a line and the chip that holds it", () => {
  const low = table("Logic states", "Ref | Pin | State", "U3 | 3 | L");

  test("free without the chip: the chip, whatever level is the right one", async () => {
    const { first, input } = await of(
      low + table("Logic states with U4 out", "Ref | Pin | State", "U3 | 3 | H"),
    );
    expect(input.findings).toContainEqual(expect.objectContaining({ sign: "held-by", refs: ["U4"] }));
    expect(first).toBe("U4");
  });

  test("the same without the chip: nothing is held by it", async () => {
    const { input } = await of(low + table("Logic states with U4 out", "Ref | Pin | State", "U3 | 3 | L"));
    expect(input.findings).toEqual([]);
  });
});

describe("a section that is triggered", () => {
  const states = (out: string, clear: string): string =>
    table(
      "Logic states",
      "Ref | Pin | State",
      "U1 | 1 | pulse",
      "U1 | 2 | H",
      `U1 | 3 | ${clear}`,
      `U1 | 13 | ${out}`,
    );

  test("and does not fire accuses the chip and what sets its time", async () => {
    const { result } = await of(states("L", "H"));
    const ids = result.ranked.slice(0, 2).map(({ suspect }) => suspect.id);
    expect(ids).toContain("U1");
    expect(result.ranked.some(({ suspect }) => suspect.id === "C4")).toBe(true);
  });

  test.each([
    ["fires", states("pulse", "H")],
    ["is cleared", states("L", "L")],
  ])("and %s says nothing of it", async (_, log) => {
    const { input } = await of(log);
    expect(input.findings.some((one) => one.kind === "sign" && one.sign === "section-still")).toBe(false);
  });
});

describe("a part by itself", () => {
  test("a resistor that reads next to nothing has something across it", async () => {
    const { first, result } = await of(table("Resistance", "Ref | Reading", "R1 | 2 ohm"));
    const share = (id: string) => result.ranked.find(({ suspect }) => suspect.id === id)?.probability ?? 0;
    expect(first).not.toBe("R1");
    expect(share("D1")).toBeGreaterThan(5 * share("R1"));
  });

  test("half of its value is what lies beside it, and says nothing", async () => {
    const { input } = await of(table("Resistance", "Ref | Reading", "R1 | 5.1k"));
    expect(input.findings).toEqual([]);
  });

  test("an element of a network is read by its two pins", async () => {
    const rows = (ohms: string): string =>
      table(
        "Resistors",
        "From | To | Reading | Expected",
        "RN1 | 1-4 | 2.2k | 2k2",
        `RN1 | 1-5 | ${ohms} | 2k2`,
      );
    expect((await of(rows("OL"))).first).toBe("RN1");
    expect((await of(rows("2.19k"))).input.findings).toEqual([]);
  });
});

describe("what fails together", () => {
  const rails = (third: string): string =>
    table("Supply rails", "Rail | Reading", "+5V | 0.00 V", "+12V | 0.01 V", `-12V | ${third}`);

  test("all rails at nothing: what comes in", async () => {
    const { input, first } = await of(rails("0.00 V"));
    expect(input.findings).toHaveLength(1);
    expect(["J1", "outside the mains, its fuse and switch, the transformer"]).toContain(first);
  });

  test("one of them alive: each rail by itself", async () => {
    const { input } = await of(rails("-12.1 V"));
    expect(input.findings.map((one) => one.kind === "sign" && one.sign)).toEqual([
      "rail-wrong",
      "rail-wrong",
    ]);
  });

  test("every transistor open from its base, with a diode the long way: swapped leads", async () => {
    const junctions = (back: string): string =>
      table(
        "Transistor junctions",
        "Ref | B-E | B-C | C-E",
        "Q1 | OL | OL | 0.51",
        "Q2 | OL | OL | 0.52",
        `Q3 | ${back} | OL | 0.51`,
      );
    const { input } = await of(junctions("OL"));
    expect(input.findings).toEqual([
      expect.objectContaining({ kind: "table", mistake: "the leads were reversed" }),
    ]);
    expect((await of(junctions("0.66"))).input.findings.some(({ kind }) => kind === "table")).toBe(false);
  });
});

describe("the next reading", () => {
  test("tells what is left without what it looks for", async () => {
    const { advice } = await of(table("Resistance", "Ref | Reading", "R1 | 2 ohm"));
    expect(advice.best?.reason).toMatch(/would (?:speak for|settle) .+; without it .+ is left with .+%\./);
    expect(advice.none).toBeUndefined();
  });

  test("where there is none the reason is given", async () => {
    const { advice } = await of("Nothing yet.\n");
    expect(advice.best).toBeUndefined();
    expect(advice.none).toBe("Nothing was found wrong, so nothing is suspected.");
  });
});
