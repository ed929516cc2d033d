import { describe, expect, test } from "vitest";
import {
  type BoardChange,
  type BoardDraft,
  EMPTY_DRAFT,
  editBoard,
  mergeIntoBoardFile,
} from "../../../server/src/knowledge/board-file";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import { applyEdits } from "../../../server/src/text/edits";

const HEAD = "mendlog-board: 1\nid: a\ntitle: A\n";
const U2: BoardChange = { kind: "part", entry: { ref: "U2", device: "7400", from: "log 1, line 9" } };
const LINE = 'U2: { device: "7400" } # log 1, line 9';

/** The text after the changes, which has to load as well as it did, and to take them once only. */
function edited(text: string, ...changes: BoardChange[]): string {
  const made = editBoard(text, changes);
  if (!made.ok) throw new Error(made.reason);
  expect(applyEdits(text, made.edits)).toBe(made.text);
  expect(loadBoard(made.text).problems).toEqual([]);
  expect(editBoard(made.text, changes)).toMatchObject({ ok: true, edits: [] });
  return made.text;
}

/** What stands behind the head. */
const added = (rest: string, ...changes: BoardChange[]) => edited(HEAD + rest, ...changes).slice(HEAD.length);

describe("where a new part goes", () => {
  test.each([
    ["no section", "", `parts:\n  ${LINE}\n`],
    ["no final newline", 'parts:\n  U1: { device: "7404" }', `parts:\n  U1: { device: "7404" }\n  ${LINE}`],
    [
      "behind the last",
      'parts:\n  U9: { device: "7404" } # old\n  U1: {}\nnets: {}\n',
      `parts:\n  U9: { device: "7404" } # old\n  U1: {}\n  ${LINE}\nnets: {}\n`,
    ],
    ["indented by four", "parts:\n    U1: {}\n", `parts:\n    U1: {}\n    ${LINE}\n`],
    [
      "other sections indented by four",
      "circuits:\n    a: { title: A }\n",
      `circuits:\n    a: { title: A }\nparts:\n    ${LINE}\n`,
    ],
    [
      "block entries",
      "parts:\n  U1:\n    device: 7404\n    fits:\n      - 7400\n\n# nets\nnets: {}\n",
      `parts:\n  U1:\n    device: 7404\n    fits:\n      - 7400\n  ${LINE}\n\n# nets\nnets: {}\n`,
    ],
    ["empty", "parts:\nnets: {}\n", `parts:\n  ${LINE}\nnets: {}\n`],
    [
      "empty with comments",
      "parts: # none\n  # not yet\n# nets\nnets: {}\n",
      `parts: # none\n  # not yet\n  ${LINE}\n# nets\nnets: {}\n`,
    ],
    ["an explicit null", "parts: ~ # none\nnets: {}\n", `parts: # none\n  ${LINE}\nnets: {}\n`],
    ["empty braces", "parts: {} # none\nnets: {}\n", `parts: # none\n  ${LINE}\nnets: {}\n`],
    ["empty braces below", "parts:\n  { }\nnets: {}\n", `parts:\n\n  ${LINE}\nnets: {}\n`],
    [
      "braces on one line",
      "parts: { U1: { device: 7404 } } # all\n",
      `parts: { U1: { device: 7404 },\n  ${LINE}\n  } # all\n`,
    ],
    [
      "braces over lines",
      "parts: {\n    U1: {}, # one\n    U3: {} # two\n    # three\n  }\n",
      `parts: {\n    U1: {}, # one\n    U3: {}, # two\n    ${LINE}\n    # three\n  }\n`,
    ],
    [
      "braces with a last comma",
      "parts: {\n  U1: {},\n  }\n",
      `parts: {\n  U1: {},\n  ${LINE.replace(" #", ", #")}\n  }\n`,
    ],
    [
      "braces whose last part has a comment and nothing else",
      "parts: {\n  U1: # one\n  }\n",
      `parts: {\n  U1:, # one\n  ${LINE}\n  }\n`,
    ],
    ["braces with nothing but a comment", "parts: { # none\n  }\n", `parts: { # none\n  ${LINE}\n  }\n`],
    [
      "comments below the last",
      "parts:\n  U1: {}\n  # U3 is missing on revision A\n# nets\nnets: {}\n",
      `parts:\n  U1: {}\n  # U3 is missing on revision A\n  ${LINE}\n# nets\nnets: {}\n`,
    ],
    [
      "a note over lines at the end",
      "parts:\n  U1:\n    note: |\n      one\n\n      two\n\nnets: {}\n",
      `parts:\n  U1:\n    note: |\n      one\n\n      two\n  ${LINE}\n\nnets: {}\n`,
    ],
    [
      "a note that keeps its blank lines",
      "parts:\n  U1:\n    note: |+\n      one\n\nnets: {}\n",
      `parts:\n  U1:\n    note: |+\n      one\n\n  ${LINE}\nnets: {}\n`,
    ],
    ["a space before the colon", "parts :\nnets: {}\n", `parts :\n  ${LINE}\nnets: {}\n`],
    ["a document's end", "rails: {}\n...\n", `rails: {}\nparts:\n  ${LINE}\n...\n`],
    ["an anchor", "parts: &all\n  U1: {}\n", `parts: &all\n  U1: {}\n  ${LINE}\n`],
    ["quoted keys", '"parts":\n  "U1": {}\n', `"parts":\n  "U1": {}\n  ${LINE}\n`],
  ])("%s", (_, before, result) => {
    expect(added(before, U2)).toBe(result);
  });

  test("windows line ends stay, and a byte order mark", () => {
    const text = `\uFEFF${HEAD}parts:\n  U1: {} # one\n`.replaceAll("\n", "\r\n");
    expect(edited(text, U2, { kind: "device", ref: "U1", device: "7404" })).toBe(
      text.replace("{}", '{ device: "7404" }') + `  ${LINE}\r\n`,
    );
  });

  test("a new section stands where it usually does, apart where sections stand apart", () => {
    expect(added("circuits: {}\n# nets\nnets: {}\nsymptoms: {}\n", U2)).toBe(
      `circuits: {}\nparts:\n  ${LINE}\n# nets\nnets: {}\nsymptoms: {}\n`,
    );
    expect(added("\nrails: {}\n\nnets: {}\n", U2)).toBe(`\nrails: {}\n\nparts:\n  ${LINE}\n\nnets: {}\n`);
    expect(edited("nets: {}\nmendlog-board: 1\nid: a\ntitle: A\nx-own:\n  - 1\n", U2)).toBe(
      `nets: {}\nmendlog-board: 1\nid: a\ntitle: A\nparts:\n  ${LINE}\nx-own:\n  - 1\n`,
    );
  });

  test("a file indented as a whole", () => {
    const text = HEAD.replace(/^/gm, "  ").trimEnd();
    expect(edited(text, U2)).toBe(`${text}\n  parts:\n    ${LINE}`);
  });
});

describe("what is there stays", () => {
  const made = (rest: string, draft: Partial<BoardDraft>) => {
    const edit = mergeIntoBoardFile(HEAD + rest, { ...EMPTY_DRAFT, ...draft });
    if (!edit.ok) throw new Error(edit.reason);
    return { ...edit, text: edit.text.slice(HEAD.length) };
  };

  test("other data is kept and told, what is lacking is added", () => {
    const file = "circuits: { s: { title: Sound } }\nparts:\n  U1: { device: 7414 } # mine\n";
    const { text, kept, added } = made(file, {
      parts: [{ ref: "U1", device: "7404", circuit: "s", from: "log 1, line 2" }],
      circuits: [{ id: "s", title: "Sounds", from: "log 1" }],
    });
    expect(text).toBe(file.replace("7414 } # mine", "7414, circuit: s } # mine; U1 circuit: log 1, line 2"));
    expect(kept).toEqual([
      { section: "circuits", key: "s", differs: [{ field: "title", file: "Sound", draft: "Sounds" }] },
      { section: "parts", key: "U1", differs: [{ field: "device", file: "7414", draft: "7404" }] },
    ]);
    expect(added).toEqual([{ section: "parts", key: "U1", to: ["circuit"] }]);
  });

  test("the same typed otherwise is no difference", () => {
    const { kept, edits } = made(
      'rails: { "+5V": { nominal: 5.0V, tolerance: 5% } }\nparts: { U1: { device: 74ls04 } }\n',
      {
        rails: [{ name: "+5V", nominal: "5 V", tolerance: "5 %", from: "x" }],
        parts: [{ ref: "U1", device: "74LS04", from: "x" }],
      },
    );
    expect({ kept, edits }).toEqual({ kept: [], edits: [] });
  });

  test("a milliohm is no megohm", () => {
    const limits = { procedure: "resistance", ref: "U1", high: "9 Mohm", source: "x" };
    const { kept } = made(
      `parts: { U1: {} }\nexpected:\n- { ${"procedure: resistance, ref: U1, low: 1 mohm, high: 9 Mohm, source: x"} }\n`,
      {
        expected: [{ ...limits, low: "1 Mohm", from: "x" }],
      },
    );
    expect(kept).toMatchObject([
      { key: "resistance U1", differs: [{ field: "low", file: "1 mohm", draft: "1 Mohm" }] },
    ]);
  });

  test("an expected reading is kept by a merge", () => {
    const file =
      "parts: { U1: {} }\nexpected:\n- { procedure: diode-check, ref: U1, pin: 3, low: 0.4 V, high: 0.6 V, source: mine }\n";
    const { text, kept } = made(file, {
      expected: [
        {
          procedure: "diode-check",
          ref: "U1",
          pin: "3",
          low: "0.5 V",
          high: "0.6 V",
          source: "theirs",
          from: "x",
        },
      ],
    });
    expect(text).toBe(file);
    expect(kept[0]?.differs.map(({ field }) => field)).toEqual(["low", "source"]);
  });

  test("a pin that another net has", () => {
    const file = "parts: { U1: {} }\nnets:\n  A: [U1.1]\n";
    const { text, kept } = made(file, {
      nets: [
        { name: "B", pins: ["U1.1", "U1.2"], from: "log 1" },
        { name: "C", pins: ["U1.1"], from: "log 1" },
      ],
    });
    expect(text).toBe(`${file}  B: [U1.2] # log 1\n`);
    expect(kept).toEqual([
      { section: "nets", key: "B", differs: [{ field: "U1.1", file: "A", draft: "B" }] },
      { section: "nets", key: "C", differs: [{ field: "U1.1", file: "A", draft: "C" }] },
    ]);
  });

  test("an entry that stands for another is not touched", () => {
    const file = "parts:\n  U1: &hex { device: 7404 }\n  U2: *hex\n";
    const { text, kept } = made(file, { parts: [{ ref: "U2", device: "7404", note: "new", from: "x" }] });
    expect(text).toBe(file);
    expect(kept).toMatchObject([{ key: "U2", differs: [{ field: "note" }] }]);
  });

  test("what is put into a line and what is put below it do not get into each other's way", () => {
    const file =
      "parts: { U1: {} }\nexpected: [\n  { procedure: diode-check, ref: U1,\n    low: 0.4 V, high: 0.6 V, source: a\n  }\n  ]\n";
    const one = {
      procedure: "diode-check",
      ref: "U1",
      low: "0.4 V",
      high: "0.6 V",
      source: "b",
      from: "log 1",
    };
    const edit = editBoard(HEAD + file, [
      { kind: "expected", entry: one, replace: true },
      { kind: "expected", entry: { ...one, procedure: "resistance", low: "1 ohm", high: "2 ohm" } },
    ]);
    expect(edit.ok && edit.text.slice(HEAD.length)).toBe(
      file.replace(
        "source: a\n  }",
        "source: b\n  }, # source: log 1\n  { procedure: resistance, ref: U1, low: 1 ohm, high: 2 ohm, source: b } # log 1",
      ),
    );
  });

  test("so many volts are no percentage", () => {
    const { kept } = made('rails: { "+5V": { nominal: 5 V, tolerance: 0.05 V } }\n', {
      rails: [{ name: "+5V", nominal: "5 V", tolerance: "5 %", from: "x" }],
    });
    expect(kept).toMatchObject([{ differs: [{ field: "tolerance", file: "0.05 V", draft: "5 %" }] }]);
  });

  test("a guess gives way to what is there, and is not written twice", () => {
    const guess = { ref: "U1", device: "7404", from: "x", guess: true } as const;
    expect(made("parts:\n  U1: {}\n", { parts: [guess] }).edits).toEqual([]);
    const once = made("parts:\n  U3: {}\n", { parts: [guess] });
    expect(once.text).toBe('parts:\n  U3: {}\n  # U1: { device: "7404" } # guess: x\n');
    expect(once.added).toEqual([{ section: "parts", key: "U1", guess: true }]);
    expect(made(once.text, { parts: [guess] }).edits).toEqual([]);
    expect(made(once.text.replace("# U1", "#U1"), { parts: [guess] }).edits).toEqual([]);
    const odd = { ...guess, note: "a\u2028b [c" };
    const odder = made("parts:\n", { parts: [odd] });
    expect(made(odder.text, { parts: [odd] }).edits).toEqual([]);
    const prose = "parts:\n  U3: {}\n  # U1: the one with the heat sink\n";
    expect(made(prose, { parts: [guess] }).edits).toHaveLength(1);
    const listed = {
      procedure: "diode-check",
      ref: "U3",
      low: "0.4 V",
      high: "0.5 V",
      source: "s",
      from: "x",
      guess: true,
    } as const;
    const first = made("parts:\n  U3: {}\n", { expected: [listed] });
    expect(first.text).toContain("\nexpected:\n  # - { procedure: diode-check, ref: U3, ");
    expect(made(first.text, { expected: [listed] }).edits).toEqual([]);
  });

  test("guesses within braces", () => {
    const { text } = made("parts: { U3: {} }\n", {
      parts: [{ ref: "U1", device: "7404", from: "x", guess: true }],
    });
    expect(text).toBe('parts: { U3: {}\n  # U1: { device: "7404" } # guess: x\n  }\n');
    expect(edited(HEAD + text, U2).slice(HEAD.length)).toBe(
      `parts: { U3: {},\n  ${LINE}\n  # U1: { device: "7404" } # guess: x\n  }\n`,
    );
  });

  test("what an entry names is written beside it", () => {
    const { text } = made("", { nets: [{ name: "A", pins: ["J3.1"], from: "log 1" }], grounds: ["GND"] });
    expect(text).toBe("grounds: [GND]\nparts:\n  J3: {} # log 1\nnets:\n  A: [J3.1] # log 1\n  GND: []\n");
  });

  test("a file with nothing in it becomes the draft's", () => {
    const draft: BoardDraft = { ...EMPTY_DRAFT, id: "b", title: "B", grounds: ["GND"] };
    for (const [text, eol] of [
      ["", "\n"],
      ["\uFEFF", "\n"],
      ["# ours", "\n"],
      ["# ours\r\n\r\n", "\r\n"],
    ] as const) {
      const edit = mergeIntoBoardFile(text, draft);
      const whole = [
        "mendlog-board: 1",
        "id: b",
        "title: B",
        "grounds: [GND]",
        "nets:",
        "  GND: []",
        "",
      ].join(eol);
      expect(edit).toMatchObject({ ok: true, text: text + (text === "# ours" ? eol : "") + whole });
      expect(edit.ok && applyEdits(text, edit.edits)).toBe(edit.ok && edit.text);
      expect(edit.ok && loadBoard(edit.text).problems).toEqual([]);
    }
  });
});

describe("a file that cannot be edited is left alone", () => {
  test.each([
    [
      "a broken line",
      `${HEAD}parts:\n  U1: { device: "7404\n`,
      /^Line 5 of the board file is not valid YAML, so nothing was written\. The quote/,
    ],
    [
      "a wrong indentation",
      `${HEAD}parts:\n  U1: {}\n   U2: {}\n`,
      /^Line \d of the board file .*indented by 2/,
    ],
    ["two documents", `${HEAD}---\na: 1\n`, /^Line 4 of the board file .*second YAML document/],
    ["no board file", "- a\n", /^This is not a board file/],
    ["another kind of file", "mendlog-device: 1\nid: a\n", /^This is not a board file/],
    ["another version", "mendlog-board: 2\nid: a\n", /version `2`/],
    ["nothing", "", /is empty/],
    ["braces around all", "{ mendlog-board: 1, id: a, title: A }\n", /one pair of braces/],
    ["a list of parts", `${HEAD}parts: [U1]\n`, /^`parts` in line 4 is no mapping of names/],
    ["a word for parts", `${HEAD}parts: none\n`, /^`parts` in line 4 is no mapping of names/],
    ["parts that stand for others", `${HEAD}x-p: &p { U1: {} }\nparts: *p\n`, /^`parts` in line 5 repeats/],
    ["no text", `${HEAD}\0`, /^Line 4 .*control character/],
  ])("%s", (_, text, reason) => {
    const edit = editBoard(text, [U2]);
    expect(edit).toEqual({ ok: false, reason: expect.stringMatching(reason) });
  });

  test("a key that stands twice does not matter: the first counts", () => {
    const text = `${HEAD}parts:\n  U1: {}\n  U1: { device: 7400 }\n`;
    const edit = editBoard(text, [{ kind: "device", ref: "U1", device: "7404" }]);
    expect(edit.ok && edit.text).toBe(text.replace("{}", '{ device: "7404" }'));
  });
});
