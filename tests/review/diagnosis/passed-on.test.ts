// What is told apart by what a part passes on: one resistor of a network, fuses that ring, a multiplexer whose inputs stand still.
import { describe, expect, test } from "vitest";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, source: invented }
parts:
  U1: { device: 7406 }
  U2: { device: 74LS151 }
  RN1: { value: "4 x 47, DIP-8" }
  F1: { value: 1 A }
  F2: { value: 2 A }
  J1: { value: header 6 }
nets:
  GND: [U1.7, U2.8, U2.7, J1.1]
  VCC: [U1.14, U2.16, J1.2, F1.2]
  IN5: [F1.1, J1.6]
  BAR_A_D: [U1.2, RN1.1]
  BAR_A: [RN1.8, J1.3]
  BAR_B_D: [U1.4, RN1.2]
  BAR_B: [RN1.7, J1.4]
  D0: [U2.4]
  D1: [U2.3]
  D2: [U2.2]
  D3: [U2.1]
  SA: [U2.11]
  SB: [U2.10]
  SC: [U2.9]
  Y: [U2.5, J1.5]
`;

const of = (body: string) => diagnosedOn(BOARD, body);

describe("one resistor of a network", () => {
  const levels = (far: string) =>
    table(
      "Logic levels",
      "Ref | Pin | Reading",
      "RN1 | 1 | 0.05 V",
      `RN1 | 8 | ${far} V`,
      "RN1 | 2 | 0.3 V",
      "RN1 | 7 | 2.6 V",
    );

  test("with more across it than it would bear is open, and its own two joints are asked about", async () => {
    const { input } = await of(levels("4.4"));
    expect(input.findings).toContainEqual(
      expect.objectContaining({
        sign: "stage",
        refs: ["RN1"],
        pins: [
          { ref: "RN1", pin: "8" },
          { ref: "RN1", pin: "1" },
        ],
      }),
    );
  });

  test("with what a lit bar leaves across it is none", async () => {
    const { input } = await of(levels("2.7"));
    expect(input.findings).not.toContainEqual(expect.objectContaining({ sign: "stage" }));
  });
});

describe("fuses in one sentence", () => {
  const dead = table("Supply rails, loaded", "Rail | Reading", "+5V | 0.1 V");

  test("that ring, or read next to no ohms, are less likely", async () => {
    for (const words of ["F1 and F2 beep.", "Fuses F1, F2: 0.2 ohm each."]) {
      const { input } = await of(`${dead}\n${words}\n`);
      expect(input.against).toContainEqual({ ref: "F1", by: "said-measured" });
      expect(input.against).toContainEqual({ ref: "F2", by: "said-measured" });
    }
  });

  test("are not where they should ring, or do not", async () => {
    for (const words of ["F1 and F2 should beep.", "F1 and F2: 2.5 k."]) {
      const { input } = await of(`${dead}\n${words}\n`);
      expect(input.against ?? []).not.toContainEqual(expect.objectContaining({ ref: "F1" }));
    }
  });
});

describe("a multiplexer that says nothing", () => {
  const states = (data: string) =>
    table(
      "Logic states",
      "Ref | Pin | State",
      ...["11", "10", "9", "1"].map((pin) => `U2 | ${pin} | pulsing`),
      ...["2", "3", "4"].map((pin) => `U2 | ${pin} | ${data}`),
      "U2 | 7 | L",
      "U2 | 5 | L",
    );

  test("while what it may pass moves is silent", async () => {
    const { input } = await of(states("pulsing"));
    expect(input.findings).toContainEqual(expect.objectContaining({ sign: "chip-silent", ref: "U2" }));
  });

  test("may pass what stands still", async () => {
    const { input } = await of(states("L"));
    expect(input.findings).not.toContainEqual(expect.objectContaining({ sign: "chip-silent" }));
  });
});
