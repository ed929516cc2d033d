// What other places of the log say of a reading: rails, lines of one network, a clock, a leak. Each beside a log that only looks so.
import { describe, expect, test } from "vitest";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, regulator: VR1, source: invented }
  "-5V": { nominal: -5 V, tolerance: 5 %, net: VNEG, source: invented }
  "+12V": { nominal: 12 V, tolerance: 5 %, net: V12, source: invented }
  VBAT: { nominal: 4.4 V, tolerance: 0.5 V, net: VBAT, source: invented }
circuits:
  work-memory: { title: Work memory }
clocks:
  - { ref: U1, pin: "1", nominal: 1 MHz, tolerance: 1 %, from: Y1, source: invented }
symptoms:
  forgets: { title: Forgets, circuits: [work-memory] }
parts:
  U1: { device: 74LS04 }
  U2: { device: 74LS541 }
  U3: { device: "5101", socketed: true, circuit: work-memory }
  Y1: { device: oscillator-14, value: 1 MHz oscillator can }
  VR1: { device: "7805" }
  RN1: { value: 5 x 4k7, package: SIP-6 }
  R1: { value: 47k }
  R2: { value: 68k }
  C1: { value: 100n }
  C2: { value: 100n }
  C3: { value: 100n }
  D1: { device: 1N4148 }
  BT1: { value: 3.6 V NiCd, circuit: work-memory }
  J1: { value: header 8 }
nets:
  GND: [U1.7, U2.10, U2.1, U2.19, U3.8, C1.2, C2.2, C3.2, VR1.2, R2.2, BT1.2, J1.1, Y1.7]
  VCC: [U1.14, U2.20, VR1.3, RN1.1, D1.1, Y1.14]
  VNEG: [C1.1, C2.1, C3.1, J1.8]
  V12: [VR1.1, R1.1, J1.2]
  VBAT: [D1.2, U3.22, BT1.1]
  TAP: [R1.2, R2.1]
  CLK: [Y1.8, U1.1, U1.3]
  ROW_1: [RN1.2, U2.2, J1.3]
  ROW_2: [RN1.3, U2.3, J1.4]
  ROW_3: [RN1.4, U2.4, J1.5]
  ROW_4: [RN1.5, U2.5, J1.6]
  A6: [U3.6, U1.9]
`;

const of = async (body: string) => {
  const found = await diagnosedOn(BOARD, body);
  const { findings } = found.input;
  return { ...found, signs: findings.flatMap((one) => (one.kind === "sign" ? one.sign : [])) };
};

describe("a short that was followed along its net", () => {
  const ohms = (...rows: readonly string[]): string =>
    table("Resistance to ground", "Ref | Pin | Ohms", ...rows);

  test("lies where the fewest ohms are read", async () => {
    const { signs, first } = await of(ohms("C1 | 1 | 0.61", "C2 | 1 | 0.27", "C3 | 1 | 0.45"));
    expect(signs).toEqual(["short-nearest"]);
    expect(first).toBe("C2");
  });

  test.each([
    ["all the same", "C1 | 1 | 0.61", "C2 | 1 | 0.60", "C3 | 1 | 0.62"],
    ["two places", "C1 | 1 | 0.61", "C2 | 1 | 0.27"],
    ["no short", "C1 | 1 | 610", "C2 | 1 | 270", "C3 | 1 | 450"],
  ])("%s: nobody knows where", async (_, ...rows) => {
    expect((await of(ohms(...rows))).signs).not.toContain("short-nearest");
  });
});

describe("a rail read at its pins", () => {
  const volts = (...rows: readonly string[]): string => table("Voltages", "Ref | Pin | V", ...rows);

  test("is low itself where they agree", async () => {
    const { signs, input } = await of(volts("U3 | 22 | 1.62", "D1 | 2 | 1.61", "D1 | 1 | 5.0"));
    expect(signs).toContain("rail-wrong");
    expect(input.findings.filter(({ kind }) => kind === "pin")).toEqual([]);
  });

  test("is not where one of them is as it should be", async () => {
    const { signs } = await of(volts("U3 | 22 | 1.62", "D1 | 2 | 4.4"));
    expect(signs).not.toContain("rail-wrong");
  });
});

describe("a divider from a rail", () => {
  const tap = table("Voltages", "Ref | Pin | V", "R2 | 1 | 7.0", "U1 | 14 | 5.0");
  const rails = (reading: string): string => table("Supply rails", "Rail | V", `+12V | ${reading}`);

  test("is judged by what the rail read in another table", async () => {
    expect((await of(`${rails("12.0 V")}\n${tap}`)).signs).not.toContain("divided");
    expect((await of(`${rails("19.0 V")}\n${tap}`)).signs).toContain("divided");
  });
});

describe("lines of one network", () => {
  const rows = (...volts: readonly string[]): string =>
    table("Voltages", "Ref | Pin | V", ...volts.map((one, i) => `U2 | ${i + 2} | ${one}`));

  test("all at one voltage of no level: their common leg", async () => {
    const { signs, first } = await of(rows("1.31", "1.30", "1.31", "1.31"));
    expect(signs).toContain("lines-afloat");
    expect(first).toMatch(/RN1/);
  });

  test.each([
    ["each at another", "1.31", "2.0", "0.9", "1.6"],
    ["one of them up", "1.31", "1.30", "1.31", "4.9"],
    ["three of them", "1.31", "1.30", "1.31"],
  ])("%s: no", async (_, ...volts) => {
    expect((await of(rows(...volts))).signs).not.toContain("lines-afloat");
  });
});

describe("a clock with the chips off it", () => {
  const volts = (reading: string): string =>
    table("Voltages", "Ref | Pin | V | Note", `Y1 | 8 | ${reading} | U1 pulled`);

  test("that stands low still is not freed by it", async () => {
    const { input } = await of(volts("0.14"));
    expect(input.findings.filter((one) => one.kind === "lift" && one.cleared)).toEqual([]);
    expect(input.findings).toContainEqual(expect.objectContaining({ kind: "pin", ref: "Y1", pin: "8" }));
  });
});

describe("a memory written at one place and read at another", () => {
  const test6 = (words: string): string =>
    table(
      "Memory test",
      "Ref | Test | Address | Wrote | Read | Result",
      "U3 | one cell | 0400 | 5 | 5 | pass",
      `U3 | ${words} | 0400 | 5 | A | fail`,
    );

  test("the line that tells the two apart", async () => {
    const { input } = await of(test6("A to 0440, then read 0400"));
    expect(input.findings).toContainEqual(expect.objectContaining({ sign: "address-line", nets: ["A6"] }));
  });

  test("without a word of the other place it is a row that failed", async () => {
    expect((await of(test6("again"))).signs).not.toContain("address-line");
  });
});

describe("a cell that leaked", () => {
  const seen = table("Inspection", "Part | Found", "BT1 | leaked, green");

  test("is no fault any more where its rail is right", async () => {
    const share = async (rail: string): Promise<number> =>
      (await of(`${seen}\n${table("Supply rails", "Rail | V", `VBAT | ${rail}`)}`)).share("BT1");
    expect(await share("4.4")).toBeLessThan(0.5 * (await share("1.2")));
  });
});

describe("a part that somebody changed before", () => {
  test.each([
    ["U3 replaced by the owner.", true],
    ["The customer had already changed U3.", true],
    ["5101 replaced by the owner.", true],
    ["U3 is the owner's favourite.", false],
  ])("%s", async (words, isHeard) => {
    const { input } = await of(`## Notes\n\n${words}\n`);
    expect((input.against ?? []).some(({ ref, by }) => ref === "U3" && by === "changed-before")).toBe(
      isHeard,
    );
  });
});
