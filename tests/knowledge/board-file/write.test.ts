import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type BoardDraft,
  EMPTY_DRAFT,
  idOf,
  mergeIntoBoardFile,
  writeBoardFile,
} from "../../../server/src/knowledge/board-file";
import { expectedKey } from "../../../server/src/knowledge/board-file/entry";
import { scalarText } from "../../../server/src/knowledge/board-file/render";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import { parseYaml } from "../../../server/src/syntax/yaml";
import { AWKWARD, draft, words } from "./drafts";

const DRAFT: BoardDraft = {
  ...EMPTY_DRAFT,
  id: "halden",
  title: "Halden: sound",
  grounds: ["GND"],
  rails: [
    { name: "+5V", nominal: "5 V", tolerance: "5 %", net: "VCC", from: "log 2026-014, line 12" },
    { name: "+12V", nominal: "12 V", tolerance: "5 %", from: "its name, log 2026-014, line 13", guess: true },
  ],
  circuits: [{ id: "sound", title: "Sound", from: "log 2026-014, line 3" }],
  parts: [
    { ref: "U5", device: "7404", circuit: "sound", from: "log 2026-014, line 31" },
    { ref: "R1", value: "4k7", from: "log 2026-014, line 40" },
  ],
  nets: [
    { name: "GND", pins: ["U5.7"], from: "log 2026-014, line 50" },
    { name: "VCC", pins: ["U5.14", "R1.1"], from: "log 2026-014, line 51" },
  ],
  matrices: [
    {
      id: "switches",
      kind: "switch",
      title: "Switches",
      rows: ["ROW_1"],
      columns: ["COL_1"],
      from: "log 2026-014, line 60",
    },
  ],
  symptoms: [{ id: "no-sound", title: "No sound", from: "log 2026-014, line 5" }],
  expected: [
    {
      procedure: "diode-check",
      ref: "U5",
      pin: "3",
      low: "0.48 V",
      high: "0.6 V",
      source: "one board",
      from: "log 2026-014, line 70",
    },
  ],
};

const WRITTEN = `mendlog-board: 1
id: halden
title: "Halden: sound"
grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC } # log 2026-014, line 12
  # "+12V": { nominal: 12 V, tolerance: 5 % } # guess: its name, log 2026-014, line 13
circuits:
  sound: { title: Sound } # log 2026-014, line 3
parts:
  U5: { device: "7404", circuit: sound } # log 2026-014, line 31
  R1: { value: 4k7 } # log 2026-014, line 40
nets:
  GND: [U5.7] # log 2026-014, line 50
  VCC: [U5.14, R1.1] # log 2026-014, line 51
  ROW_1: [] # log 2026-014, line 60
  COL_1: [] # log 2026-014, line 60
matrices:
  switches: { kind: switch, title: Switches, rows: [ROW_1], columns: [COL_1] } # log 2026-014, line 60
expected:
  - { procedure: diode-check, ref: U5, pin: "3", low: 0.48 V, high: 0.6 V, source: one board } # log 2026-014, line 70
symptoms:
  no-sound: { title: No sound } # log 2026-014, line 5
`;

describe("a fresh board file", () => {
  test("an entry a line with its source, guesses as comments in their place", () => {
    expect(writeBoardFile(DRAFT)).toBe(WRITTEN);
    expect(loadBoard(WRITTEN).problems).toEqual([]);
  });

  test("a guess that loses its sign is an entry", () => {
    const { value, problems } = loadBoard(WRITTEN.replace('# "+12V"', '"+12V"'));
    expect(problems).toEqual([]);
    expect([...value!.rails.keys()]).toEqual(["+5V", "+12V"]);
  });

  test("a section of guesses alone", () => {
    const text = writeBoardFile({
      ...EMPTY_DRAFT,
      id: "a",
      parts: [{ ref: "U1", device: "7404", from: "a guess", guess: true }],
    });
    expect(text).toBe(
      'mendlog-board: 1\nid: a\ntitle: a\nparts:\n  # U1: { device: "7404" } # guess: a guess\n',
    );
    expect(loadBoard(text).problems).toEqual([]);
  });

  test("the same written into it again changes nothing", () => {
    expect(mergeIntoBoardFile(WRITTEN, DRAFT)).toMatchObject({
      ok: true,
      edits: [],
      added: [],
      kept: [],
      leftOut: [],
    });
  });

  test("a net with many pins is written in rows", () => {
    const pins = Array.from({ length: 40 }, (_, index) => `U${index + 1}.7`);
    const text = writeBoardFile({
      ...EMPTY_DRAFT,
      id: "a",
      nets: [{ name: "GND", pins, from: "netlist a.d356" }],
    });
    const { value, problems } = loadBoard(text);
    expect(problems).toEqual([]);
    expect(value!.nets.get("GND")!.pins.map(({ ref, pin }) => `${ref}.${pin}`)).toEqual(pins);
    expect(text).toContain("  GND: # netlist a.d356\n    [\n      U1.7, U2.7, ");
    expect(Math.max(...text.split("\n").map((line) => line.length))).toBeLessThan(110);
  });

  test("what no board file can hold stands in it as a comment with the reason", () => {
    const text = writeBoardFile({
      ...EMPTY_DRAFT,
      id: "a",
      parts: [{ ref: "U 5", device: "7404", from: "log 1, line 2" }],
      rails: [{ name: "+5V", nominal: "five", tolerance: "5 %", from: "log 1, line 3" }],
      expected: [
        {
          procedure: "resistance",
          rail: "+5V",
          low: "1 ohm",
          high: "2 ohm",
          source: "one board",
          from: "log 1, line 4",
        },
      ],
    });
    expect(loadBoard(text).problems).toEqual([]);
    expect(text).toMatchInlineSnapshot(`
      "mendlog-board: 1
      id: a
      title: a
      rails:
        # "+5V": { nominal: five, tolerance: 5 % } # left out: \`nominal\` of \`+5V\`: "five" does not start with a number. Write a voltage with its unit, like \`5 V\`. (log 1, line 3)
      parts:
        # U 5: { device: "7404" } # left out: \`U 5\` is not a name that can be used here. A designator is made of letters and digits as printed on the board, like \`U14\`. (log 1, line 2)
      expected:
        # - { procedure: resistance, rail: "+5V", low: 1 ohm, high: 2 ohm, source: one board } # left out: There is no rail \`+5V\` in the board file. Add it first, with its voltage. (log 1, line 4)
      "
    `);
  });

  test("two nets never get the same pin: the first keeps it", () => {
    const text = writeBoardFile({
      ...EMPTY_DRAFT,
      id: "a",
      nets: [
        { name: "A", pins: ["U1.1", "U1.2"], from: "log 1" },
        { name: "B", pins: ["U1.2", "U1.3"], from: "log 2" },
      ],
    });
    expect(loadBoard(text).problems).toEqual([]);
    expect(text).toContain("  A: [U1.1, U1.2] # log 1\n  B: [U1.3] # log 2\n");
  });

  test.each([
    ["halden-6809", "halden-6809"],
    ["Halden 6809, rev. B", "halden-6809-rev.-b"],
    ["Prüfgerät", "prufgerat"],
    ["部品", "board"],
    ["constructor", "board"],
    ["", "board"],
  ])("the id of %j is %j", (word, id) => {
    expect(idOf(word)).toBe(id);
    expect(loadBoard(writeBoardFile({ ...EMPTY_DRAFT, id: word })).problems).toEqual([]);
  });
});

describe("texts", () => {
  const read = (text: string) => {
    const { root, problems } = parseYaml(`a: { k: ${text}, ${text}: 1 }\nb: ${text}\n`);
    expect(problems).toEqual([]);
    const a = root?.kind === "map" ? root.byKey.get("a")?.value : undefined;
    const b = root?.kind === "map" ? root.byKey.get("b")?.value : undefined;
    const k = a?.kind === "map" ? a.entries[0]?.value : undefined;
    return [
      a?.kind === "map" && a.entries[1]?.key,
      k?.kind === "scalar" && [k.source, k.value],
      b?.kind === "scalar" && [b.source, b.value],
    ];
  };

  test.each(AWKWARD)("%j stays a text", (text) => {
    expect(scalarText(text)).not.toContain("\n");
    expect(read(scalarText(text))).toEqual([text, [text, text], [text, text]]);
  });

  test.each(["a\u0085b", "a\u2028b", "\uFEFFa"])("%j is written with what can be seen", (text) => {
    expect(scalarText(text)).toMatch(/^"[ -~]*"$/);
  });

  test("any text stays itself", () => {
    fc.assert(
      fc.property(words, (text) => {
        expect(read(scalarText(text))).toEqual([text, [text, text], [text, text]]);
      }),
      { numRuns: 500 },
    );
  });

  test.each(["7404", "2114", "12E3", "on", "off", "yes", "no", "1e3", "+5V", "2026-01-14", "1:30"])(
    "%s is quoted",
    (text) => {
      expect(scalarText(text)).toBe(`"${text}"`);
    },
  );

  test.each(["74LS04", "2N3904", "4k7", "5 V", "U14.7", "A0", "4 MHz crystal", "4k7 Ω"])(
    "%s is not",
    (text) => {
      expect(scalarText(text)).toBe(text);
    },
  );
});

describe("any draft", () => {
  test("loads with no problem and gives back what was put in", () => {
    let compared = 0;
    fc.assert(
      fc.property(draft, (given) => {
        const text = writeBoardFile(given);
        const { value, problems } = loadBoard(text);
        expect(problems).toEqual([]);
        const board = value!;
        const merged = mergeIntoBoardFile("", given);
        expect(merged.ok && merged.text).toBe(text);
        const left = new Set(merged.ok ? merged.leftOut.map(({ section, key }) => `${section} ${key}`) : []);
        const facts = <T extends { guess?: true }>(
          section: string,
          entries: readonly T[],
          key: (entry: T) => string,
        ) => entries.filter((entry) => !entry.guess && !left.has(`${section} ${key(entry)}`));
        expect(board).toMatchObject({ id: given.id, title: given.title, grounds: given.grounds });
        for (const { ref, from: _, guess: __, ...fields } of facts("parts", given.parts, ({ ref }) => ref)) {
          expect(board.parts.get(ref)).toEqual({ ref, fits: [], socketed: false, ...fields });
        }
        for (const { from: _, guess: __, ...rail } of facts("rails", given.rails, ({ name }) => name)) {
          expect(board.rails.get(rail.name)).toEqual(rail);
        }
        for (const { id, title } of facts("circuits", given.circuits, ({ id }) => id)) {
          expect(board.circuits.get(id)).toEqual({ id, title });
        }
        for (const { id, title } of facts("symptoms", given.symptoms, ({ id }) => id)) {
          expect(board.symptoms.get(id)).toEqual({ id, title, circuits: [] });
        }
        const taken = new Set<string>();
        for (const { name, pins } of facts("nets", given.nets, ({ name }) => name)) {
          const own = pins.filter((pin) => !taken.has(pin));
          for (const pin of own) taken.add(pin);
          if (own.length === 0 && pins.length > 0) continue;
          expect(board.nets.get(name)?.pins.map(({ ref, pin }) => `${ref}.${pin}`)).toEqual(own);
        }
        for (const { from: _, guess: __, ...matrix } of facts("matrices", given.matrices, ({ id }) => id)) {
          expect(board.matrices.get(matrix.id)).toEqual({ ...matrix, cells: [], reserved: [] });
        }
        const said = new Set<string>();
        for (const { from: _, guess: __, ...reading } of facts("expected", given.expected, (entry) =>
          expectedKey({ ...entry, guess: "" }),
        )) {
          if (said.has(expectedKey({ ...reading }))) continue;
          said.add(expectedKey({ ...reading }));
          expect(board.expected.map(({ index, ...other }) => other)).toContainEqual(reading);
        }
        compared += 1 + board.parts.size + board.rails.size + board.nets.size + said.size;
      }),
      { numRuns: 120 },
    );
    expect(compared).toBeGreaterThan(1000);
  });

  test("is there whole: a second time nothing is added", () => {
    fc.assert(
      fc.property(draft, (given) => {
        const again = mergeIntoBoardFile(writeBoardFile(given), given);
        expect(again).toMatchObject({ ok: true, edits: [] });
      }),
      { numRuns: 60 },
    );
  });
});
