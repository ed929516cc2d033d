import { describe, expect, test } from "vitest";
import { type Renamed, renamed } from "../../support/mentions";

const BOARD = `//- a.board.yaml
mendlog-board: 1
id: a
title: Board a
circuits: { one: { title: One, note: round U14 } }
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC, regulator: U14 }
parts:
  U14: { device: 74LS04, circuit: one } # U14, once U13
  U15: { device: "7404" }
nets:
  ROW: [U14.3, "U15.4", U140.1]
  VCC: [U14.14]
matrices:
  sw: { kind: switch, title: Switches, rows: [ROW], columns: [VCC] }
memory:
  - { ref: U14, data: [0] }
expected:
  - { procedure: diode-check, ref: U14, pin: 3, low: 0.4 V, high: 0.6 V, source: "U14 on three boards" }
symptoms:
  dead: { title: Dead, circuits: [one] }
modifications:
  swap: { title: Swap, steps: [Take U14 out], parts: [], requires: [], conflicts: [], revisions: [] }
cautions: [U14 runs hot.]
`;
const log = (name: string, board: string, body: string): string => `//- ${name}.md
---
mendlog: 1
board: ${board}
symptoms: [dead, U14 gets hot]
---

${body}
`;
const BODY = `# U14 out

U14 and u14.3, not U140 nor \`U14\`.

\`\`\`
U14
\`\`\`

## Diode check

| Ref | Pin | Reading | Note     |
| --- | --- | ------- | -------- |
| U14 | 3   | 0.5     | ROW, U14 |

## Diode check

| Pin | U14 |
| --- | --- |
| 1   | 0.5 |

## Work done

| Ref | Action   | Part   |
| --- | -------- | ------ |
| U14 | replaced | 74LS04 |`;

const WORLD = BOARD + log("one", "a", BODY) + log("two", "b", BODY);
const at = (words: string, cursor: string): string => WORLD.replace(words, cursor);
const done = async (fixture: string, name: string): Promise<Renamed> => {
  const result = await renamed(fixture, name);
  if (typeof result === "string") throw new Error(result);
  return result;
};

describe("a designator", () => {
  test("is renamed in its board file and in every log of that board, and nowhere else", async () => {
    const expected = (text: string): string =>
      text
        .replaceAll(/\bU14\b/g, "U21")
        .replace("u14", "u21")
        .replace("`U21`", "`U14`")
        .replace("```\nU21", "```\nU14");
    for (const fixture of [at("  U14: ", "  U1$04: "), at("# U14 out", "# U$014 out")]) {
      const { files, loose } = await done(fixture, "U21");
      const before = (await done(fixture, "U14")).files;
      expect(files["a.board.yaml"]).toBe(expected(before["a.board.yaml"]!));
      expect(files["one.md"]).toBe(expected(before["one.md"]!));
      expect(files["two.md"]).toBe(before["two.md"]);
      // What only words say is left for a person to agree to.
      expect(loose).toEqual([
        ...[4, 8, 18, 22, 23].map((line) => `a.board.yaml ${line}`),
        ...[4, 9, 9, 19].map((line) => `one.md ${line}`),
      ]);
    }
  });

  test.each([
    ["21", /no designator/],
    ["U 1", /no designator/],
    ["U15", /another part of a already/],
    ["u15", /another part of a already/],
    ["IC", /everyday word/],
    ["LM339", /is a part number \(/],
    ["U15-2", /read as a pin of U15/],
  ])("cannot become %s", async (name, why) => {
    expect(await renamed(at("  U14: ", "  U1$04: "), name)).toMatch(why);
  });
});

test("a net, a symptom and a board id are renamed as well", async () => {
  const net = await done(at("  ROW: ", "  RO$0W: "), "SW_ROW");
  expect(net.files["a.board.yaml"]).toContain('  SW_ROW: [U14.3, "U15.4", U140.1]');
  expect(net.files["a.board.yaml"]).toContain("rows: [SW_ROW], columns");
  expect(net.files["one.md"]).toContain("| SW_ROW, U14 |");
  const symptom = await done(at("[dead,", "[de$0ad,"), "silent");
  expect(symptom.files["a.board.yaml"]).toContain("  silent: { title: Dead");
  expect(symptom.files["one.md"]).toContain("symptoms: [silent, U14");
  expect(symptom.files["two.md"]).toContain("symptoms: [dead, U14");
  const board = await done(at("id: a\n", "id: $0a\n"), "driver-2");
  expect(board.files["a.board.yaml"]).toContain("\nid: driver-2\n");
  expect(board.files["one.md"]).toContain("\nboard: driver-2\n");
  expect(board.files["two.md"]).toContain("\nboard: b\n");
  expect(await renamed(at("  ROW: ", "  RO$0W: "), "VCC")).toMatch(/There is a net VCC already/);
  expect(await renamed(at("  ROW: ", "  RO$0W: "), "A|B")).toMatch(/read as something else/);
  expect(await renamed(at("id: a\n", "id: $0a\n"), "a b")).toMatch(/is no id/);
});

test("a name that YAML would read as a number is put in quotes", async () => {
  const { files } = await done(at("[dead,", "[de$0ad,"), "404");
  expect(files["a.board.yaml"]).toContain('  "404": { title: Dead');
  expect(files["one.md"]).toContain('symptoms: ["404", U14');
});

test("what cannot be renamed says why", async () => {
  expect(await renamed(at('"+5V"', '"+5$0V"'), "x")).toMatch(/many ways/);
  expect(await renamed(at("device: 74LS04", "device: 74L$0S04"), "x")).toMatch(/printed on the part/);
  expect(await renamed(at("not U140", "n$0ot U140"), "x")).toMatch(/nothing here that can be renamed/);
});

test("nothing is renamed while the board file cannot be read", async () => {
  const broken = at("# U14 out", "# U$014 out").replace("cautions: [", "cautions: [[");
  expect(await renamed(broken, "U21")).toMatch(/a\.board\.yaml cannot be read to its end \(line \d+\)/);
});

test("the parts list written into a log stays what was written", async () => {
  const { writePartsSection } = await import("../../../server/src/log/parts-section");
  const section = writePartsSection("| Part | Ref |\n| --- | --- |\n| 74LS04 | U14 |", 0, "\n");
  const world = BOARD.replace("  U14: ", "  U1$04: ") + log("one", "a", section);
  const { files } = await done(world, "U21");
  expect(files["one.md"]).toContain(
    writePartsSection("| Part | Ref |\n| --- | --- |\n| 74LS04 | U21 |", 0, "\n"),
  );
});
