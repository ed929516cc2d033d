// What lies before the board or between it and the machine: each beside a log that only looks so.
import { describe, expect, test } from "vitest";
import { boardHead } from "../../support/boards";
import { diagnosedInDemo, diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, net: VCC, source: invented }
  "+12V": { nominal: 12 V, tolerance: 10 %, net: V12, reservoir: C2, source: invented }
  "-12V": { nominal: -12 V, tolerance: 10 %, net: V12N, reservoir: C3, source: invented }
resets:
  - { ref: U2, pin: "1", resistor: R1, capacitor: C4, rail: "+5V", threshold: 1.6 V, source: invented }
parts:
  U1: { device: 74LS04 }
  U2: { device: 74LS74 }
  U3: { device: 74LS04 }
  R1: { value: 10k }
  D1: { device: 1N4148 }
  C1: { value: 100 uF 16 V }
  C2: { value: 1000 uF 25 V }
  C3: { value: 1000 uF 25 V }
  C4: { value: 22 uF 16 V }
  J1: { value: header 6 }
  TP4: { value: test point }
nets:
  GND: [U1.7, U2.7, U3.7, C1.2, C2.2, C3.2, C4.2, J1.1, J1.2, TP4.1]
  VCC: [U1.14, U2.14, U3.14, C1.1, D1.1, R1.1, J1.3]
  V12: [C2.1, J1.4]
  V12N: [C3.1, J1.5]
  RC: [R1.2, D1.2, C4.1, U1.1]
  RESET_N: [U1.2, U2.1]
  DATA: [U2.2, U1.3, U3.3]
`;

const of = async (body: string) => {
  const found = await diagnosedOn(BOARD, body);
  const signs = found.input.findings.flatMap((one) => (one.kind === "sign" ? one.sign : []));
  return { ...found, signs };
};

describe("rails that are all low", () => {
  const rails = (...rows: readonly string[]): string => table("Rails, loaded", "Rail | Reading", ...rows);

  test("by one share: what feeds the board, and no part of each", async () => {
    const { signs, first } = await of(rails("+5V | 3.1 V", "+12V | 7.3 V", "-12V | -7.2 V"));
    expect(signs).toEqual(["rails-low-alike"]);
    expect(first).toMatch(/transformer/);
  });

  test.each([
    ["each by a share of its own", "+5V | 4.2 V", "+12V | 7.3 V", "-12V | -4.0 V"],
    ["but one", "+5V | 5.0 V", "+12V | 7.3 V", "-12V | -7.2 V"],
  ])("%s: rail by rail", async (_, ...rows) => {
    const { signs } = await of(rails(...rows));
    expect(signs).not.toContain("rails-low-alike");
    expect(signs).toContain("rail-wrong");
  });
});

describe("a header pin that feeds a rail", () => {
  const levels = (...rows: readonly string[]): string =>
    table("Rails", "Rail | Reading", "+5V | 4.2 V") + table("Logic levels", "Ref | Pin | Reading", ...rows);

  test("above all else on it, and all else alike: its joint", async () => {
    const { first, input } = await of(
      levels("J1 | 3 | 5.03 V", "C1 | 1 | 4.20 V", "U1 | 14 | 4.20 V", "U2 | 14 | 4.19 V"),
    );
    expect(first).toBe("joint J1.3");
    expect(input.findings).toHaveLength(1);
  });

  test("as low as the rest: what comes in, or what the rail makes of it", async () => {
    const { first, signs, share } = await of(
      levels("J1 | 3 | 4.21 V", "C1 | 1 | 4.20 V", "U1 | 14 | 4.20 V", "U2 | 14 | 4.19 V"),
    );
    expect(signs).toContain("rail-wrong");
    expect(signs).not.toContain("net-open");
    expect(first).not.toBe("joint J1.3");
    expect(share("joint J1.3")).toBeLessThan(0.2);
  });
});

describe("a reset that is too short after a moment off", () => {
  const delay = (heading: string, read: string): string =>
    table(heading, "Ref | Pin | Delay", `U2 | 1 | ${read}`);
  const again = delay("Reset delay, off for one second", "2 ms");

  test("and right from cold: what empties the capacitor", async () => {
    const { first, signs } = await of(delay("Reset delay, cold", "87 ms") + again);
    expect(signs).toEqual(["reset-not-emptied"]);
    expect(first).toBe("D1");
  });

  test("and from cold: what makes the delay", async () => {
    const { first, signs } = await of(delay("Reset delay, cold", "2 ms") + again);
    expect(signs).not.toContain("reset-not-emptied");
    expect(first).toBe("C4");
  });
});

describe("a table read with the lead on a pin of ground", () => {
  const drops = table(
    "Diode check, clip on J1 pin 1",
    "Ref | Pin | Reading",
    ...["1", "2", "3", "4", "5", "6"].map((pin) => `U1 | ${pin} | OL`),
  );
  const rung = (read: string): string => table("Continuity", "From | To | Reading", `J1-1 | TP4-1 | ${read}`);

  test("that is found off ground: nothing of what was read, and the copper between", async () => {
    const { input, first } = await of(drops + rung("no beep"));
    expect(input.findings.map((one) => one.kind === "sign" && one.sign)).toEqual(["continuity-open"]);
    expect(first).toMatch(/GND|J1\.1/);
  });

  test("that is on ground: what was read stands", async () => {
    const { findings } = await of(drops + rung("beep"));
    const headings = findings.map((one) => one.table?.section.heading?.text);
    expect(new Set(headings)).toEqual(new Set(["Diode check, clip on J1 pin 1"]));
  });
});

describe("lines that answer for one another in the machine", () => {
  const rows = ["1", "2", "3", "4"];
  const swapped = table(
    "Switch matrix in the machine",
    "Row / column | 1 | 2 | 3 | 4",
    ...rows.map((row) => `${row} | ok | closes ${row},3 | closes ${row},2 | ok`),
  );
  const bare = table(
    "Switch matrix, bare board",
    "Row / column | 1 | 2 | 3 | 4",
    ...rows.map((row) => `${row} | ok | ok | ok | ok`),
  );

  test("and each for itself on the bare board: the wiring", async () => {
    const { first, signs } = await diagnosedInDemo("controller", "", bare, swapped);
    expect(signs).toEqual(["wiring-apart"]);
    expect(first[0]).toBe("the wiring of columns 2 and 3 in the machine");
  });

  test("and nobody tried the bare board: a bridge, or the wiring", async () => {
    const { signs, first } = await diagnosedInDemo("controller", "", swapped);
    expect(signs).toEqual(["lines-joined"]);
    expect(first).toContain("a bridge between SW_COL_2 and SW_COL_3");
  });
});
