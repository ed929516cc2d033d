// The same facts in a table and in the words of somebody who writes none: the diagnosis is the same.
import { describe, expect, test } from "vitest";
import { diagnose } from "../../../server/src/compute/diagnosis";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, source: invented }
  "+12V": { nominal: 12 V, tolerance: 5 %, net: V12, source: invented }
circuits:
  inputs: { title: Switch inputs }
  drivers: { title: Drivers }
parts:
  U1: { device: 74LS04, circuit: inputs }
  U2: { device: 74LS138, circuit: inputs }
  VR1: { device: "7812", circuit: drivers }
  Q1: { device: TIP102, circuit: drivers }
  Q2: { device: TIP102, circuit: drivers }
  D1: { device: 1N4004, circuit: drivers }
  D2: { device: 1N4004, circuit: drivers }
  R1: { value: 10k, circuit: inputs }
  RN1: { value: 470, circuit: drivers }
  C1: { value: 10 uF 25 V, circuit: drivers }
  J1: { circuit: inputs }
nets:
  GND: [U1.7, U2.8, Q1.3, Q2.3, VR1.2, C1.2]
  VCC: [U1.14, U2.16, R1.1, RN1.1]
  V12: [VR1.3, D1.1, D2.1, C1.1]
  RAW: [VR1.1]
  IN_1: [J1.1, U1.1, R1.2]
  OUT_1: [U1.2, U2.1]
  IN_2: [J1.2, U1.3]
  OUT_2: [U1.4, U2.2]
  BASE_1: [RN1.2, Q1.1]
  BASE_2: [RN1.3, Q2.1]
  COIL_1: [Q1.2, D1.2]
  COIL_2: [Q2.2, D2.2]
`;

/** The first suspect with its share, and whether anything was found wrong. */
async function told(body: string) {
  const { input } = await diagnosedOn(BOARD, body);
  const found = diagnose(input);
  if (!found.ok) throw new Error("no diagnosis");
  const [first] = found.ranked;
  return { wrong: input.findings.length > 0, first: first?.suspect.id, share: first?.probability ?? 0 };
}

/** What is said of one part and another place of the same log may be worth this much more or less. */
const NEAR = 0.1;

const CASES: readonly (readonly [what: string, table: string, ...words: string[]])[] = [
  [
    "levels of pins",
    "## Logic levels\n\n| Ref | Pin | Volts |\n|-|-|-|\n| U1 | 1 | 4.9 |\n| U1 | 2 | 4.8 |\n| U1 | 3 | 4.9 |\n| U1 | 4 | 0.1 |\n",
    "## Logic levels\n\n- U1 pin 1: 4.9 V\n- U1 pin 2: 4.8 V\n- U1 p3: 4.9 V\n- pin 4 of U1: 0.1 V\n",
    "## Logic levels\n\nU1: 1 4.9, 2 4.8, 3 4.9, 4 0.1 V.\n",
    "## What it does\n\nU1 pins 1 and 3 both 4.9 V, pin 2 4.8 V (0.1 expected), pin 4 0.1 V.\n",
  ],
  [
    "states",
    "## Logic states\n\n| Ref | Pin | State |\n|-|-|-|\n| U1 | 1 | pulsing |\n| U1 | 2 | high |\n| U1 | 3 | pulsing |\n| U1 | 4 | pulsing |\n",
    "## Probe\n\nU1: pins 1, 3 and 4 toggle, pin 2 stays high.\n",
    "## Logic states of U1\n\n1, 3 and 4 pulsing, 2 stuck high.\n",
  ],
  [
    "rails",
    "## Supply rails\n\n| Rail | DC | Ripple |\n|-|-|-|\n| +5V | 5.02 | 12 mV |\n| +12V | 3.1 | 4 mV |\n",
    "## Supplies\n\n- +5V: 5.02, ripple 12 mV\n- +12V: 3.1, ripple 4 mV\n",
    "## Power\n\n+5 V is 5.02 V with 12 mV of ripple, +12 V only 3.1 V with 4 mV of ripple.\n",
  ],
  [
    "junctions",
    "## Transistor junctions\n\n| Ref | B-E | B-C | C-E |\n|-|-|-|-|\n| Q1 | 0.74 | 0.65 | OL |\n| Q2 | 0.41 | 0.01 | 0.01 |\n",
    "## Darlingtons\n\n- Q1 0.74 / 0.65 / OL\n- Q2 0.41 / 0.01 / 0.01\n",
    "## Darlingtons\n\nQ1 BE 0.74, BC 0.65, CE open. Q2 BE 0.41, BC 0.01, CE 0.01.\n",
    "## Transistors in place\n\n| Junction | Q1 | Q2 |\n|-|-|-|\n| base - emitter | 0.74 | 0.41 |\n| base - collector | 0.65 | 0.01 |\n| collector - emitter | OL | 0.01 |\n",
    "## Junctions\n\n| TIP102 | be | bc | ce |\n|-|-|-|-|\n| Q1 | 0.74 | 0.65 | OL |\n| Q2 | 0.41 | 0.01 | 0.01 |\n",
  ],
  [
    "connections",
    "## Continuity\n\n| From | To | Reading |\n|-|-|-|\n| J1-1 | U1-1 | no beep |\n| J1-2 | U1-3 | beep |\n",
    "## Continuity\n\nJ1-1 to U1-1 does not ring, J1-2 to U1-3 rings.\n",
    "## Rung out\n\n| Track | Rings? |\n|-|-|\n| J1-1 → U1-1 | N |\n| J1-2 → U1-3 | y |\n",
  ],
  [
    "a network",
    "## Resistance\n\n| Ref | Between | Ohms |\n|-|-|-|\n| RN1 | 1-2 | 468 |\n| RN1 | 1-3 | OL |\n",
    "## Resistance\n\nRN1 from pin 1: to 2 468, to 3 open.\n",
  ],
];

describe("what is said in words is heard as in a table", () => {
  for (const [what, inTable, ...words] of CASES)
    test.each(words)(`${what}: %s`, async (said) => {
      const expected = await told(inTable);
      expect(expected.wrong).toBe(true);
      const heard = await told(said);
      expect(heard.first).toBe(expected.first);
      expect(Math.abs(heard.share - expected.share)).toBeLessThan(NEAR);
    });
});

describe("no reading is made of", () => {
  test.each([
    ["what it should be", "U1 pin 2 should be 4.8 V."],
    ["what was put on by hand", "I held U1 pin 1 high with a clip, U1-2 4.8 V."],
    ["another board", "On another board U1 pin 2 has 4.8 V."],
    ["what would be", "If U1 pin 2 is high, the chip is gone."],
    ["a state that is denied", "U1 pin 2 never goes high."],
  ])("%s", async (_, said) => {
    expect((await told(`## Notes\n\n${said}\n`)).wrong).toBe(false);
  });
});

test("a ditto mark stands for the part above it", async () => {
  const head = "## Logic levels\n\n| Ref | Pin | Volts |\n|-|-|-|\n";
  const rows = (of: string) =>
    `| U1 | 1 | 4.9 |\n| ${of} | 2 | 4.8 |\n| ${of} | 3 | 4.9 |\n| ${of} | 4 | 0.1 |\n`;
  expect(await told(head + rows('"'))).toEqual(await told(head + rows("U1")));
});
