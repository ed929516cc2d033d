import { expect, test } from "vitest";
import { buildLibrary, builtinLibrary, extend } from "../../server/src/knowledge/library";
import { shapeDevice, shapeFamily, shapeProcedure } from "../../server/src/knowledge/shape-library";
import { shapeMaker } from "../../server/src/knowledge/shape-maker";
import { cpuTime } from "../support/cpu-time";

const device = (id: string, families: string[], aliases: string[] = []) =>
  shapeDevice({ id, families, aliases })!;
const family = (id: string, letters?: string) => shapeFamily({ id, letters })!;
const procedure = (id: string, title: string, aliases: string[] = []) =>
  shapeProcedure({ id, title, aliases })!;

const LIBRARY = buildLibrary(
  [
    device("7404", ["TTL", "LS", "S"]),
    device("7486", ["TTL", "LS"]),
    device("74107", ["TTL", "LS"]),
    device("74245", ["LS"]),
    device("4011", ["CMOS"]),
    device("4051", ["CMOS", "HC"]),
    device("6802", ["NMOS"]),
    device("6821", ["NMOS"], ["6820"]),
    device("2114", ["NMOS"]),
    device("2716", ["NMOS"]),
    device("7805", ["regulator"], ["LM340T-5"]),
    device("555", ["bipolar"]),
    device("324", ["bipolar"]),
    device("2N3904", ["NPN"]),
    device("2N2222", ["NPN"]),
    device("TIP102", ["NPN-Darlington"]),
    device("1N4148", ["diode"]),
    device("Z80", ["NMOS"]),
    device("6502", ["NMOS"]),
  ],
  [
    family("TTL", ""),
    family("LS", "LS"),
    family("S", "S"),
    family("L", "L"),
    family("HC", "HC"),
    family("NMOS"),
    family("CMOS"),
    family("NPN"),
  ],
  [
    procedure("diode-check", "Diode check", ["Diode readings", "Junction drops"]),
    procedure("supply-rails", "Supply rails", ["Rails", "Power supply rails"]),
    procedure("resistance", "Resistance"),
    procedure("resistance-to-ground", "Resistance to ground"),
    procedure("esr", "Capacitance and ESR"),
    procedure("dead", "Unpowered look"),
  ],
  [
    shapeMaker({
      id: "one",
      title: "One",
      prefixes: {
        SN: { for: "TTL", numbers: ["74*"] },
        DM: { for: "TTL", numbers: ["74*"] },
        MC: { for: "processors", numbers: ["68*"], another: { "7805": { is: "Clock" } } },
        MC1: { for: "CMOS", numbers: ["40xx*"] },
        CD: { for: "CMOS", numbers: ["40xx*"] },
        HEF: { for: "CMOS", numbers: ["40xx*"] },
        LM: { for: "linear circuits", numbers: ["324", "78*"] },
        NE: { for: "linear circuits", numbers: ["555"] },
        TMS: {
          for: "memories",
          another: { "2716": { is: "EPROM, three supplies" }, "4011": { is: "RAM", device: "2114" } },
        },
      },
    })!,
    shapeMaker({
      id: "two",
      title: "Two",
      marks: ["TWO"],
      prefixes: {
        R: { for: "processors", numbers: ["65*"] },
        D: { for: "memories", numbers: ["27*"] },
        TMS: { for: "CMOS", numbers: ["4011"] },
      },
    })!,
  ],
);

test.each([
  // typed, id, family
  ["7404", "7404", "TTL"],
  ["74LS04", "7404", "LS"],
  ["LS04", "7404", "LS"],
  ["'LS04", "7404", "LS"],
  ["'04", "7404", "TTL"],
  ["74ls04", "7404", "LS"],
  ["74 LS 04", "7404", "LS"],
  ["SN74LS04N", "7404", "LS"],
  ["DM7404N", "7404", "TTL"],
  ["SN5404J", "7404", "TTL"],
  ["54LS04", "7404", "LS"],
  ["74S04PC", "7404", "S"],
  ["SN74107N", "74107", "TTL"],
  ["SN74LS245N-10", "74245", "LS"],
  ["MM74HC04N", "7404", "HC"],
  ["74LVC04", "7404", undefined],
  ["74HC4051", "4051", "HC"],
  ["MC6802P", "6802", "NMOS"],
  ["6802", "6802", "NMOS"],
  ["MC68A21P", "6821", "NMOS"],
  ["68B02", "6802", "NMOS"],
  ["MC6820P", "6821", "NMOS"],
  ["R6502-11", "6502", "NMOS"],
  ["2114L-3", "2114", "NMOS"],
  ["D2716", "2716", "NMOS"],
  ["CD4011BE", "4011", "CMOS"],
  ["CD4011", "4011", "CMOS"],
  ["HEF4011BP", "4011", "CMOS"],
  ["MC14011BCP", "4011", "CMOS"],
  ["LM7805CT", "7805", undefined],
  ["lm340t-5", "7805", undefined],
  ["NE555P", "555", undefined],
  ["LM324N", "324", undefined],
  ["2N3904", "2N3904", "NPN"],
  ["2n2222a", "2N2222", "NPN"],
  ["TIP102G", "TIP102", undefined],
  ["1N4148", "1N4148", undefined],
  ["Z80A", "Z80", "NMOS"],
])("device %s is %s in family %s", (typed, id, familyId) => {
  const found = LIBRARY.device(typed);
  expect([found?.device.id, found?.family?.id, found?.typed]).toEqual([id, familyId, typed]);
});

test.each([
  ["", "nothing typed"],
  ["7499", "a number not in the library"],
  ["BF324", "a transistor whose digits are an op amp's"],
  ["NTE5404", "a thyristor whose digits are a 54 series gate's"],
  ["TMS2716", "the three-supply part with other pins"],
  ["MC7805", "another part of that maker's"],
  ["TMS4011", "two makers' parts with the same letters"],
  ["LM7404", "a maker of linear circuits"],
  ["XY6802", "letters that nobody is known to use"],
  ["74L86", "a low-power part with pins of its own"],
  ["S04", "letters that begin a designator as well"],
  ["F74", "letters that begin a designator as well"],
  ["N", "a letter"],
  ["7".repeat(500), "far too long"],
  ["__proto__", "a key of JavaScript's own"],
  ["constructor", "another"],
])("device %j is unknown: %s", (typed) => {
  expect(LIBRARY.device(typed)).toBeUndefined();
});

test("a number that is not certain tells what it may be, the makers' own parts first", () => {
  const told = (typed: string) => {
    const doubt = LIBRARY.doubt(typed);
    return (
      doubt && [
        doubt.letters,
        doubt.uses.map(({ maker, use }) => `${maker}: ${use}`),
        doubt.mayBe.map(({ is, maker, number, device }) => [number, maker, device?.id ?? is]),
      ]
    );
  };
  expect(told("TMS4011N")).toEqual([
    "TMS",
    ["One: memories", "Two: CMOS"],
    [
      ["TMS4011", "One", "2114"],
      ["TMS4011", "Two", "4011"],
    ],
  ]);
  expect(told("MC7805")).toEqual([
    "MC",
    ["One: processors"],
    [
      ["MC7805", "One", "Clock"],
      ["7805", undefined, "7805"],
    ],
  ]);
  expect(told("LM7404")).toEqual(["LM", ["One: linear circuits"], [["7404", undefined, "7404"]]]);
  expect(told("XY6802")).toEqual(["XY", [], [["6802", undefined, "6802"]]]);
});

test.each(["7404", "SN7404N", "MC6802", "", "74LS999", "BF324"])("%j leaves no doubt", (typed) => {
  expect(LIBRARY.doubt(typed)).toBeUndefined();
});

test.each([
  ["TWO R6502 8134", "6502"],
  ["8134 SN7404N", "7404"],
  ["SN7404N8134", "7404"],
  ["7404 8134", "7404"],
])("%s is read without what is no part of its number", (typed, id) => {
  expect(LIBRARY.device(typed)?.device.id).toBe(id);
});

test.each(["SN7404N 8154", "SN7404N 4711", "SN7404N FRITZ"])("%s is not", (typed) => {
  expect(LIBRARY.device(typed)).toBeUndefined();
});

test("a bare number tells what makers' letters make of it", () => {
  expect(LIBRARY.others("4011").map(({ number, is }) => `${number} ${is}`)).toEqual(["TMS4011 RAM"]);
  expect(LIBRARY.others("6802")).toEqual([]);
});

test("completion lists numbers with their families", () => {
  const labels = (prefix: string) =>
    LIBRARY.devicesMatching(prefix).map((m) => `${m.typed} ${m.family?.id ?? "?"}`);
  expect(labels("74ls0")).toEqual(["74LS04 LS"]);
  expect(labels("7404")).toEqual(["7404 TTL"]);
  expect(labels("2n")).toEqual(["2N2222 NPN", "2N3904 NPN"]);
  expect(labels("682")).toEqual(["6820 NMOS", "6821 NMOS"]);
  expect(labels("zzz")).toEqual([]);
  for (const match of LIBRARY.devicesMatching("")) {
    expect(LIBRARY.device(match.typed)?.device.id).toBe(match.device.id);
  }
});

test.each([
  ["Diode check", "diode-check", {}, "Diode check"],
  ["Diode check after repair", "diode-check", { repair: "after" }, "Diode check"],
  ["## After repair: diode check", "diode-check", { repair: "after" }, "Diode check"],
  ["After the repair, JUNCTION DROPS", "diode-check", { repair: "after" }, "Junction drops"],
  ["2. Diode check (U14)", "diode-check", {}, "Diode check"],
  ["2.1 **Diode** check - U14, before repair", "diode-check", { repair: "before" }, "Diode check"],
  ["Supply rails, loaded", "supply-rails", { load: "loaded" }, "Supply rails"],
  ["Unloaded power supply rails", "supply-rails", { load: "unloaded" }, "Power supply rails"],
  ["Supply (unloaded) rails", "supply-rails", { load: "unloaded" }, "Supply rails"],
  ["Resistance to ground, unpowered", "resistance-to-ground", { power: "unpowered" }, "Resistance to ground"],
  ["Resistance of the coils", "resistance", {}, "Resistance"],
  ["Capacitance & ESR", "esr", {}, "Capacitance and ESR"],
  ["Unpowered look", "dead", { power: "unpowered" }, "Unpowered look"],
])("heading %j is %s", (heading, id, qualifiers, matched) => {
  const found = LIBRARY.procedureFor(heading);
  expect(found?.procedure.id).toBe(id);
  expect(found?.qualifiers).toEqual(qualifiers);
  expect(found?.matched).toBe(matched);
  expect(LIBRARY.procedureFor(heading)).toBe(found);
});

test.each([
  "",
  "##",
  "Notes",
  "Diodes checked",
  "Dioden check",
  "Railsway",
  "After repair",
  "x ".repeat(5000),
])("heading %j names no procedure", (heading) => {
  expect(LIBRARY.procedureFor(heading)).toBeUndefined();
});

test("a workspace's own entries stand over the library's", () => {
  const own = extend(LIBRARY, {
    devices: [device("7404", ["LS"]), device("9316", ["TTL"], ["TMS2716"])],
    procedures: [procedure("diode-check", "Diode check"), procedure("own", "Rails")],
  });
  expect(own.device("7404")?.family?.id).toBe("LS");
  expect(own.device("TMS2716")?.device.id).toBe("9316");
  expect(own.device("6802")?.device.id).toBe("6802");
  expect(own.devices).toHaveLength(LIBRARY.devices.length + 1);
  expect(own.procedureFor("Junction drops")).toBeUndefined();
  expect(own.procedureFor("Rails")?.procedure.id).toBe("own");
  expect(LIBRARY.device("7404")?.family?.id).toBe("TTL");
});

test.each([
  ["SN74LS04N", "7404"],
  ["MC6802P", "6802"],
  ["CD4011BE", "4011"],
  ["2N3904", "2N3904"],
])("the built-in library takes %s for the %s", (typed, id) => {
  expect(builtinLibrary().device(typed)?.device.id).toBe(id);
});

test("no entry of the built-in library hides another", () => {
  const library = builtinLibrary();
  expect(builtinLibrary()).toBe(library);
  expect(library.procedureFor("Diode check after repair")?.procedure.id).toBe("diode-check");
  // Every id and every heading leads to its own.
  for (const { id, families } of library.devices) {
    expect(library.device(id)?.device.id).toBe(id);
    for (const known of families) expect(library.families.map((f) => f.id)).toContain(known);
  }
  for (const { id, title, aliases } of library.procedures) {
    for (const name of [title, ...aliases]) expect(library.procedureFor(name)?.procedure.id, name).toBe(id);
  }
});

test("look-ups are quick enough for every keystroke", () => {
  const library = builtinLibrary();
  const spent = cpuTime(() => {
    for (let i = 0; i < 2000; i++) {
      library.device(`SN74LS${i}N`);
      library.procedureFor(`Section ${i}: diode check of U${i} after repair`);
    }
  });
  // 4000 first-time look-ups; some 30 ms here, so this fails only where one goes over the whole library.
  expect(spent).toBeLessThan(400);
});
