// What tells that a reading is not what it looks like: fed from outside, another range, another way of measuring. Each beside a log that
// only looks so.
import { describe, expect, test } from "vitest";
import { boardHead } from "../../support/boards";
import { diagnosedInDemo, diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, regulator: VR1, source: invented }
  "+12V": { nominal: 12 V, tolerance: 5 %, net: V12, source: invented }
  "+24V": { nominal: 24 V, tolerance: 30 %, net: V24, reservoir: C1, source: invented }
  VBAT: { nominal: 4.4 V, tolerance: 0.5 V, net: VBAT, source: invented }
clocks:
  - { ref: U1, pin: "39", nominal: 1 MHz, tolerance: 1 %, from: Y1, source: invented }
symptoms:
  dead: { title: Dead, circuits: [cpu] }
circuits:
  cpu: { title: Processor }
parts:
  U1: { device: "6802", circuit: cpu }
  U2: { device: 74LS14 }
  VR1: { device: "7805" }
  Y1: { value: 4 MHz crystal }
  R1: { value: 10k }
  C1: { value: 1000 uF 35 V }
  C2: { value: 22 uF 16 V }
  BT1: { value: 3.6 V NiCd }
  TP1: { value: test point }
  J1: { value: header 6 }
nets:
  GND: [U1.1, U1.21, U2.7, VR1.2, C1.2, C2.2, BT1.2, J1.1]
  VCC: [U1.8, U2.14, VR1.3, R1.1]
  V12: [J1.2]
  V24: [VR1.1, C1.1, J1.3]
  VBAT: [BT1.1, TP1.1, U1.35]
  XTAL: [Y1.1, U1.38]
  EXTAL: [Y1.2, U1.39]
  E: [U1.37]
  RC: [R1.2, C2.1, U2.1]
  RESET_N: [U2.2, U1.40]
`;

const of = async (body: string) => {
  const found = await diagnosedOn(BOARD, body);
  const { findings } = found.input;
  return {
    ...found,
    signs: findings.flatMap((one) => (one.kind === "sign" ? one.sign : [])),
    mistakes: findings.flatMap((one) => (one.kind === "table" ? one.mistake : [])),
  };
};

describe("a counter that shows nothing at a processor", () => {
  const counts = table(
    "Frequency",
    "Ref | Pin | Reading",
    "U1 | 37 | 0 Hz",
    "U1 | 38 | 0 Hz",
    "U1 | 39 | 0 Hz",
  );

  test("is not believed where the board runs", async () => {
    expect((await of(`${counts}\nThe display counts and plays its tune.\n`)).mistakes).toHaveLength(1);
  });

  test("is where it only runs with a clock from outside", async () => {
    const { mistakes, signs } = await of(`${counts}\nWith a generator at pin 39 the display counts.\n`);
    expect(mistakes).toEqual([]);
    expect(signs).toContain("clock-dead");
  });
});

describe("rails that all read too much", () => {
  const rails = (...volts: readonly string[]): string =>
    table("Supply rails", "Rail | V", `+5V | ${volts[0]}`, `+12V | ${volts[1]}`, `+24V | ${volts[2]}`);

  test("by one factor: the range of the meter", async () => {
    expect((await of(rails("11.1", "26.6", "54.0"))).mistakes).toEqual([
      "the meter was on another range, on AC for DC",
    ]);
  });

  test("one of them more than the others: none of it", async () => {
    expect((await of(rails("9.1", "26.6", "54.0"))).mistakes).toEqual([]);
  });
});

describe("ohms and volts of one list", () => {
  test("a plain figure at a rail's own voltage is no resistance", async () => {
    const { signs } = await of(
      `${table("Resistance, off", "Ref | Reading", "R1 | 9.9 k")}\nRails all there: +5V 5.0, +24V 25.\n`,
    );
    expect(signs).not.toContain("rail-short");
  });
});

describe("another part in the place", () => {
  const volts = table("Voltages", "Ref | Pin | V", "U2 | 1 | 1.07");

  test.each([
    ["the same figure", "Another 74LS14 in: 1.06.", true],
    ["another figure", "Another 74LS14 in: 4.9.", false],
  ])("%s", async (_, words, isSame) => {
    const { input } = await of(`${volts}\nPin 1 of U2 at 1.07 all the time. ${words}\n`);
    expect((input.against ?? []).some(({ ref, by }) => ref === "U2" && by === "swap-same")).toBe(isSame);
  });
});

describe("a rail at its test point", () => {
  const seen = table("Inspection", "Part | Found", "BT1 | leaking");
  const point = (volts: string): string => table("Voltages", "Ref | Pin | V", `TP1 | 1 | ${volts}`);

  test("is right there as well as in a table of rails", async () => {
    expect((await of(`${seen}\n${point("4.4")}`)).input.railsRight).toEqual(["VBAT"]);
    expect((await of(`${seen}\n${point("2.4")}`)).input.railsRight ?? []).toEqual([]);
  });
});

describe("two ways of measuring", () => {
  test("one pin are not one slip", async () => {
    const both = await of(
      `${table("Logic states", "Ref | Pin | State", "U1 | 40 | low")}\n${table("Voltages", "Ref | Pin | V", "U1 | 40 | 0.1")}`,
    );
    const whose = both.input.findings.flatMap((one) => (one.kind === "sign" ? one.of : []));
    expect(new Set(whose).size).toBe(whose.length);
    expect(whose.length).toBe(2);
  });
});

describe("an image read again", () => {
  const DEMO_ROM = (words: string): string =>
    [
      table("ROM check", "Ref | Sum | CRC-32", "U2 | 1111 | 22222222"),
      words,
      "",
      "| Ref | Sum | CRC-32 |",
      "|---|---|---|",
      "| U2 | 70d5 | 9d1f4c72 |",
      "",
    ].join("\n");
  const signsOf = async (words: string) =>
    (await diagnosedInDemo("controller", "led-2", DEMO_ROM(words))).signs;

  test("that is right once the legs were cleaned was never wrong", async () => {
    expect(await signsOf("Legs of it gone over with the glass pen:")).not.toContain("rom-sum");
  });

  test("that is right without a word comes and goes", async () => {
    expect(await signsOf("And once more:")).toContain("rom-sum");
  });
});
