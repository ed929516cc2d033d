// A rate that is off, a coil's line with its plug off, a node that is pulled nowhere, a short at a test point. Each beside a log that
// only looks so.
import { describe, expect, test } from "vitest";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, source: invented }
  "+30V": { nominal: 30 V, tolerance: 20 %, load: 1 A, net: V30, test-point: TP1, source: invented }
expected:
  - { procedure: frequency, ref: U1, pin: 3, low: 190 Hz, high: 240 Hz, source: invented }
parts:
  U1: { device: NE555 }
  R1: { value: 10k }
  R2: { value: 68k }
  R3: { value: 470 }
  C1: { value: 47n }
  C2: { value: 1000 uF 50 V }
  D1: { device: 1N4004 }
  Q1: { device: TIP102 }
  Q2: { device: 2N3904 }
  Q3: { device: 2N3904 }
  Q4: { device: 2N3904 }
  U2: { device: 74LS42 }
  J1: { value: header 8 }
  TP1: { value: test point }
nets:
  GND: [U1.1, C1.2, C2.2, Q1.3, J1.1, U2.8]
  VCC: [U1.8, U1.4, R1.1, R3.1, U2.16]
  V30: [D1.2, C2.1, TP1.1, J1.2]
  DIS: [R1.2, R2.1, U1.7]
  TIM: [R2.2, C1.1, U1.2, U1.6]
  TICK: [U1.3, J1.3]
  COIL: [Q1.2, D1.1, J1.4]
  BASES: [R3.2, Q2.2, Q3.2, Q4.2]
  SEL_1: [Q2.1, U2.1]
  SEL_2: [Q3.1, U2.2]
  SEL_3: [Q4.1, U2.3]
`;

const of = async (body: string) => {
  const found = await diagnosedOn(BOARD, body);
  const { findings } = found.input;
  return { ...found, signs: findings.flatMap((one) => (one.kind === "sign" ? one.sign : [])) };
};

describe("a timer at another rate", () => {
  const rate = (hertz: string): string => table("Frequency", "Ref | Pin | Reading", `U1 | 3 | ${hertz}`);
  const resistors = table("Resistors", "Ref | Reading", "R1 | 10.1k", "R2 | 67.7k");

  test("is its capacitor where its resistors are right", async () => {
    const { signs, share } = await of(`${rate("21.3 Hz")}\n${resistors}`);
    expect(signs).toContain("rate-off");
    expect(share("C1")).toBeGreaterThan(4 * Math.max(share("R1"), share("R2")));
  });

  test("says nothing at the rate that it should have", async () => {
    expect((await of(rate("214 Hz"))).signs).not.toContain("rate-off");
  });
});

describe("a coil's line", () => {
  const line = (heading: string, volts: string): string =>
    table(heading, "Ref | Pin | Reading", `Q1 | 2 | ${volts}`, "U1 | 8 | 5.0");

  test("at its supply with the plug off: its clamp conducts both ways", async () => {
    const { first } = await of(line("Voltages, J1 unplugged", "30.1"));
    expect(first).toBe("D1");
  });

  test.each([
    ["with its plug on", "Voltages", "30.1"],
    ["low with the plug off", "Voltages, J1 unplugged", "0.9"],
  ])("%s says nothing of it", async (_, heading, volts) => {
    const { findings } = (await of(line(heading, volts))).input;
    expect(findings.some((one) => one.kind === "sign" && one.says.includes("only D1"))).toBe(false);
  });
});

describe("bases that nothing lifts", () => {
  test("are their common resistor, while what they switch moves", async () => {
    const { signs, first } = await of(
      table(
        "Voltages",
        "Ref | Pin | Reading | Note",
        "Q2 | 2 | 0.02 |",
        "Q3 | 2 | 0.02 |",
        "Q4 | 2 | 0.02 |",
        "Q2 | 1 | 2.9 | pulsing",
        "Q3 | 1 | 2.9 | pulsing",
        "Q4 | 1 | 2.8 | pulsing",
      ),
    );
    expect(signs).toContain("pulled-all-along");
    expect(first).toBe("R3");
  });
});

describe("ohms at a test point", () => {
  const ohms = (reading: string): string => table("Short check", "Test point | Reading", `TP1 | ${reading}`);

  test("are those of its rail", async () => {
    expect((await of(ohms("1.9"))).signs).toContain("rail-short");
    expect((await of(ohms("22k"))).signs).not.toContain("rail-short");
  });
});
