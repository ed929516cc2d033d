import { expect, test } from "vitest";
import type { CombinedPart } from "../../../server/src/knowledge/import/combine";
import { matchPart } from "../../../server/src/knowledge/import/match";
import { builtinLibrary } from "../../../server/src/knowledge/library";

const upTo = (n: number): string[] => Array.from({ length: n }, (_, index) => String(index + 1));

function match(
  ref: string,
  value: string | undefined,
  pins: readonly string[] = [],
  more: Partial<CombinedPart> = {},
): string {
  const part = {
    ref,
    ...(value !== undefined && { value }),
    pins,
    allPins: pins.length > 0,
    from: { file: "a", format: "pcb" as const, line: 1 },
    ...more,
  };
  const found = matchPart(part, builtinLibrary());
  if (found.kind === "device")
    return `${found.device.id}${[...found.pins].map(([from, to]) => ` ${from}=${to}`).join("")}`;
  return found.kind === "value"
    ? `value ${found.typed ?? ""}`
    : `${found.kind} ${found.typed}: ${found.reason}`;
}

test.each<[string, string | undefined, readonly string[], string]>([
  ["U1", "74LS04", upTo(14), "7404"],
  ["U1", "SN74LS04N", [], "7404"],
  ["IC3", "74LS245 SOIC", upTo(20), "74245"],
  ["2C", "7404", upTo(14), "7404"],
  ["Q1", "2N3904", ["E", "B", "C"], "2N3904 E=1 B=2 C=3"],
  ["D1", "1N4148", ["K", "A"], "1N4148 K=1 A=2"],
  ["VR1", "7805", upTo(3), "7805"],
  ["VR1", "10k", upTo(3), "value 10k"],
  ["U5", "XC4003-VQ100", upTo(100), "unknown XC4003-VQ100: not in the library"],
  ["U5", "74LS99999", [], "unknown 74LS99999: not in the library"],
  ["R1", "2114", ["1", "2"], "value 2114"],
  ["C1", "7404", [], "value 7404"],
  ["U7", undefined, upTo(14), "value "],
  ["U7", "8 MHz", [], "value 8 MHz"],
  ["J1", "CONN_8X2", upTo(16), "value CONN_8X2"],
])("%s %s with pins %j is %s", (ref, value, pins, found) => expect(match(ref, value, pins)).toBe(found));

test("a number with other pins than the library's is not the library's part", () => {
  expect(match("U1", "74LS04", upTo(16))).toBe(
    "differs 74LS04: it has 16 pins, and the library's is a DIP-14 with 14",
  );
  expect(match("U1", "74LS04", ["20"], { allPins: false })).toBe(
    "differs 74LS04: it has a pin 20, and the library's is a DIP-14 with 14 pins",
  );
  expect(match("U3", "78L05", upTo(8))).toMatch(/^differs 78L05: it has 8 pins/);
  expect(match("U1", "74LS04", upTo(8))).toMatch(/^differs 74LS04: it has 8 pins/);
  expect(match("Q1", "2N3904", upTo(3), { package: "Package_TO_SOT_SMD:SOT-23" })).toMatch(
    /in its case the pins are numbered otherwise/,
  );
});

test("a netlist that leaves out what is not connected says nothing against the part", () => {
  expect(match("U1", "74LS04", ["1", "2"], { allPins: false })).toBe("7404");
});

test("a part number counts where the value is none", () => {
  expect(match("U1", "Hex inverter", [], { partNumber: "SN7404N" })).toBe("7404");
});
