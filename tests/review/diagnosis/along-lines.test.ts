// What the diagnosis hears along a line: where a display's line ends, what a transistor passes on, a wiper, a network by its
// package, and what a supply with a limit says of a rail.
import { describe, expect, test } from "vitest";
import { nextReading } from "../../../server/src/compute/diagnosis/next-reading";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, load: 1 A, net: VCC, regulator: VR1, input: "+9V raw", source: invented }
  "+9V raw": { nominal: 9 V, tolerance: 20 %, load: 1 A, net: VRAW, reservoir: C1, source: invented }
parts:
  U1: { device: 74LS04 }
  VR1: { device: "7805" }
  C1: { value: 4700 uF 16 V }
  C2: { value: 47 uF 16 V }
  D1: { device: 1N4004 }
  R1: { value: 4k7 }
  R2: { value: 15k }
  R3: { value: 10k }
  RV1: { value: 5k }
  RN1: { value: "8 x 33, DIP-16" }
  Q1: { device: 2N3904 }
  DS1: { value: tube }
  DS2: { value: tube }
  DS3: { value: tube }
  DS4: { value: tube }
nets:
  GND: [U1.7, VR1.2, C1.2, C2.2, Q1.1]
  VCC: [U1.14, VR1.3, C2.1, D1.2, R3.1]
  VRAW: [VR1.1, C1.1, D1.1]
  SEG_G_B: [U1.2, R1.1]
  SEG_G_Q: [R1.2, Q1.2]
  SEG_G_C: [Q1.3, R2.1]
  K_G: [R2.2, DS1.7, DS2.7, DS3.7, DS4.7]
  K_F: [RN1.3, DS1.6, DS2.6, DS3.6, DS4.6]
  TOP: [R3.2, RV1.1]
  WIPER: [RV1.2, U1.9]
  BOTTOM: [RV1.3, U1.11]
  IN3: [U1.4, RN1.6]
  OUT3: [RN1.11, U1.5]
`;

async function of(body: string) {
  const found = await diagnosedOn(BOARD, body);
  return { ...found, advice: nextReading(found.input, found.result) };
}

const display = (...rows: readonly string[]): string => table("Display", "Digit | Segment | Result", ...rows);

describe("a bar of a display", () => {
  test("dark from one tube on, and lit before it: the line between the two", async () => {
    const { first, advice } = await of(display("1 | g | lit", "2 | g | lit", "3 | g | dark", "4 | g | dark"));
    expect(first).toBe("track K_G");
    expect(advice.best).toMatchObject({ kind: "continuity", net: "K_G" });
  });

  test("dark in one tube alone: that tube, and then its joint", async () => {
    const { result } = await of(display("1 | g | lit", "2 | g | dark", "3 | g | lit", "4 | g | lit"));
    expect(result.ranked.slice(0, 2).map(({ suspect }) => suspect.id)).toEqual(["DS2", "joint DS2.7"]);
  });

  test("that comes with another one is joined to it, and not dark", async () => {
    const { input } = await of(
      table(
        "Display",
        "Digit | Segment | Result | Note",
        "1 | g | wrong | f lights with it",
        "1 | a | ok | ",
      ),
    );
    expect(input.findings).toEqual([
      expect.objectContaining({ sign: "lines-joined", nets: expect.arrayContaining(["K_F", "K_G"]) }),
    ]);
  });

  test("dark everywhere though its transistor is on: what lies behind that", async () => {
    const dark = display("1 | g | dark", "2 | g | dark", "3 | g | dark", "4 | g | dark");
    const levels = table("Levels", "Ref | Pin | Reading", "Q1 | 2 | 0.70 V", "Q1 | 3 | 0.03 V");
    const before = (await of(dark)).result.ranked.map(({ suspect }) => suspect.id);
    expect(before[0]).not.toBe("R2");
    expect((await of(dark + levels)).first).toBe("R2");
  });
});

test("a base that stands while its drive moves: the resistor between, or the transistor", async () => {
  const { first, input } = await of(
    table("Logic states", "Ref | Pin | State", "U1 | 2 | pulse", "Q1 | 2 | L"),
  );
  expect(input.findings).toContainEqual(expect.objectContaining({ sign: "stage", refs: ["R1", "Q1"] }));
  expect(["R1", "Q1"]).toContain(first);
});

test("a wiper outside its two ends has lost its track; between them it says nothing", async () => {
  const at = (wiper: string) =>
    table("Levels", "Ref | Pin | Reading", "RV1 | 1 | 4.1 V", `RV1 | 2 | ${wiper}`, "RV1 | 3 | 3.2 V");
  expect((await of(at("0.4 V"))).input.findings).toContainEqual(
    expect.objectContaining({ sign: "stage", refs: ["RV1"] }),
  );
  expect((await of(at("3.6 V"))).input.findings).not.toContainEqual(
    expect.objectContaining({ sign: "stage" }),
  );
});

test("a network that is not used to its last pin is counted by its package", async () => {
  const { input } = await of(
    table("Frequencies", "Ref | Pin | Reading", "U1 | 4 | 2.0 kHz", "U1 | 5 | 0 Hz"),
  );
  expect(input.findings).toContainEqual(expect.objectContaining({ sign: "stage", refs: ["RN1"] }));
});

describe("a supply with a limit", () => {
  const first = (...rows: readonly string[]): string =>
    table("First power", "Rail | Limit | Current | Voltage | Hot | Result", ...rows);

  test("at its limit shows a short, once", async () => {
    const { input, first: suspect } = await of(first("+5V | 1.5 A | 1.5 A | 0.3 V | C2 | shut down"));
    expect(input.findings.filter((one) => one.kind === "sign" && one.sign === "rail-short")).toHaveLength(1);
    expect(suspect).toBe("C2");
  });

  test("turned up only so far says nothing of a rail that is low", async () => {
    const { input } = await of(first("+9V raw | 1 A | 0.1 A | 4.0 V | nothing | stays up"));
    expect(input.findings).toEqual([]);
  });
});

test("a part that is rather misread than faulty is read once more first", async () => {
  const { advice } = await of(table("Resistance", "Ref | Reading | Marked", "R2 | 151 k | 15k"));
  expect(advice.best).toMatchObject({ kind: "read-again", ref: "R2" });
});
