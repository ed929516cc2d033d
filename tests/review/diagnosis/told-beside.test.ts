// What a log tells beside its figures, or by figures that belong together: a cell that is off the board, one place of a net that is
// cut off from the others, a clock that runs further back, an address line that two memories have lost, a supply that is not short.
import { describe, expect, test } from "vitest";
import { diagnose } from "../../../server/src/compute/diagnosis";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, source: invented }
  VBAT: { nominal: 4.4 V, tolerance: 0.4 V, net: VBAT, source: invented }
  "HV raw": { nominal: 240 V, tolerance: 20 %, net: HVRAW, source: invented }
  "+170V": { nominal: 170 V, tolerance: 6 %, net: HV, source: invented }
circuits:
  clock: { title: Clock }
  memory: { title: Memory }
  high-voltage: { title: Display supply }
parts:
  U1: { device: Z80A, circuit: clock, socketed: true }
  U2: { device: "2716", circuit: memory }
  U3: { device: "2114", circuit: memory }
  U4: { device: "2114", circuit: memory }
  U5: { device: "5101", circuit: memory, socketed: true }
  U6: { device: 74LS04, circuit: clock }
  U7: { device: 74LS74, circuit: clock }
  Y1: { device: crystal, value: 4 MHz, circuit: clock }
  BT1: { value: 3.6 V NiCd, circuit: memory }
  D1: { device: 1N4148, circuit: memory }
  R2: { value: "470", circuit: memory }
  R3: { value: 1k, circuit: memory }
  Q1: { device: MJE340, circuit: high-voltage }
  Q2: { device: MPSA42, circuit: high-voltage }
  D5: { device: 1N4764, circuit: high-voltage }
  R11: { value: 47k, circuit: high-voltage }
  R12: { value: "33", circuit: high-voltage }
  R13: { value: 47k, circuit: high-voltage }
  R14: { value: 100k, circuit: high-voltage }
  R15: { value: 100k, circuit: high-voltage }
  C11: { value: 4.7 uF 250 V, circuit: high-voltage }
clocks:
  - { ref: U7, pin: "5", nominal: 2 MHz, tolerance: 1 %, from: Y1, source: invented }
  - { ref: U6, pin: "6", nominal: 4 MHz, tolerance: 1 %, from: Y1, source: invented }
nets:
  GND: [U1.29, U2.12, U3.9, U4.9, U5.8, U6.7, U7.7, BT1.2, D5.2, R15.2, C11.2]
  VCC: [U1.11, U2.24, U2.21, U3.18, U4.18, U6.14, U7.14, U7.1, U7.4, D1.2]
  VBAT: [D1.1, R2.1, U5.22]
  CELL: [R2.2, BT1.1]
  ENABLE: [U5.17, R3.2, U6.10]
  A9: [U1.39, U2.22, U3.15, U4.15]
  OSC_A: [Y1.1, U6.1]
  OSC_B: [Y1.2, U6.2, U6.5]
  CLK4: [U6.6, U7.3]
  CLK2: [U7.5, U1.6]
  DATA: [U7.2, U7.6]
  HVRAW: [Q1.2, R11.1]
  HV_B: [R11.2, Q1.3, Q2.3]
  HV_E: [Q1.1, R12.1]
  HV: [R12.2, R13.1, R14.1, C11.1]
  HV_REF: [Q2.1, R13.2, D5.1]
  HV_FB: [Q2.2, R14.2, R15.1]
`;

const of = (body: string) => diagnosedOn(BOARD, body);

const ranked = async (body: string): Promise<readonly string[]> => {
  const found = diagnose((await of(body)).input);
  if (!found.ok) throw new Error("no diagnosis");
  return found.ranked.map(({ suspect }) => suspect.id);
};

describe("a cell that leaked", () => {
  const look = (found: string) => table("Inspection", "Place | Found", `BT1 | ${found}`);
  const accused = async (body: string) =>
    (await of(body)).input.findings.some((finding) => finding.kind === "part" && finding.ref === "BT1");

  test("is a finding while it is on the board", async () => {
    expect(await accused(look("leaking"))).toBe(true);
    expect(await accused(`The battery must be taken off before anything else.\n\n${look("leaking")}`)).toBe(
      true,
    );
    expect(await accused(`R2 cut out.\n\n${look("leaking")}`)).toBe(true);
  });

  test("is none where its row or running words say that it is off", async () => {
    expect(await accused(look("leaking, taken off"))).toBe(false);
    expect(await accused(`Cut the old battery out and washed the corner.\n\n${look("leaking")}`)).toBe(false);
    expect(await accused(`${look("leaking")}\n\nBT1 was removed with side cutters.`)).toBe(false);
    expect(await accused(`BT1 has leaked. Took it out and scrubbed.\n\n${look("leaking")}`)).toBe(false);
    expect(await accused(`U5 was dull. Took it out and cleaned it.\n\n${look("leaking")}`)).toBe(true);
  });
});

describe("places of one net", () => {
  const volts = (...rows: string[]) => table("Pin voltages", "Part | Pin | Volts", ...rows);

  test("of which one is volts from the others: that one is cut off, and no chip did it", async () => {
    const { input } = await of(volts("U6 | 10 | 3.6", "R3 | 2 | 3.6", "U5 | 17 | 0.2"));
    expect(input.findings).toContainEqual(
      expect.objectContaining({ sign: "volts-apart", pins: [{ ref: "U5", pin: "17" }] }),
    );
    expect((await ranked(volts("U6 | 10 | 3.6", "R3 | 2 | 3.6", "U5 | 17 | 0.2")))[0]).toBe("joint U5.17");
  });

  test("that no rail could make so far apart are a slip", async () => {
    const { input } = await of(volts("U6 | 10 | 3600", "U5 | 17 | 0.2"));
    expect(input.findings).not.toContainEqual(expect.objectContaining({ sign: "volts-apart" }));
  });
});

describe("a clock that stands", () => {
  const probe = (...rows: string[]) => table("Logic probe", "Part | Pin | State", ...rows);

  test("behind a gate whose input runs is the gate's, and not the crystal's", async () => {
    const states = probe(
      "U6 | 5 | pulsing",
      "U6 | 6 | low",
      "U7 | 3 | low",
      "U7 | 5 | high",
      "U1 | 6 | high",
    );
    expect((await ranked(states))[0]).toBe("U6");
  });

  test("with nothing seen to run may be the crystal's", async () => {
    expect((await ranked(probe("U6 | 6 | low", "U7 | 5 | high"))).slice(0, 3)).toContain("Y1");
  });
});

test("an address line that two memories have lost is open before both, where the program runs with it", async () => {
  const places = table(
    "Memory test",
    "Address | Wrote | Read",
    "0000 | 55 | AA",
    "0200 | AA | AA",
    "0123 | 5A | C3",
    "0323 | C3 | C3",
  );
  expect((await ranked(places))[0]).toBe("track A9");
});

describe("a supply that is low", () => {
  test("and no short to ground: what feeds it, and not what it feeds", async () => {
    const low = table("Supply rails", "Rail | Volts", "+5V | 5.02", "VBAT | 2.7");
    const ohms = table("Resistance to ground", "Rail | Ohms", "VBAT | 1.2 M");
    const { input } = await of(`${low}\n\n${ohms}`);
    expect(input.railsNotShort).toContain("VBAT");
    expect((await ranked(`${low}\n\n${ohms}`))[0]).toBe("D1");
  });

  const dead = table("Supply rails", "Rail | Volts", "HV raw | 243", "+170V | 0.9");
  const around = (base: string, emitter: string) =>
    table("Pin voltages", "Part | Pin | Volts", "Q1 | 2 | 243", `Q1 | 3 | ${base}`, `Q1 | 1 | ${emitter}`);
  const sound = table("Junctions", "Ref | BE | BC | CE", "Q1 | 0.62 | 0.61 | OL", "Q2 | 0.65 | 0.64 | OL");
  const ohms = table("Resistance to ground", "Rail | Ohms", "+170V | 68k");

  test("behind a transistor whose base nothing drives: what should drive it", async () => {
    const body = [dead, around("1.2", "0.9"), sound, ohms].join("\n\n");
    expect((await of(body)).input.findings).toContainEqual(
      expect.objectContaining({ sign: "undriven", ref: "Q1", state: "low", dead: true }),
    );
    expect((await ranked(body))[0]).toBe("R11");
  });

  test("behind one whose base is driven: no such thing", async () => {
    const { input } = await of([dead, around("243", "0.9")].join("\n\n"));
    expect(input.findings).not.toContainEqual(expect.objectContaining({ sign: "undriven" }));
  });
});

test("diodes read both ways under another heading were read on the diode range", async () => {
  const { input } = await of(
    table("Resistance", "Part | Forward | Backward", "D1 | 0.003 | 0.003", "D5 | 0.71 | OL"),
  );
  expect(input.findings.map((finding) => ("ref" in finding ? finding.ref : ""))).toEqual(["D1"]);
});
