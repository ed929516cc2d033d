// What places that are alike say of one that reads otherwise, and what moves says of what stands. Each beside a log that only looks so.
import { describe, expect, test } from "vitest";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, source: invented }
circuits:
  display: { title: Display }
clocks:
  - { ref: U1, pin: "1", nominal: 1 MHz, tolerance: 1 %, from: Y1, source: invented }
parts:
  U1: { device: 74LS04 }
  U2: { device: 74LS541 }
  U3: { device: "7447", circuit: display }
  U4: { device: 74LS541 }
  Y1: { device: oscillator-14, value: 1 MHz oscillator can }
  RN1: { value: 5 x 10k, package: SIP-6 }
  R1: { value: 220k }
  R2: { value: 220k }
  R3: { value: 220k }
  R4: { value: 10k }
  R5: { value: 1k }
  Q1: { device: 2N3904 }
  Q2: { device: 2N3904 }
  Q3: { device: 2N3904 }
  J1: { value: header 10 }
nets:
  GND: [U1.7, U4.10, U2.10, U2.1, U2.19, U3.8, RN1.1, Q1.1, Q2.1, Q3.1, J1.1, Y1.7]
  VCC: [U1.14, U4.20, U2.20, U3.16, R1.1, R2.1, R3.1, R5.1, Y1.14]
  COL_1: [Q1.3, R1.2]
  COL_2: [Q2.3, R2.2]
  COL_3: [Q3.3, R3.2]
  BASE_1: [Q1.2, R4.2]
  DRIVE: [R4.1, U1.4]
  PULL: [U1.3, R5.2]
  CLK: [Y1.8, U1.1]
  ROW_1: [RN1.2, U2.2, U4.2, J1.3]
  ROW_2: [RN1.3, U2.3, J1.4]
  A: [U3.7, J1.5]
  B: [U3.1, J1.6]
  C: [U3.2, U1.5]
  D: [U3.6, U1.9]
  SEG_A: [U3.13, J1.7]
  SEG_B: [U3.12, J1.8]
  LT_N: [U3.3, J1.9]
  BI_N: [U3.4, J1.10]
`;

const of = async (body: string) => {
  const found = await diagnosedOn(BOARD, body);
  const { findings } = found.input;
  return { ...found, signs: findings.flatMap((one) => (one.kind === "sign" ? one.sign : [])) };
};

describe("ohms to ground", () => {
  const ohms = (...rows: readonly string[]): string =>
    table("Resistance to ground", "Ref | Pin | Ohms", ...rows);

  test("of one net that differ: the place that reads open hangs off it", async () => {
    const { signs, first } = await of(ohms("J1 | 3 | OL", "U2 | 2 | 9.97 k", "J1 | 4 | 9.95 k"));
    expect(signs).toEqual(["net-open"]);
    expect(first).toBe("joint J1.3");
  });

  test("of one net alike: its network", async () => {
    const { signs } = await of(ohms("J1 | 3 | OL", "U2 | 2 | OL", "J1 | 4 | 9.95 k"));
    expect(signs).not.toContain("net-open");
  });

  test("of a leg that reads open where its sisters do not: what leads from there", async () => {
    const { signs, first } = await of(ohms("Q1 | 3 | 219 k", "Q2 | 3 | OL", "Q3 | 3 | 217 k"));
    expect(signs).toEqual(["stage"]);
    expect(first).toBe("R2");
  });

  test.each([
    ["sisters that do not agree", "Q1 | 3 | 219 k", "Q2 | 3 | OL", "Q3 | 3 | 80 k"],
    ["one sister", "Q1 | 3 | 219 k", "Q2 | 3 | OL"],
  ])("%s say nothing", async (_, ...rows) => {
    expect((await of(ohms(...rows))).signs).not.toContain("stage");
  });
});

describe("a clock under a meter of volts", () => {
  const volts = (reading: string, note = ""): string =>
    table("Voltages", "Ref | Pin | V | Note", `U1 | 1 | ${reading} | ${note}`);

  test.each([
    ["at its low end", "0.13", "", true],
    ["at its high end", "4.9", "", true],
    ["in between, as the mean of what runs", "1.9", "", false],
    ["low, and said to move", "0.2", "pulsing", false],
  ])("%s", async (_, reading, note, isDead) => {
    expect((await of(volts(reading, note))).signs.includes("clock-dead")).toBe(isDead);
  });
});

describe("two pins of one net on the diode range", () => {
  const drops = (own: string): string =>
    table(
      "Diode check",
      "Ref | Pin | Drop",
      `U2 | 2 | ${own}`,
      "U2 | 3 | 0.54",
      "U2 | 4 | 0.54",
      "U2 | 5 | 0.541",
      "U4 | 2 | 0.54",
    );

  test("the one that is unlike the rest of its chip is off the net", async () => {
    const { input } = await of(drops("0.73"));
    expect(input.findings).toContainEqual(
      expect.objectContaining({ kind: "net", net: "ROW_1", apart: { ref: "U2", pin: "2" } }),
    );
  });
});

describe("a decoder without a word", () => {
  const states = (blanked: string): string =>
    table(
      "Logic states",
      "Ref | Pin | State",
      "U3 | 7 | pulse",
      "U3 | 1 | pulse",
      "U3 | 2 | pulse",
      "U3 | 6 | pulse",
      "U3 | 3 | high",
      `U3 | 4 | ${blanked}`,
      "U3 | 13 | high",
      "U3 | 12 | high",
    );

  test("is silent while its inputs move", async () => {
    const { signs, first } = await of(states("high"));
    expect(signs).toContain("chip-silent");
    expect(first).toBe("U3");
  });

  test("is not where it is told to be dark", async () => {
    expect((await of(states("low"))).signs).not.toContain("chip-silent");
  });
});

describe("corrosion beneath a part", () => {
  const seen = (note: string): string =>
    table("Inspection", "Item | Found | Note", `U2 socket | corroded | ${note}`);

  test("is hardly of the part itself", async () => {
    const { share } = await of(seen(""));
    expect(share("U2")).toBeLessThan(0.3);
  });

  test("is none any more where it was renewed", async () => {
    expect((await of(seen("new socket fitted"))).input.findings).toEqual([]);
  });
});
