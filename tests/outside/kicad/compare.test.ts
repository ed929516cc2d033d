// The comparison itself must be able to fail: symbols drawn here, with one thing wrong each.
import { describe, expect, test } from "vitest";
import { differences, type OurDevice } from "./compare";
import { parseSExpr } from "./sexpr";
import type { SymbolPins } from "./symbols";

const device: OurDevice = {
  id: "test",
  kind: "logic",
  package: { name: "DIP-8", pins: 8 },
  source: "invented",
  pins: {
    1: { name: "1J", direction: "input", unit: "1" },
    2: { name: "1K", direction: "input", unit: "1" },
    3: { name: "1Q", direction: "output", unit: "1" },
    4: { name: "GND", direction: "ground" },
    5: { name: "2J", direction: "input", unit: "2" },
    6: { name: "2Q", direction: "output", unit: "2" },
    7: { name: "NC", direction: "not-connected" },
    8: { name: "VCC", direction: "supply" },
  },
};

type Row = readonly [
  pin: string,
  name: string,
  direction: "input" | "output" | "ground" | "supply",
  unit: string,
];
const RIGHT: readonly Row[] = [
  ["1", "J", "input", "1"],
  ["2", "K", "input", "1"],
  ["3", "Q", "output", "1"],
  ["4", "GND", "ground", "3"],
  ["5", "J", "input", "2"],
  ["6", "Q", "output", "2"],
  ["8", "VCC", "supply", "3"],
];
const drawn = (rows: readonly Row[]): SymbolPins =>
  new Map(rows.map(([number, name, direction, unit]) => [number, { number, name, direction, unit }]));
const changed = (pin: string, row: Row): Row[] => RIGHT.map((old) => (old[0] === pin ? row : old));

describe("comparing a device with a symbol", () => {
  test("nothing to say where they agree, a left-out unconnected pin included", () => {
    expect(differences(device, drawn(RIGHT))).toEqual([]);
  });

  test("a direction, a missing pin and a pin too many", () => {
    expect(differences(device, drawn(changed("3", ["3", "Q", "input", "1"])))).toEqual([
      { pin: "3", ours: "output", theirs: "input" },
    ]);
    expect(differences(device, drawn(RIGHT.filter(([pin]) => pin !== "8")))).toEqual([
      { pin: "8", ours: "supply", theirs: "absent" },
    ]);
    expect(differences(device, drawn([...RIGHT, ["9", "X", "input", "1"]]))).toEqual([
      { pin: "9", ours: "absent", theirs: "input" },
    ]);
    expect(differences(device, drawn([...RIGHT, ["7", "X", "input", "1"]]))).toEqual([
      { pin: "7", ours: "not-connected", theirs: "input" },
    ]);
  });

  test("supply and ground the wrong way round", () => {
    const swapped = changed("4", ["4", "VCC", "supply", "3"]).map(
      (row): Row => (row[0] === "8" ? ["8", "GND", "ground", "3"] : row),
    );
    expect(differences(device, drawn(swapped)).map(({ pin }) => pin)).toContain("4");
    expect(differences(device, drawn(swapped)).map(({ pin }) => pin)).toContain("8");
  });

  test("two inputs of one gate swapped, and a pin in the wrong gate", () => {
    const swapped = changed("1", ["1", "K", "input", "1"]).map(
      (row): Row => (row[0] === "2" ? ["2", "J", "input", "1"] : row),
    );
    expect(differences(device, drawn(swapped))).toEqual([
      { pin: "1", ours: "J", theirs: "J on pin 2" },
      { pin: "2", ours: "K", theirs: "K on pin 1" },
    ]);
    expect(differences(device, drawn(changed("2", ["2", "K", "input", "2"])))).toEqual([
      { pin: "2", ours: "gate 1", theirs: "drawn in gate 2" },
    ]);
  });
});

describe("reading the symbol text", () => {
  test("lists, words and quoted strings", () => {
    expect(parseSExpr('(a "b \\"c\\" (d)" (e 1.5) ())')).toEqual(["a", 'b "c" (d)', ["e", "1.5"], []]);
  });

  test("unbalanced text is refused", () => {
    expect(() => parseSExpr("(a (b)")).toThrow(/unfinished/);
    expect(() => parseSExpr(")")).toThrow(/unexpected/);
  });
});
