import { describe, expect, test } from "vitest";
import { foldsOfKnowledge, symbolsOfKnowledge } from "../../../server/src/features/knowledge";
import type { DocumentSymbol } from "../../../server/src/features/types";
import { board } from "./board";
import { definitions, openKnowledge } from "./support";

const outline = (symbols: readonly DocumentSymbol[], depth = 0): string[] =>
  symbols.flatMap(({ name, detail, kind, children }) => [
    `${"  ".repeat(depth)}${kind} ${name}${detail === undefined ? "" : `: ${detail}`}`,
    ...outline(children, depth + 1),
  ]);

describe("definition", () => {
  test.each([
    ["a circuit", board().replace("circuit: display", "circuit: dis$0play"), "display: { title: Display }"],
    ["a net of a rail", board().replace("net: VCC", "net: V$0CC"), "VCC: [U14.14, R12.1, TP1.1]"],
    ["a net of a matrix", board("matrices:\n  sw: { rows: [ROW$0_1] }\n"), "ROW_1: [U14.2, U15.3]"],
    ["a ground", board().replace("grounds: [GND]", "grounds: [G$0ND]"), "GND: [U14.7, U15.7]"],
    ["a part on a net", board().replace("[U14.2, U15.3]", "[U14.2, U1$05.3]"), "U15: { device: 74LS74 }"],
    ["a part of an expected reading", board("expected:\n  - { ref: U1$05 }\n"), "U15: { device: 74LS74 }"],
    [
      "a pin of an expected reading",
      board("expected:\n  - { ref: U15, pin: 3$0 }\n"),
      "ROW_1: [U14.2, U15.3]",
    ],
    ["a rail", board('expected:\n  - { rail: "+$05V" }\n'), '"+5V": { nominal: 5 V'],
    ["a revision", board("rom-sets:\n  one: { revision: $0B }\n"), "B: battery moved"],
    ["a switch bank", board("switch-banks:\n  SW$01: { settings: [] }\n"), "SW1: { value: 8-way switch }"],
    [
      "a matrix",
      board("matrices:\n  sw: { kind: switch }\nproving:\n  - { id: a, matrix: s$0w }\n"),
      "sw: { kind: switch }",
    ],
  ])("%s", async (_, fixture, line) => {
    const found = await definitions(fixture);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(`test.board.yaml: ${line}`);
  });

  test("a gate's pin, and a device of the workspace", async () => {
    const device = `//- own.device.yaml
mendlog-device: 1
id: X1
title: Buffer
kind: logic
package: { name: DIP-4, pins: 4 }
source: invented
pins:
  1: { name: A, direction: input }
`;
    expect(await definitions(`${device}gates:\n  - { inputs: [$01] }\n`)).toEqual([
      "own.device.yaml: 1: { name: A, direction: input }",
    ]);
    expect(await definitions(`${device}//- test.board.yaml\n${board().replace("74LS74", "X$01")}`)).toEqual([
      "own.device.yaml: id: X1",
    ]);
  });

  test("nowhere for names that are not there, and for devices that come with the program", async () => {
    expect(await definitions(board().replace("circuit: display", "circuit: no$0ne"))).toEqual([]);
    expect(await definitions(board().replace("device: 74LS74", "device: 74$0LS74"))).toEqual([]);
  });
});

describe("outline", () => {
  test("a board: groups, what each entry is", async () => {
    const more = `matrices:
  sw: { kind: switch, title: Switch matrix }
expected:
  - { procedure: diode-check, ref: U15, pin: 3 }
  - { procedure: resistance-to-ground, rail: "+5V" }
`;
    const { file } = await openKnowledge(board(more));
    const lines = outline(symbolsOfKnowledge(file));
    expect(lines).toEqual(
      expect.arrayContaining([
        "field id: test",
        "group parts: 6",
        "  part U14: 74LS04",
        "  part R12: 4k7",
        "  net VCC: 3 pins",
        "  rail +5V: 5 V ± 5 %",
        "  field reset: Reset circuit",
        "  field sw: Switch matrix",
        "  field U15.3: diode-check",
        "  field +5V: resistance-to-ground",
      ]),
    );
    expect(lines.indexOf("group parts: 6")).toBeLessThan(lines.indexOf("  part U14: 74LS04"));
  });

  test("every selection lies in its symbol and every symbol in its parent", async () => {
    const { file } = await openKnowledge(
      board("x-a: &a { k: 1 }\nmodifications: *a\nsymptoms:\n  '': { title: T }\n"),
    );
    const check = ({ span, selection, children, name }: DocumentSymbol): void => {
      expect(name).not.toBe("");
      expect(selection.start).toBeGreaterThanOrEqual(span.start);
      expect(selection.end).toBeLessThanOrEqual(span.end);
      for (const child of children) {
        expect(child.span.start).toBeGreaterThanOrEqual(span.start);
        expect(child.span.end).toBeLessThanOrEqual(span.end);
        check(child);
      }
    };
    const symbols = symbolsOfKnowledge(file);
    expect(symbols.length).toBeGreaterThan(8);
    for (const symbol of symbols) check(symbol);
  });

  test("a shop and a device", async () => {
    const shop = await openKnowledge(
      "//- mendlog.shop.yaml\nmendlog-shop: 1\nmeters:\n  b: { title: Bench meter }\nstock:\n  - { part: 7404, quantity: 3 }\n",
    );
    expect(outline(symbolsOfKnowledge(shop.file))).toEqual([
      "field mendlog-shop: 1",
      "group meters: 1",
      "  part b: Bench meter",
      "group stock: 1",
      "  part 7404: 3",
    ]);
    const device = await openKnowledge("//- own.device.yaml\npins:\n  7: { name: GND, direction: ground }\n");
    expect(outline(symbolsOfKnowledge(device.file))).toEqual(["group pins: 1", "  field 7: GND ground"]);
  });
});

describe("folds", () => {
  test("keys and entries of several lines, and comments of several lines", async () => {
    const { file } = await openKnowledge(`# one
# two
id: x
circuits:
  reset:
    title: |
      # not a
      # comment
  display: { title: D }
nets:
  A: [U1.1,
    U1.2]
  B: [U1.3]
proving:
  - id: a
    title: A
`);
    const folds = foldsOfKnowledge(file).map(({ span, kind }) => {
      const lines = file.text.slice(span.start, span.end).split("\n");
      return `${kind} ${lines[0]?.trim()} +${lines.filter((line) => line.trim() !== "").length - 1}`;
    });
    expect(folds).toEqual([
      "section circuits: +5",
      "section reset: +3",
      "section title: | +2",
      "section nets: +3",
      "section A: [U1.1, +1",
      "section proving: +2",
      "section id: a +1",
      "comment # one +1",
    ]);
  });

  test.each([
    ["an empty file", ""],
    ["a list", "- a\n"],
    ["words", "just words\n"],
  ])("%s has neither", async (_what, text) => {
    const { file } = await openKnowledge(`//- test.board.yaml\n${text}`);
    expect(symbolsOfKnowledge(file)).toEqual([]);
    expect(foldsOfKnowledge(file)).toEqual([]);
  });
});
