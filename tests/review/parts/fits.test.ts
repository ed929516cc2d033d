import { describe, expect, test } from "vitest";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import type { Part } from "../../../server/src/knowledge/types";
import { actionOf } from "../../../server/src/log/timeline/actions";
import { isPlanned } from "../../../server/src/log/timeline/words";
import { designators } from "../../../server/src/log/timeline/work";
import { fitAt } from "../../../server/src/review/parts/fits";
import { countedPart } from "../../../server/src/review/parts/modifications";
import { comparePassive, passiveOf, standardText } from "../../../server/src/review/parts/passive";
import { safetyWord, saysDefeated } from "../../../server/src/review/parts/safety";
import { pinsOfSocket } from "../../../server/src/review/parts/sockets";

const library = builtinLibrary();
const at = (part: Partial<Part>): Part => ({ ref: "U1", fits: [], socketed: false, ...part });

describe("whether a part fits", () => {
  test.each([
    ["74LS04", [], "74ls04", "same"],
    ["74LS04", [], "SN74LS04N", "same"],
    ["74LS04", ["7404"], "7404", "listed"],
    ["74LS04", ["7404"], "SN7404N", "listed"],
    ["74LS04", [], "74ALS04", "other-family"],
    ["74LS04", [], "74LS08", "wrong"],
    ["74LS04", [], "2114", "wrong"],
    ["74LS04", [], "something else", "unknown"],
    ["no such part", [], "74LS04", "unknown"],
    ["2N3904", [], "2N3906", "wrong"],
  ] as const)("%s, also %j: %s is %s", (device, fits, typed, kind) => {
    expect(fitAt(at({ device, fits: [...fits] }), typed, library).kind).toBe(kind);
  });

  test.each([
    ["R12", "4k7", "4k7 1 %", "same"],
    ["R12", "4k7", "4.7 kohm", "same"],
    ["R12", "4k7", "47k", "wrong"],
    ["R17", "330", "330", "same"],
    ["R17", "330", "390", "wrong"],
    ["R1", "1k 0.5 W", "1k 1/4 W", "wrong"],
    ["R1", "1k 0.5 W", "1k 1 W", "same"],
    ["R1", "1k 0.5 W", "1k", "unknown"],
    ["C1", "10 uF 16 V", "10 µF 25 V", "same"],
    ["C1", "10 uF 16 V", "10 uF 10 V", "wrong"],
    ["C1", "10 uF 16 V", "10 uF", "unknown"],
    ["C1", "10 uF 16 V", "22 uF 16 V", "wrong"],
    ["C1", "10 uF 16 V", "4k7", "wrong"],
    ["C1", "10 uF 16 V", "74LS04", "wrong"],
    ["F4", "fuse 4 A slow", "4 A slow fuse", "same"],
    ["F4", "fuse 4 A slow", "fuse 8 A slow", "wrong"],
    ["F4", "fuse 4 A slow", "fuse 4 A fast", "wrong"],
    ["F4", "fuse 4 A slow", "fuse 4 A", "unknown"],
    ["RN1", "8 x 1k, SIP-9", "8 x 10k, SIP-9", "unknown"],
  ] as const)("%s %s: %s is %s", (ref, value, typed, kind) => {
    expect(fitAt(at({ ref, value }), typed, library).kind).toBe(kind);
  });

  test("a substitute of the library brings its caution", () => {
    const found = library.devices.flatMap((device) =>
      device.substitutes
        .filter(({ part }) => library.device(part) && library.device(part)?.device !== device)
        .map((substitute) => ({ device, substitute })),
    );
    expect(found.length).toBeGreaterThan(20);
    for (const { device, substitute } of found) {
      const fit = fitAt(at({ device: device.id }), substitute.part, library);
      expect([device.id, substitute.part, fit.kind]).toEqual([device.id, substitute.part, "substitute"]);
      if (fit.kind === "substitute") expect(fit.caution).not.toBe("");
    }
  });
});

test.each([
  ["10 uF 16 V", "10 µF (E3), 16 V or more"],
  ["4k7 0.5 W", "4.7 kΩ (E3), 500 mW or more"],
  ["5k 5 %", "5.1 kΩ (E24)"],
  ["12 uF 25 V", "12 µF (E12), 25 V or more"],
  ["50 uF 25 V", "47 µF (E6), 25 V or more"],
  // Ratings that are made no more, and values the common series miss by more than the tolerance.
  ["50 uF 15 V", "47 µF (E6), 16 V or more"],
  ["2 uF 12 V", "2 µF (E24), 16 V or more"],
  ["4k7 0.4 W", "4.7 kΩ (E3), 500 mW or more"],
  ["5k 1 %", "4.99 kΩ (E96)"],
  ["5k 0.1 %", "4.99 kΩ (E192), outside the original's 0.1 %: ask whether it matters there"],
])("%s: the nearest that is made is %s", (text, wanted) => {
  const passive = passiveOf(text, "resistance");
  expect(passive && standardText(passive)).toBe(wanted);
});

test("a bare number is ohms only where a resistor belongs", () => {
  expect(passiveOf("470")).toBeUndefined();
  expect(passiveOf("470", "resistance")?.value).toBe(470);
  expect(passiveOf("7805")).toBeUndefined();
  expect(passiveOf("4 MHz crystal")).toBeUndefined();
  const [ten, more] = [passiveOf("10 uF 16 V"), passiveOf("10.5 uF 35 V")];
  expect(ten && more && comparePassive(ten, more)).toBe("within-tolerance");
});

test.each([
  ["U14", ["U14"]],
  ["u14 (74LS04)", ["U14"]],
  ["U3, U4 and U9", ["U3", "U4", "U9"]],
  ["C10-C13", ["C10", "C11", "C12", "C13"]],
  ["Q1 to 3", ["Q1", "Q2", "Q3"]],
  ["R9-R3", ["R9"]],
  ["C1-C9999", ["C1"]],
  ["", []],
])("%s names %j", (typed, wanted) => {
  expect(designators(typed)).toEqual(wanted);
});

test.each([
  ["replaced", "replace"],
  ["fitted new", "replace"],
  ["Socketed", "socket"],
  ["reflowed", "reflow"],
  ["washed and dried", "clean"],
  ["linked", "jumper"],
  ["cut", "cut"],
  ["pulled", "remove"],
  ["fit modification", "fit-modification"],
  ["fitted", "fit"],
  ["reprogrammed", "reprogram"],
  ["talked to", undefined],
])("%s is %s", (typed, wanted) => {
  expect(actionOf(typed)).toBe(wanted);
});

test.each(["to replace", "To be socketed", "planned", "plan: fit modification", "will replace"])(
  "%s is a plan",
  (text) => expect(isPlanned(text)).toBe(true),
);

test.each(["replaced", "touched up", "fit modification", "topped up", ""])("%j is no plan", (text) => {
  expect(isPlanned(text)).toBe(false);
});

test("sockets, counts and safety words", () => {
  expect(
    ["DIP-16 socket", "16-pin socket", "socket, 16 way", "DIL 16 socket", "socket", "DIP-16"].map(
      pinsOfSocket,
    ),
  ).toEqual([16, 16, 16, 16, undefined, undefined]);
  expect(countedPart("32 x 1N4148")).toEqual({ quantity: 32, part: "1N4148" });
  expect(countedPart("8 x 100 ohm")).toEqual({ quantity: 8, part: "100 ohm" });
  expect(countedPart("1 F 5.5 V capacitor")).toEqual({ quantity: 1, part: "1 F 5.5 V capacitor" });
  expect(safetyWord("the Slam switch")).toBe("slam");
  expect(safetyWord("salami")).toBeUndefined();
  expect(saysDefeated("tilt bypassed")).toBe(true);
});
