// What follows from physics besides a pin's own window: a clock's mean, a latch that is clocked, an output told to let go, a cell's
// way to what it keeps, what a short draws on. Each beside a log that only looks so.
import { describe, expect, test } from "vitest";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, regulator: VR1, source: invented }
  "-5V": { nominal: -5 V, tolerance: 5 %, net: VNEG, regulator: VR2, input: "-18V raw", source: invented }
  "-18V raw": { nominal: -18 V, tolerance: 20 %, ripple: 1 V, reservoir: C2, net: VRAWN, source: invented }
  "+24V": { nominal: 24 V, tolerance: -15 % to +30 %, net: V24, source: "invented; not regulated" }
  "+170V": { nominal: 170 V, tolerance: 6 %, net: HV, source: invented }
  VBAT: { nominal: 4.4 V, tolerance: 0.5 V, net: VBAT, source: invented }
circuits:
  work-memory: { title: Work memory }
  sync: { title: Sync }
clocks:
  - { ref: U1, pin: "1", nominal: 1 MHz, tolerance: 1 %, from: Y1, source: invented }
symptoms:
  forgets: { title: Forgets, circuits: [work-memory] }
parts:
  U1: { device: 74LS04 }
  U2: { device: 74LS373 }
  U3: { device: "5101", socketed: true, circuit: work-memory }
  U4: { device: "75473" }
  Y1: { device: oscillator-14, value: 1 MHz oscillator can }
  VR1: { device: "7805" }
  VR2: { device: "7905" }
  Q1: { device: 2N3904, circuit: sync }
  R1: { value: 1k }
  R2: { value: 10k, circuit: sync }
  R3: { value: 4k7, circuit: sync }
  C1: { value: 1u tantalum }
  C2: { value: 470u }
  D1: { device: 1N4148 }
  D2: { device: 1N4148, circuit: sync }
  F1: { value: 2 A }
  D3: { device: 1N4764, note: "100 V reference" }
  Q2: { device: MPSA42 }
  R4: { value: 47k 1 W }
  BT1: { value: 3 V lithium, circuit: work-memory }
  J1: { value: header 12 }
nets:
  GND: [U1.7, U2.1, U2.10, U3.8, U4.4, Q1.1, D2.2, C1.1, C2.1, VR1.2, VR2.1, BT1.2, J1.1, Y1.7, D3.2]
  VCC: [U1.14, U2.20, U4.8, VR1.3, R3.1, Y1.14]
  VNEG: [VR2.3, C1.2]
  VRAWN: [VR2.2, C2.2, J1.2]
  V24: [F1.1, J1.3]
  V24F: [F1.2, J1.4]
  CELL: [BT1.1, R1.1]
  CELL_D: [R1.2, D1.2]
  VBAT: [D1.1, U3.22]
  CLK: [Y1.8, U1.1]
  SLOW: [U1.2, U2.11]
  AD5: [U2.14, J1.5]
  A5: [U2.15, U3.6]
  AD4: [U2.13, J1.8]
  A4: [U2.12, U3.5]
  OFF: [U4.2, U4.7, J1.9]
  IN_1: [U4.1, U1.4]
  IN_2: [U4.6, U1.6]
  OUT_1: [U4.3, J1.6]
  OUT_2: [U4.5, J1.7]
  AC: [R2.1, J1.10]
  BASE: [R2.2, D2.1, Q1.2]
  HV: [R4.1, J1.11]
  REF: [R4.2, D3.1, Q2.1]
  SENSE: [Q2.2, J1.12]
  COLL: [R3.2, Q1.3, U1.9]
`;

const of = async (body: string) => {
  const found = await diagnosedOn(BOARD, body);
  const { findings } = found.input;
  return { ...found, signs: findings.flatMap((one) => (one.kind === "sign" ? one.sign : [])) };
};
const volts = (...rows: readonly string[]): string => table("Voltages", "Ref | Pin | V", ...rows);

describe("a clock read with a meter", () => {
  test("stands where it reads a supply's voltage", async () => {
    const { signs, first } = await of(volts("Y1 | 8 | 4.93", "Y1 | 14 | 4.99"));
    expect(signs).toContain("clock-dead");
    expect(first).toBe("Y1");
  });

  test("may run where it reads something in between", async () => {
    expect((await of(volts("Y1 | 8 | 2.6", "Y1 | 14 | 4.99"))).signs).not.toContain("clock-dead");
  });

  test("is not freed by a drop that is right with its chips out", async () => {
    const drops = table("Diode check, U1 pulled", "Ref | Pin | V", "Y1 | 8 | 0.63");
    const { input } = await of(`${volts("Y1 | 8 | 4.93")}\n${drops}`);
    expect(input.findings.filter(({ kind }) => kind === "lift")).toEqual([]);
  });
});

describe("a bit of a latch that stands while its data moves", () => {
  const probe = (bit: string): string =>
    table(
      "Logic probe",
      "Ref | Pin | State",
      "U2 | 11 | pulsing",
      "U2 | 14 | pulsing",
      `U2 | 15 | ${bit}`,
      "U2 | 13 | pulsing",
      "U2 | 12 | pulsing",
    );

  test("is the latch's, and not the supply's, which its other bits have", async () => {
    const { first, share } = await of(probe("low"));
    expect(first).toBe("U2");
    expect(share("joint U2.20")).toBe(0);
  });

  test("one that moves accuses nothing", async () => {
    expect((await of(probe("pulsing"))).signs).not.toContain("section-still");
  });
});

describe("a memory that holds what another address was given", () => {
  const cells = (note: string): string =>
    table(
      "Memory test",
      "Ref | Address | Wrote | Read | Result | Note",
      "U3 | 0020 | 9 | 9 | pass | alone",
      `U3 | 0000 | 5 | 9 | fail | ${note}`,
    );

  test("named in its note: the line that tells the two apart", async () => {
    const { input } = await of(cells("after 0020 was written"));
    expect(input.findings).toContainEqual(expect.objectContaining({ sign: "address-line", nets: ["A5"] }));
  });

  test("once, and unnamed, may be a slip", async () => {
    expect((await of(cells("twice"))).signs).not.toContain("address-line");
  });
});

describe("an output that its inputs tell to let go", () => {
  const driver = (own: string, sister: string): string =>
    volts(
      "U4 | 1 | 4.7",
      "U4 | 2 | 0.2",
      `U4 | 3 | ${own}`,
      "U4 | 6 | 4.7",
      "U4 | 7 | 0.2",
      `U4 | 5 | ${sister}`,
    );

  test("and that pulls, with its sister's line up: the chip", async () => {
    const { signs, first } = await of(driver("0.7", "24.4"));
    expect(signs).toContain("contradiction");
    expect(first).toBe("U4");
  });

  test.each([
    ["with both lines down its load may be off", "0.7", "0.02"],
    ["with its line up it does", "24.3", "24.4"],
  ])("%s", async (_, own, sister) => {
    expect((await of(driver(own, sister))).signs).not.toContain("contradiction");
  });
});

describe("a cell's way to a memory, with the power off", () => {
  const off = (behind: string): string => `## After switching off, half an hour later

### Voltages

| Ref | Pin | V |
|-----|-----|---|
| BT1 | 1 | 3.04 |
| R1 | 2 | 3.04 |
| D1 | 1 | ${behind} |
`;

  test("ends at the diode behind its resistor", async () => {
    const { input, first } = await of(off("0.02"));
    expect(input.findings).toContainEqual(expect.objectContaining({ sign: "stage", refs: ["D1"] }));
    expect(first).toBe("D1");
  });

  test("does not end where its voltage arrives", async () => {
    expect((await of(off("2.6"))).signs).not.toContain("stage");
  });
});

describe("ripple before a regulator", () => {
  const raw = table("Supply rails", "Rail | V | Ripple", "-18V raw | -17.1 | 1.3 V");
  const ohms = (reading: string): string => table("Resistance to ground", "Rail | Ohms", `-5V | ${reading}`);

  test("is made by what is shorted behind it", async () => {
    expect((await of(`${raw}\n${ohms("0.8")}`)).first).toBe("C1");
  });

  test("is the reservoir's where nothing is", async () => {
    expect((await of(`${raw}\n${ohms("3k")}`)).first).toBe("C2");
  });
});

describe("a fuse of which one end was read", () => {
  test.each([
    ["up, on a rail that nothing regulates", "26.2", false],
    ["down", "0.1", true],
  ])("%s", async (_, reading, isOpen) => {
    const { input } = await of(volts(`F1 | 2 | ${reading}`, "U4 | 1 | 4.7"));
    const told = input.findings.some((one) => one.kind === "sign" && one.refs?.[0] === "F1");
    expect(told).toBe(isOpen);
  });
});

describe("a base that stands while what drives it moves", () => {
  const seen = `${volts("Q1 | 2 | 0.00", "Q1 | 3 | 4.96")}
${table("Levels", "Ref | Pin | Freq | Vpp", "R2 | 1 | 50 Hz | 12 V")}`;
  const junctions = table("Transistor junctions", "Ref | B-E | B-C | C-E", "Q1 | 0.66 | 0.65 | OL");

  test("behind a resistor, with a diode across it that reads no short", async () => {
    expect((await of(`${seen}\n${junctions}`)).first).toBe("R2");
  });

  test("the diode where nobody measured across it", async () => {
    const { share } = await of(seen);
    expect(share("D2")).toBeGreaterThan((await of(`${seen}\n${junctions}`)).share("D2"));
  });
});

describe("a cell that leaked", () => {
  const look = (words: string): string =>
    `${table("Inspection", "Item | Result", "BT1 | leaked")}\n${words}\n\n${volts("Y1 | 8 | 4.93")}`;
  const blamed = async (words: string) =>
    (await of(look(words))).input.findings.some((one) => one.kind === "part" && one.ref === "BT1");

  test("and is off blames nobody any more", async () => {
    expect(await blamed("Cell off, vinegar, two days on the radiator.")).toBe(false);
  });

  test("that is only near something that is off does", async () => {
    expect(await blamed("With the cell offering next to nothing, the loom off.")).toBe(true);
  });
});

describe("a reference that carries current", () => {
  const rail = (volts: string): string => table("Supply rails", "Rail | V", `+170V | ${volts}`);

  test("below its voltage is not what it is marked", async () => {
    const { signs, first } = await of(`${rail("18.1")}\n${volts("D3 | 1 | 10.0", "Q2 | 2 | 10.6")}`);
    expect(signs).toContain("reference-off");
    expect(first).toBe("D3");
  });

  test("that has all that feeds it carries none yet", async () => {
    const { signs } = await of(`${rail("18.1")}\n${volts("D3 | 1 | 17.9", "Q2 | 2 | 10.6")}`);
    expect(signs).not.toContain("reference-off");
  });
});

describe("a chip that reads under power as if counted from the wrong end", () => {
  const read = volts("U3 | 8 | 4.97", "U3 | 22 | 0.02", "U3 | 19 | 0.00", "U3 | 11 | 4.97");
  const power = (hot: string): string =>
    table(
      "First power",
      "Rail | Limit | Current | Voltage | Hot | Result",
      `+5V | 3 A | 2.4 A | 4.98 | ${hot} | up`,
    );
  const turned = async (body: string) =>
    (await of(body)).input.findings.some((one) => one.kind === "table" && one.turned === true);

  test("sits that way round where it is hot", async () => {
    expect(await turned(`${power("U3")}\n${read}`)).toBe(true);
  });

  test("was counted so where it is not", async () => {
    expect(await turned(`${power("")}\n${read}`)).toBe(false);
  });
});
