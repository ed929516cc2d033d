// What a node is told by under power where nothing drives it, by what the rest of its net does, and by the numbers of the
// lines that fail; each beside a reading that only looks so. On the demo's boards.
import { describe, expect, test } from "vitest";
import { suspectName } from "../../../server/src/compute/diagnosis/suspects";
import { diagnosisOf } from "../../../server/src/review/diagnosis/of-log";
import { openDemo } from "../../support/demo";
import { openAt } from "../../support/workspace";

async function diagnosed(board: "controller" | "driver", symptom: string, ...tables: readonly string[]) {
  const service = await openDemo();
  const uri = "mem:/demo/logs/node.md";
  const front = `---\nmendlog: 1\nboard: regatta-${board}\nrevision: B\nsymptoms: [${symptom}]\n---\n\n`;
  service.open(uri, front + tables.join("\n"));
  const view = service.view(uri);
  const found = view && diagnosisOf(view);
  if (!found) throw new Error("no diagnosis");
  const { findings } = found.log.input;
  return {
    first: found.diagnosis.ranked.slice(0, 3).map(({ suspect }) => suspectName(suspect)),
    kinds: findings.flatMap((one) => (one.kind === "sign" ? one.sign : one.kind)),
    next: found.advice.best,
  };
}

const table = (heading: string, columns: string, ...rows: readonly string[]): string =>
  `## ${heading}\n\n| ${columns} |\n|${columns.replace(/[^|]+/g, "---")}|\n${rows.map((row) => `| ${row} |\n`).join("")}\n`;
const levels = (...rows: readonly string[]): string => table("Logic levels", "Ref | Pin | Reading", ...rows);
const states = (...rows: readonly string[]): string => table("Logic states", "Ref | Pin | State", ...rows);
const drops = (...rows: readonly string[]): string => table("Diode check", "Ref | Pin | Reading", ...rows);

describe("a node that only a resistor decides", () => {
  test("and that stands low is the contact on it, once the resistor measured right", async () => {
    const { first, kinds } = await diagnosed(
      "controller",
      "all-eights",
      levels("U1 | 6 | 0.01 V"),
      table("Resistance", "Ref | Reading", "R13 | 4.68k"),
    );
    expect(kinds).toContain("pulled");
    expect(first).toContain("SW3");
  });

  test("an output that lets go and stays low: what pulls it up, or what does not let go", async () => {
    const { first, kinds } = await diagnosed(
      "driver",
      "coil-dead",
      levels("U1 | 9 | 3.6 V", "U1 | 8 | 0.3 V", "RN1 | 1 | 4.8 V"),
    );
    expect(kinds).toContain("pulled");
    expect(first).toEqual(expect.arrayContaining(["U1", "RN1"]));
  });

  test.each([
    ["an output that is asked to pull", levels("U1 | 9 | 0.2 V", "U1 | 8 | 0.3 V", "RN1 | 1 | 4.8 V")],
    ["a resistor whose other end is down", levels("U1 | 9 | 3.6 V", "U1 | 8 | 0.3 V", "RN1 | 1 | 0.1 V")],
    ["a node where the resistor puts it", levels("U1 | 9 | 3.6 V", "U1 | 8 | 4.7 V", "RN1 | 1 | 4.8 V")],
  ])("says nothing of %s", async (_, log) => {
    expect((await diagnosed("driver", "coil-dead", log)).kinds).not.toContain("pulled");
  });

  test("says nothing of a switch of a bank, which may be on", async () => {
    const { kinds } = await diagnosed("controller", "no-sound", levels("U25 | 2 | 0.03 V"));
    expect(kinds).not.toContain("pulled");
  });
});

describe("a leg and the rest of its net", () => {
  test("a clock that runs on its net and not at the leg is the way there", async () => {
    const { first } = await diagnosed(
      "controller",
      "error-6",
      table("Frequency", "Ref | Pin | Reading", "U11 | 25 | 0 Hz", "U10 | 25 | 1 MHz"),
    );
    expect(first[0]).toBe("the socket contact or joint of U11 pin 25");
  });

  test("a chip lets no input of its own float", async () => {
    const { first } = await diagnosed(
      "controller",
      "blank-display",
      states("U1 | 23 | pulse", "U4 | 3 | floating"),
    );
    expect(first[0]).toBe("the joint of U4 pin 3");
  });
});

describe("a short without a window", () => {
  test("next to no ohms to ground accuse what stands on the net and can conduct", async () => {
    const { first } = await diagnosed(
      "driver",
      "fuse-f4",
      table("Resistance to ground", "Ref | Pin | Reading", "J5 | 9 | 0.3 ohm"),
    );
    expect(first[0]).toMatch(/^(?:C8|D\d)$/);
  });

  test("a low node that read right with the power off is hardly shorted", async () => {
    const held = levels("U1 | 40 | 0.1 V", "U14 | 8 | 0.1 V", "U14 | 5 | 0.04 V", "Q2 | 2 | 0.03 V");
    const whole = drops("U14 | 5 | 0.588", "Q2 | 3 | 0.590");
    expect((await diagnosed("controller", "blank-display", held)).first[0]).toBe("C1");
    expect((await diagnosed("controller", "blank-display", held, whole)).first[0]).toBe("R5");
  });
});

test("a relay whose coil has its voltage and whose contact has two ends that differ", async () => {
  const pins = (coil: string): string =>
    levels("K1 | 1 | 12.1 V", `K1 | 2 | ${coil}`, "K1 | 3 | 36 V", "K1 | 4 | 0.2 V");
  expect((await diagnosed("driver", "all-coils-dead", pins("0.1 V"))).first[0]).toBe("K1");
  expect((await diagnosed("driver", "all-coils-dead", pins("12.0 V"))).first[0]).not.toBe("K1");
});

test("lines that are one bit of a decoder's number are its input, and others are not", async () => {
  const digits = (...dark: readonly string[]): string =>
    table(
      "Display",
      "Digit | Shows",
      ...["1", "2", "3", "4", "5", "6"].map((n) => `${n} | ${dark.includes(n) ? "dark" : "ok"}`),
    );
  const bit = await diagnosed("controller", "blank-display", digits("3", "4"));
  expect(bit.kinds).toContain("decoder-bit");
  expect(bit.kinds).not.toContain("digit");
  expect((await diagnosed("controller", "blank-display", digits("3", "5"))).kinds).not.toContain(
    "decoder-bit",
  );
});

test("places that hold what was written to a partner are the lines that tell them apart", async () => {
  const rows = (third: string): string =>
    table(
      "RAM test",
      "Address | Wrote | Read | Result",
      "0000 | 11 | 44 | fail",
      "0010 | 22 | 44 | fail",
      `0020 | 33 | ${third} | fail`,
      "0030 | 44 | 44 | pass",
    );
  expect((await diagnosed("controller", "error-3", rows("44"))).kinds).toContain("address-group");
  expect((await diagnosed("controller", "error-3", rows("31"))).kinds).not.toContain("address-group");
});

describe("a table off by a thousand", () => {
  const rails = (last: string): string =>
    table(
      "Resistance to ground",
      "Rail | Reading",
      "+12V | 9.4 ohm",
      "-12V | 9.1 ohm",
      "+5V | 0.21 ohm",
      `Coils | ${last}`,
    );

  test("in all its rails is the meter's range", async () => {
    const { first, next } = await diagnosed("driver", "fuse-f1", rails("4.7 ohm"));
    expect(first[0]).toMatch(/range/);
    expect(next?.kind).toBe("table-again");
  });

  test("and not where one of them is right as it stands", async () => {
    expect((await diagnosed("driver", "fuse-f1", rails("4.7k"))).first[0]).not.toMatch(/range/);
  });
});

describe("what was found at one place, for what the board does", () => {
  test("two pins of a chip that ring to each other are solder, and not the chip", async () => {
    const { first } = await diagnosed(
      "controller",
      "blank-display",
      table("Continuity", "From | To | Reading", "U1-13 | U1-14 | 0.4 ohm", "U1-14 | U1-15 | no beep"),
    );
    expect(first[0]).toBe("a bridge between A4 and A5");
  });

  test("what another part cured was that part, though others would explain the symptom as well", async () => {
    const { first } = await diagnosed(
      "controller",
      "no-sound",
      table("Swap test", "Ref | Part | Result | Then", "U22 | 7493 | cured | put back"),
    );
    expect(first[0]).toBe("U22");
  });

  test("an open beside a leaking battery is what the leak did", async () => {
    const { first } = await diagnosed(
      "controller",
      "error-4",
      table("Inspection", "Item | Result", "BT1 | leaking"),
      table("Continuity", "From | To | Reading", "U5-5 | U9-19 | no beep"),
      states("U5 | 5 | pulse", "U9 | 19 | floating"),
    );
    expect(first[0]).toMatch(/U9 pin 19|SEL_CMOS_N/);
  });
});

describe("what does not go through a part", () => {
  const tones = (far: string): string =>
    table("Frequency", "Ref | Pin | Reading", "U23 | 5 | 1.0 kHz", `R20 | 2 | ${far}`);

  test("a signal at one lead and none at the other", async () => {
    expect((await diagnosed("controller", "no-sound", tones("0 Hz"))).first[0]).toBe("R20");
    expect((await diagnosed("controller", "no-sound", tones("1.0 kHz"))).first[0]).not.toBe("R20");
  });

  test("more volts across a diode than a junction drops", async () => {
    const at = (cathode: string): string => levels("D2 | 2 | 5.0 V", `D2 | 1 | ${cathode}`);
    expect((await diagnosed("controller", "error-4", at("0.4 V"))).first[0]).toBe("D2");
    expect((await diagnosed("controller", "error-4", at("4.4 V"))).kinds).not.toContain("stage");
  });

  test("a delay far from what its resistor and capacitor give is one of the two", async () => {
    const { first, kinds } = await diagnosed(
      "controller",
      "blank-display",
      table("Reset timing", "Ref | Pin | Reading", "U1 | 40 | 2.4 s"),
    );
    expect(kinds).toContain("reset-delay");
    expect(["C1", "R5"]).toContain(first[0]);
  });
});

describe("what two places lose together", () => {
  test("the common end of a network that is off its rail", async () => {
    const rows = (common: string): string =>
      levels("J3 | 1 | 1.71 V", "J3 | 2 | 1.70 V", `RN1 | 1 | ${common}`, "U13 | 14 | 5.01 V");
    expect((await diagnosed("controller", "phantom-switches", rows("1.71 V"))).first[0]).toBe(
      "the joint of RN1 pin 1",
    );
    expect((await diagnosed("controller", "phantom-switches", rows("5.00 V"))).kinds).not.toContain(
      "net-open",
    );
  });

  test("two rails of one winding with a tap: what lies before the bridge; one rail alone may be the bridge", async () => {
    const found = async (negative: string) => {
      const ripple = table(
        "Supply rails, loaded",
        "Rail | Reading | Ripple",
        "+18V | 17.0 V | 4.1 V 50 Hz",
        `-18V | -17.9 V | ${negative}`,
      );
      const { view } = await openAt(`${WINDING}//- log.md\n---\nmendlog: 1\nboard: w\n---\n\n${ripple}$0`);
      const { diagnosis } = diagnosisOf(view)!;
      return diagnosis.ranked.slice(0, 3).map(({ suspect }) => suspectName(suspect));
    };
    expect(await found("4.0 V 50 Hz")).not.toContain("BR1");
    expect(await found("0.4 V 100 Hz")).toContain("BR1");
  });
});

const WINDING = `//- w.board.yaml
mendlog-board: 1
id: w
title: W
source: invented
grounds: [GND]
rails:
  "+18V": { nominal: 18 V, tolerance: 25 %, ripple: 2 V, reservoir: C1, rectifier: full-wave, mains: 50 Hz, net: VP, source: invented }
  "-18V": { nominal: -18 V, tolerance: 25 %, ripple: 2 V, reservoir: C2, rectifier: full-wave, mains: 50 Hz, net: VN, source: invented }
parts:
  BR1: { device: bridge-rectifier }
  F1: { value: fuse 3 A }
  F2: { value: fuse 3 A }
  C1: { value: 4700 uF 35 V }
  C2: { value: 470 uF 35 V }
  J1: { value: 3-way header }
nets:
  GND: [C1.2, C2.1, J1.2]
  VP: [BR1.1, C1.1]
  VN: [BR1.4, C2.2]
  AC_A: [J1.1, F1.1]
  AC_AF: [F1.2, BR1.2]
  AC_B: [J1.3, F2.1]
  AC_BF: [F2.2, BR1.3]
`;
