// What voltages say of dividers, comparators, optocouplers and timers, of a follower, of lines of one network, and what words say
// was measured of a part by itself.
import { describe, expect, test } from "vitest";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, load: 1 A, net: VCC, source: invented }
  "+12V": { nominal: 12 V, tolerance: 5 %, load: 1 A, net: V12, source: invented }
parts:
  U1: { device: LM339 }
  U2: { device: 4N25 }
  U3: { device: NE555 }
  U4: { device: "8255" }
  R1: { value: 10k }
  R2: { value: 10k }
  R3: { value: 2k2 }
  R4: { value: 10k }
  R5: { value: 68k }
  C1: { value: 47n }
  C2: { value: 10 uF 16 V }
  Q1: { device: 2N3055 }
  RN1: { value: "8 x 4k7, SIP-9, pin 1 common" }
  J1: { value: 4-way header, package: SIP-4 }
nets:
  GND: [U1.12, U2.2, U2.4, U3.1, U4.7, R2.2, C1.2, C2.2]
  VCC: [U1.3, U3.8, U3.4, U4.26, R1.1, R4.1, RN1.1]
  V12: [Q1.3]
  REF: [R1.2, R2.1, U1.5]
  SENSE: [J1.1, U1.4]
  CMP: [U1.2, RN1.2, U4.1]
  IN: [J1.2, R3.1]
  LED: [R3.2, U2.1]
  OPTO: [U2.5, RN1.3, U4.2]
  ROW_3: [RN1.4, U4.3, J1.3]
  ROW_4: [RN1.5, U4.4, J1.4]
  TIM: [U3.2, U3.6, R5.2, C1.1]
  DIS: [U3.7, R4.2, R5.1]
  TICK: [U3.3, U4.37]
  PASS_B: [Q1.1, C2.1]
  PASS_E: [Q1.2, U4.38]
`;

const volts = (...rows: readonly string[]): string =>
  [
    "## Logic levels",
    "",
    "| Ref | Pin | Reading |",
    "|---|---|---|",
    ...rows.map((row) => `| ${row} |`),
    "",
  ].join("\n");

const first = async (body: string): Promise<string | undefined> => (await diagnosedOn(BOARD, body)).first;

describe("voltages around analog parts", () => {
  test("a divider at one of its ends has its other resistor open", async () => {
    expect(await first(volts("U1 | 5 | 4.97", "U1 | 3 | 5.0"))).toBe("R2");
    expect(await first(volts("U1 | 5 | 0.02", "U1 | 3 | 5.0"))).toBe("R1");
  });

  test("a divider that stands where its resistors put it accuses nobody", async () => {
    expect(await first(volts("U1 | 5 | 2.48", "U1 | 3 | 5.0"))).toBeUndefined();
  });

  test("a comparator that is told to pull and does not", async () => {
    expect(await first(volts("U1 | 5 | 2.5", "U1 | 4 | 4.1", "U1 | 2 | 4.9", "U1 | 3 | 5.0"))).toBe("U1");
  });

  test("an optocoupler that is lit and does not pull, and what should light one and does not", async () => {
    expect(await first(volts("J1 | 2 | 12.0", "U2 | 1 | 1.2", "U2 | 5 | 4.9"))).toBe("U2");
    expect(await first(volts("J1 | 2 | 12.0", "U2 | 1 | 0.0", "U2 | 5 | 4.9"))).toBe("R3");
  });

  test("a timer by what holds its node down", async () => {
    const timer = (node: string, discharge: string, out: string): string =>
      volts(
        `U3 | 2 | ${node}`,
        `U3 | 6 | ${node}`,
        `U3 | 7 | ${discharge}`,
        `U3 | 3 | ${out}`,
        "U3 | 8 | 5.0",
      );
    expect(await first(timer("0.02", "4.35", "4.2"))).toBe("C1");
    expect(await first(timer("0.1", "4.98", "4.2"))).toBe("R5");
    expect(await first(timer("4.9", "4.9", "4.1"))).toBe("U3");
  });

  test("a follower above its base, at what feeds it", async () => {
    expect(await first(volts("Q1 | 1 | 5.6", "Q1 | 2 | 11.6", "Q1 | 3 | 12.0"))).toBe("Q1");
  });

  test("one loose line of a network whose others stand where it puts them", async () => {
    const lines = volts("U4 | 1 | 4.9", "U4 | 2 | 4.9", "U4 | 3 | 0.9", "U4 | 4 | 4.9");
    expect(await first(lines)).toBe("RN1");
  });
});

describe("words of what was measured", () => {
  test("a part that was found good comes behind its rival", async () => {
    const { result } = await diagnosedOn(BOARD, `C2 taken out and tested 10.4 uF.\n`);
    expect(result.read.left.get("C2")).toBeLessThan(0.1);
  });

  test("what it should be is no reading", async () => {
    const { result } = await diagnosedOn(BOARD, `C2 should read 10 uF.\n`);
    expect(result.read.left.get("C2")).toBeUndefined();
  });

  test("a resistor that has grown is named", async () => {
    expect(await first("R1 reads 47k.\n")).toBe("R1");
  });
});
