// Limits of single parts as their data sheets print them, against what the library gives for the part as its number is
// typed, and through the judges that use them. "Seen" figures were read on makers' sheets; the others say so.
import { describe, expect, test } from "vitest";
import { judgeJunctions } from "../../../server/src/compute/circuit/junction";
import type { JunctionWindow } from "../../../server/src/compute/circuit/junction-table";
import { dropoutHeadroom, judgeDissipation } from "../../../server/src/compute/circuit/regulator";
import { familyLevels } from "../../../server/src/compute/logic/family-levels";
import { compareToLevels } from "../../../server/src/compute/logic/levels";
import { inputTechnology } from "../../../server/src/compute/logic/technology";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { parseQuantity } from "../../../server/src/quantity/quantity";

const LIBRARY = builtinLibrary();

function part(typed: string) {
  const found = LIBRARY.device(typed);
  if (!found) throw new Error(`the library does not know ${typed}`);
  return found;
}

const volts = (text: string): number => {
  const parsed = parseQuantity(text, { unit: "V" });
  if (!parsed.ok || parsed.quantity.dimension !== "voltage") throw new Error(`not a voltage: ${text}`);
  return parsed.quantity.value;
};

function limit(typed: string, name: string): readonly [low: number, high: number] {
  const window = part(typed).device.limits.get(name);
  if (!window) throw new Error(`${typed} has no limit called ${name}`);
  return [volts(window[0]), volts(window[1])];
}

function levelsOf(typed: string) {
  const { family } = part(typed);
  const levels = family && familyLevels(family);
  if (!levels?.ok) throw new Error(`${typed} has no levels`);
  return { levels, technology: inputTechnology(family?.id), supply: family?.supply?.map(volts) };
}

/** Verdict and level of a voltage at an input of the part. */
function read(typed: string, value: number) {
  const { levels, technology } = levelsOf(typed);
  const found = compareToLevels({ volts: value, receiving: levels, technology });
  if (!found.ok) throw new Error(found.reason);
  return `${found.level}, ${found.verdict}`;
}

describe("gates by the number typed", () => {
  // SN7400: VIH 2, VIL 0.8, VOH 2.4, VOL 0.4, 4.75 V to 5.25 V: from memory.
  test.each(["7400", "SN7400N"])("%s is standard TTL", (typed) => {
    const { levels, supply } = levelsOf(typed);
    expect(levels).toMatchObject({ vih: 2, vil: 0.8, voh: 2.4, vol: 0.4 });
    expect(supply).toEqual([4.75, 5.25]);
    expect(levels.source).toContain("from memory");
  });

  // SN74LS00 (seen): VIH 2, VIL 0.8, VOH 2.7, VOL 0.4 at 4 mA, 4.75 V to 5.25 V; the 74LS04 shares them (from memory).
  test.each(["74LS04", "SN74LS04N", "DM74LS04N"])("%s is LS", (typed) => {
    const { levels, supply } = levelsOf(typed);
    expect(levels).toMatchObject({ vih: 2, vil: 0.8, voh: 2.7 });
    expect(levels.vol).toBeGreaterThanOrEqual(0.4);
    expect(supply).toEqual([4.75, 5.25]);
    expect(part(typed).device.id).toBe("7404");
  });

  // 74HC04 at 4.5 V (seen): VIH 3.15, VIL 1.35; the 74HC00 shares them (from memory). Supply 2 V to 6 V: from memory.
  test.each(["74HC00", "MM74HC00N"])("%s is HC", (typed) => {
    const { levels, supply } = levelsOf(typed);
    expect(levels).toMatchObject({ vih: 3.15, vil: 1.35 });
    expect(levels.source).toMatch(/74HC04 data sheet at a supply of 4\.5 V.*from memory/);
    expect(supply).toEqual([2, 6]);
  });

  test("one voltage is read by who receives it", () => {
    expect(read("7400", 2.5)).toBe("high, within-limits");
    expect(read("74HCT00", 2.5)).toBe("high, within-limits");
    expect(read("74HC00", 2.5)).toBe("undefined, out-of-limits");
    expect(read("74HC00", 1.2)).toBe("low, within-limits");
    expect(read("74LS04", 1.2)).toBe("undefined, out-of-limits");
    expect(read("CD4011BE", 3.6)).toBe("high, within-limits");
    expect(read("CD4011BE", 3.4)).toBe("undefined, out-of-limits");
  });
});

describe("7805", () => {
  // LM7805 (seen): 4.80 V to 5.20 V at 25 C, dropout 2 V. Input at most 35 V, recommended 25 V: from memory.
  test.each(["7805", "LM7805", "MC7805CT"])(
    "%s has the data sheet's output, and an input above it by the dropout",
    (typed) => {
      expect(limit(typed, "output")).toEqual([4.8, 5.2]);
      const [least, most] = limit(typed, "supply");
      expect(least - 5).toBeCloseTo(2, 10);
      expect(most).toBeLessThanOrEqual(35);
      const { source } = part(typed).device;
      expect(source).toMatch(/LM7805 data sheet/);
      expect(source).toMatch(/from memory/);
    },
  );

  test("the least input of the library is where the headroom ends", () => {
    const [least] = limit("7805", "supply");
    const given = { output: 5, dropout: 2, dropoutSource: "LM7805 data sheet" };
    const verdict = (inputMinimum: number) => {
      const found = dropoutHeadroom({ ...given, inputMinimum });
      return found.ok ? found.verdict : found.reason;
    };
    expect(verdict(least)).toBe("within-limits");
    expect(verdict(least - 0.01)).toBe("out-of-limits");
  });

  // About 65 K/W from junction to air in TO-220 without a heat sink, 125 C at most: from memory. (125 - 25) / 65 = 1.5 W.
  test("an ampere from 9 V needs a heat sink", () => {
    const found = judgeDissipation({
      input: 9,
      output: 5,
      current: 1,
      limit: 100 / 65,
      limitSource: "TO-220 in free air, from memory",
    });
    expect(found.ok && found.verdict).toBe("out-of-limits");
  });
});

/** Verdict on readings of a transistor, in volts, with the windows of its own file. */
function junctions(typed: string, readings: Parameters<typeof judgeJunctions>[0]["readings"]) {
  const { device, family } = part(typed);
  const type = family?.id;
  if (type !== "NPN" && type !== "NPN-Darlington") throw new Error(`${typed} is ${type}`);
  const windows = Object.fromEntries(
    [...device.limits.keys()].map((name) => [name, limit(typed, name)] as const),
  ) as Partial<Record<JunctionWindow, readonly [number, number]>>;
  const found = judgeJunctions({ type, readings, windows, windowSource: device.source, inCircuit: false });
  if (!found.ok) throw new Error(found.reason);
  return found;
}

describe("transistors", () => {
  // 2N3904: VBE(sat) 0.65 V to 0.85 V at 10 mA with 1 mA into the base, from memory. A meter's milliampere in the base
  // alone makes a little less: so the window has to reach below 0.65 V and needs nothing above 0.85 V.
  test("the 2N3904's base-emitter window holds its data sheet's voltage and a meter's less", () => {
    const [low, high] = limit("2N3904", "base-emitter");
    expect(low).toBeLessThan(0.65);
    expect(low).toBeGreaterThan(0.4);
    expect(high).toBeGreaterThan(0.65);
    expect(high).toBeLessThanOrEqual(0.85);
    expect(part("2N3904").device.source).toMatch(/junction windows: common practice, no source/);
    expect(junctions("2N3904", { be: 0.68, bc: 0.67 }).verdict).toBe("within-limits");
    expect(junctions("2N3904", { be: 1.25 }).verdict).toBe("out-of-limits");
  });

  // TIP102: 8 A, 100 V; VBE(on) 2.8 V at most, at 8 A, from memory: two junctions and the drop in their resistance, far
  // above what a meter's milliampere makes of the same two junctions.
  test.each(["TIP102", "TIP122", "TIP120"])(
    "%s reads two junctions, below its full-current figure",
    (typed) => {
      const [low, high] = limit(typed, "base-emitter");
      const [, single] = limit(typed, "base-collector");
      expect(high).toBeGreaterThan(single + 0.4);
      expect(high).toBeLessThan(2.8);
      expect(low).toBeGreaterThan(0.4);
      expect(junctions(typed, { be: 1.2, bc: 0.62 }).verdict).toBe("within-limits");
      expect(junctions(typed, { be: 1.2, bc: 1.2 }).verdict).toBe("out-of-limits");
      expect(part(typed).device.source).toMatch(/from memory/);
    },
  );

  test("the ratings in the TIP102's title are its own and not the TIP122's", () => {
    expect(part("TIP102").device.title).toMatch(/8 A, 100 V/);
    expect(part("TIP122").device.title).toMatch(/5 A, 100 V/);
  });
});

describe("2114", () => {
  // 5 V with 5 % or 10 % by maker and grade: from memory. The wider one lets no sound supply be called out.
  test("its supply window is one that sheets of the part print", () => {
    expect([
      [4.75, 5.25],
      [4.5, 5.5],
    ]).toContainEqual(limit("2114", "supply"));
    expect(part("2114").device.source).toMatch(/from memory/);
    expect(part("2114L").device.id).toBe("2114");
  });

  // 2114: VIH 2.0, VIL 0.8, VOH 2.4, VOL 0.4, TTL levels all round: from memory.
  test("its levels are TTL levels", () => {
    const { levels, technology } = levelsOf("2114");
    expect(levels).toMatchObject({ vih: 2, vil: 0.8, voh: 2.4, vol: 0.4 });
    expect(levels.source).toContain("from memory");
    expect(technology).toBe("unknown");
  });
});

test("no part checked here claims a source beyond data sheets, memory, practice and this repository's comparisons", () => {
  for (const typed of ["7400", "74LS04", "74HC00", "7805", "2N3904", "TIP102", "2114"]) {
    const statements = part(typed)
      .device.source.split(";")
      .map((statement) => statement.trim());
    for (const statement of statements) {
      expect(statement, typed).toMatch(
        /from memory|common practice, no source|compared with the KiCad symbol library|data sheet$/,
      );
    }
  }
});
