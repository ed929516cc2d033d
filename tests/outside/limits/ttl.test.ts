// Levels and supply windows of the logic families against figures printed on makers' sheets, and the noise
// margins that follow from them.
import { describe, expect, test } from "vitest";
import { readKind } from "../../../server/build/library.js";

interface FamilyFile {
  readonly id: string;
  readonly supply?: readonly [string, string];
  readonly levels?: Readonly<Record<"vih" | "vil" | "voh" | "vol" | "source", string>>;
  readonly source: string;
}

const FAMILIES = new Map(
  readKind("families").map(({ data }) => [(data as FamilyFile).id, data as FamilyFile] as const),
);

function volts(text: string | undefined): number {
  const match = /^(-?\d+(?:\.\d+)?) V$/.exec(text ?? "");
  if (match === null) throw new Error(`not a voltage: ${text}`);
  return Number(match[1]);
}

function levels(id: string) {
  const given = FAMILIES.get(id)?.levels;
  return { vih: volts(given?.vih), vil: volts(given?.vil), voh: volts(given?.voh), vol: volts(given?.vol) };
}

const supply = (id: string) => FAMILIES.get(id)?.supply?.map(volts);

describe("levels and supply windows", () => {
  // SN7400 data sheet, recommended operating conditions and electrical characteristics: from memory.
  test("standard TTL has the data sheet's levels and supply", () => {
    expect(supply("TTL")).toEqual([4.75, 5.25]);
    expect(levels("TTL")).toEqual({ vih: 2, vil: 0.8, voh: 2.4, vol: 0.4 });
    expect(FAMILIES.get("TTL")?.levels?.source).toContain("from memory");
  });

  // SN74LS00 data sheet: VIH 2.0, VIL 0.8, VOH 2.7, VOL 0.4 V at 4 mA, 4.75 V to 5.25 V.
  test("LS, whose VOL is given at the full current and so above the figure at 4 mA", () => {
    expect(supply("LS")).toEqual([4.75, 5.25]);
    const { vol, ...rest } = levels("LS");
    expect(rest).toEqual({ vih: 2, vil: 0.8, voh: 2.7 });
    expect(vol).toBeGreaterThan(0.4);
    expect(vol).toBeLessThan(rest.vil);
    expect(FAMILIES.get("LS")?.levels?.source).toMatch(/0\.4 V at 4 mA.*from memory/);
  });

  // 74HC04 data sheet, supply 4.5 V: VIH 3.15, VIL 1.35; that is 70 % and 30 % of the supply.
  test("HC has 70 % and 30 % of its supply", () => {
    expect(levels("HC")).toMatchObject({ vih: 3.15, vil: 1.35 });
    expect(levels("HC").vih / 4.5).toBeCloseTo(0.7, 10);
    expect(levels("HC").vil / 4.5).toBeCloseTo(0.3, 10);
  });

  // 74HCT00 data sheet: VIH 2.0, VIL 0.8.
  test("HCT takes TTL levels", () => {
    expect(levels("HCT")).toMatchObject({ vih: levels("TTL").vih, vil: levels("TTL").vil });
    expect(levels("HCT")).toMatchObject({ vih: 2, vil: 0.8 });
  });

  // CD4001B data sheet: VIH/VIL 3.5/1.5 at 5 V, 7/3 at 10 V, 11/4 at 15 V.
  test("4000 series at 5 V, with the other two supplies named in its source", () => {
    expect(levels("4000")).toMatchObject({ vih: 3.5, vil: 1.5 });
    const source = FAMILIES.get("4000")?.levels?.source;
    expect(source).toContain("7 V and 3 V at 10 V");
    expect(source).toContain("11 V and 4 V at 15 V");
    const [low, high] = supply("4000") ?? [];
    expect(low).toBeLessThanOrEqual(5);
    expect(high).toBeGreaterThanOrEqual(15);
  });

  test("every level and every diode window names its source", () => {
    for (const { id, levels: given, source } of FAMILIES.values()) {
      expect(source, id).toMatch(/\S/);
      if (given !== undefined)
        expect(given.source, id).toMatch(/data sheet|from memory|common practice, no source/);
    }
  });
});

/** Lower of the high and the low margin when `from` drives `to`, in volts. */
function margin(from: string, to: string): number {
  const driver = levels(from);
  const load = levels(to);
  return Math.min(driver.voh - load.vih, load.vil - driver.vol);
}

describe("noise margins", () => {
  test("TTL into TTL has 0.4 V both ways", () => {
    const { vih, vil, voh, vol } = levels("TTL");
    expect(voh - vih).toBeCloseTo(0.4, 10);
    expect(vil - vol).toBeCloseTo(0.4, 10);
  });

  test("LS into LS: 0.7 V high, 0.4 V low at 4 mA (0.3 V at the full current)", () => {
    const { vih, vil, voh } = levels("LS");
    expect(voh - vih).toBeCloseTo(0.7, 10);
    expect(vil - 0.4).toBeCloseTo(0.4, 10);
    expect(margin("LS", "LS")).toBeCloseTo(0.3, 10);
  });

  test.each(["TTL", "LS", "S", "ALS", "F"])(
    "a %s output does not promise a high to HC or 4000 inputs, but does to HCT",
    (driver) => {
      expect(margin(driver, "HC")).toBeLessThan(0);
      expect(margin(driver, "4000")).toBeLessThan(0);
      expect(margin(driver, "HCT")).toBeGreaterThan(0);
    },
  );

  test("every family can drive its own kind", () => {
    const withLevels = [...FAMILIES.values()].filter((family) => family.levels !== undefined);
    expect(withLevels.length).toBeGreaterThanOrEqual(9);
    for (const { id } of withLevels) expect(margin(id, id), id).toBeGreaterThan(0);
  });
});
