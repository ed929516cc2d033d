import { expect, test } from "vitest";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { loadDevice } from "../../server/src/knowledge/load-device";
import { locate } from "../../server/src/knowledge/loaded";
import { applySuggestion, checkProblems } from "./problems";

const HEAD = "mendlog-board: 1\nid: regatta\ntitle: Regatta\n";
const check = (rest: string) => checkProblems((text) => loadBoard(text), HEAD + rest);

test("a file that is not a board at all", () => {
  const none = (fixture: string) => expect(checkProblems((t) => loadBoard(t), fixture)).toBeUndefined();
  none("- U14\n^^^^^ wrong-type: A board file must be a mapping, but this is a list.\n- U15\n");
  none("just words\n^^^^^^^^^^ wrong-type: but this is the text `just words`.\n");
  none("7404\n^^^^ wrong-type: but this is the number `7404`.\n");
  none(
    "# only a remark\n^^^^^^^^^^^^^^^ empty-file: There is nothing in it yet. It begins with `mendlog-board: 1`.\n",
  );
  expect(loadBoard("").problems).toMatchObject([{ code: "empty-file", span: { start: 0, end: 0 } }]);
  expect(loadBoard("\uFEFF").problems).toMatchObject([{ code: "empty-file" }]);
  expect(loadBoard("id: a\u0000").problems).toMatchObject([
    { code: "yaml-not-text", span: { start: 5, end: 6 } },
  ]);
});

test("keys missing, empty, unknown and out of version", () => {
  const board = checkProblems(
    (text) => loadBoard(text),
    `mendlog-board: 2
^^^^^^^^^^^^^ missing-key: A board file needs the key \`id\`. Short name that logs use for this board
               ^ wrong-version: \`mendlog-board\` is \`2\`; this Mendlog reads version 1 of the format.
title:
^^^^^ missing-value: \`title\` has no value. The board's name in words.
makr: Marlow & Pike Automatics
^^^^ unknown-key: A board file has no key \`makr\`. Did you mean \`maker\`?
zzz: 1
^^^ unknown-key: A board file has no key \`zzz\`. A key of your own begins with \`x-\`.
x-mine: anything
`,
  );
  expect(board).toMatchObject({ id: "", title: "" });
  expect(loadBoard("mendlog-board: 1\nid: a\n").problems.map((p) => [p.code, p.message, p.span])).toEqual([
    ["missing-key", "A board file needs the key `title`.", { start: 0, end: 13 }],
  ]);
});

test("the edit offered for an unknown key puts it right", () => {
  const typed = `${HEAD}makr: M\nrails:\n  A: { nomnal: 5 V, tolerance: 5 % }\n`;
  const once = applySuggestion((t) => loadBoard(t), typed, "unknown-key");
  const twice = applySuggestion((t) => loadBoard(t), once, "unknown-key");
  expect(twice).toBe(typed.replace("makr", "maker").replace("nomnal", "nominal"));
  expect(loadBoard(twice).problems).toEqual([]);
});

test("text typed as a number keeps its characters", () => {
  const { value, problems } = loadBoard(`${HEAD}revisions: { 1: first, 2: ~ }
parts:
  U1: { device: 7404, fits: [7404, 74LS04], location: 1.10 }
rom-sets:
  r1: { title: 1, images: [{ ref: U1, size: 2048, sum16: 0012, crc32: 00123e45 }] }
expected:
  - { procedure: diode-check, ref: U1, pin: 3, low: 0.4 V, high: 0.7 V, source: invented }
`);
  expect(problems).toEqual([]);
  expect(value?.parts.get("U1")).toMatchObject({
    device: "7404",
    fits: ["7404", "74LS04"],
    location: "1.10",
  });
  expect(value?.romSets.get("r1")).toMatchObject({ title: "1" });
  expect(value?.romSets.get("r1")?.images[0]).toEqual({
    ref: "U1",
    size: 2048,
    sum16: "0012",
    crc32: "00123e45",
  });
  expect(value?.expected[0]?.pin).toBe("3");
  expect([...(value?.revisions ?? [])]).toEqual([
    ["1", "first"],
    ["2", ""],
  ]);
});

test("values of the wrong kind, each kept out and the rest kept", () => {
  const board = check(`grounds: GND
         ^^^ wrong-type: \`grounds\` must be a list, but it is the text \`GND\`. Put it in brackets: \`[GND]\`.
parts:
  U14: 74LS04
       ^^^^^^ wrong-type: \`U14\` must be a mapping, \`key: value\` lines below it, but it is the text \`74LS04\`.
  U15: { device: 7404, socketed: yes }
                                 ^^^ wrong-type: \`socketed\` of \`U15\` must be \`true\` or \`false\`, but it is the text \`yes\`.
  U16: { device: [7404] }
                 ^^^^^^ wrong-type: \`device\` of \`U16\` must be text, but it is a list.
rom-sets:
  a: { title: A, images: [{ ref: U15, size: "2048" }, { ref: U15, size: 2k }] }
                                            ^^^^^^ wrong-type: must be a whole number, but it is the text \`2048\`. Take the quotes away.
                                                                        ^^ wrong-type: must be a whole number, but it is the text \`2k\`.
`);
  expect(board?.grounds).toEqual([]);
  expect([...(board?.parts.keys() ?? [])]).toEqual(["U15", "U16"]);
  expect(board?.romSets.get("a")?.images).toEqual([{ ref: "U15" }, { ref: "U15" }]);
});

test.each([
  ["grounds: GND\nnets: { GND: [] }\n", "grounds: [GND]\nnets: { GND: [] }\n"],
  ["parts: { U1: { socketed: yes } }\n", "parts: { U1: { socketed: true } }\n"],
  ["parts: { U1: { socketed: No } }\n", "parts: { U1: { socketed: false } }\n"],
  [
    'parts: { U1: {} }\nrom-sets: { a: { title: A, images: [{ ref: U1, size: "16" }] } }\n',
    "parts: { U1: {} }\nrom-sets: { a: { title: A, images: [{ ref: U1, size: 16 }] } }\n",
  ],
])("a value of the wrong kind is put right by the edit offered: %j", (typed, mended) => {
  const done = applySuggestion((text) => loadBoard(text), HEAD + typed, "wrong-type");
  expect(done).toBe(HEAD + mended);
  expect(loadBoard(done).problems).toEqual([]);
});

test("quantities without a unit, of another kind or unreadable", () => {
  const board = check(`rails:
  A: { nominal: 5, tolerance: 5 % }
                ^ bad-quantity: \`nominal\` of \`A\`: \`5\` has no unit. Write it with one, like \`5 V\`.
  B: { nominal: 5 ohm, tolerance: 5 % }
                ^^^^^ bad-quantity: \`5 ohm\` is a resistance, but a voltage is wanted here, like \`5 V\`.
  C: { nominal: five, tolerance: 5 % }
                ^^^^ bad-quantity: "five" does not start with a number
  D: { nominal: -12 V, tolerance: 2 A }
                                  ^^^ bad-quantity: \`2 A\` is a current, but a percentage or a voltage is wanted here
  E: { nominal: 12 V, tolerance: 0.6 V, load: 5 V }
                                              ^^^ bad-quantity: \`load\` of \`E\`: \`5 V\` is a voltage, but a current is wanted here
`);
  expect([...(board?.rails.keys() ?? [])]).toEqual(["E"]);
  expect(board?.rails.get("E")).toEqual({ name: "E", nominal: "12 V", tolerance: "0.6 V" });
});

test("names that cannot be, and keys of JavaScript's own objects", () => {
  const board = check(`parts:
  __proto__: { device: 7404 }
  ^^^^^^^^^ bad-name: \`__proto__\` is not a name that can be used here. A designator is made of letters and digits
  constructor: {}
  ^^^^^^^^^^^ bad-name
  U1.2: {}
  ^^^^ bad-name
  U1: {}
nets:
  __proto__: [U1.1]
  ^^^^^^^^^ bad-name: A name must not be empty
  "": [U1.2]
  ^^ bad-name
  ok net: [U1.3, U1]
                 ^^ wrong-form: A pin on a net is the part, a dot and the pin, like \`U14.7\`.
rom-sets:
  a: { title: A, images: [{ ref: U1, crc32: 123 }] }
                                            ^^^ wrong-form: This check has exactly 8 hexadecimal digits
`);
  expect([...(board?.parts.keys() ?? [])]).toEqual(["U1"]);
  expect(board?.nets.get("ok net")?.pins).toEqual([{ ref: "U1", pin: "3" }]);
  expect(({} as Record<string, unknown>).device).toBeUndefined();
});

test("things named that the file does not define", () => {
  check(`grounds: [GRD]
          ^^^ unknown-net: Entry 1 of \`grounds\` names net \`GRD\`, which is not in \`nets\`. Did you mean \`GND\`?
rails:
  A: { nominal: 5 V, tolerance: 5 %, net: VCC }
                                          ^^^ unknown-net
circuits:
  reset: { title: Reset }
parts:
  U14: { circuit: rest }
                  ^^^^ unknown-circuit: \`circuit\` of \`U14\` names circuit \`rest\`, which is not in \`circuits\`. Did you mean \`reset\`?
nets:
  GND: [U14.7, U15.8]
               ^^^ unknown-part: Net \`GND\` names part \`U15\`, which is not in \`parts\`. Add it there, or correct the name.
  SW: [u14.1]
       ^^^ unknown-part: Did you mean \`U14\`?
symptoms:
  blank: { title: Blank, circuits: [display] }
                                    ^^^^^^^ unknown-circuit: Entry 1 of \`circuits\` of \`blank\` names circuit
modifications:
  one: { title: One, requires: [two], revisions: [C] }
                                ^^^ unknown-modification
                                                  ^ unknown-revision
proving:
  - { id: a, title: A, procedure: switch-matrix, matrix: switches }
                                                         ^^^^^^^^ unknown-matrix: \`matrix\` of entry 1 of \`proving\` names matrix \`switches\`
expected:
  - { procedure: p, rail: B, low: 1 V, high: 2 V, source: invented }
                          ^ unknown-rail
`);
});

test("pins that a part does not have, or that are on two nets, are told", () => {
  const text = `parts:
  U1: { device: "7404" }
  U2: { device: unheard-of }
nets:
  A: [U1.1, U1.15, U2.99, U1.1]
            ^^^^^ no-such-pin: U1 is a 7404 (Hex inverter, DIP-14): it has no pin 15, only 1 to 14.
                          ^^^^ pin-listed-twice: \`U1.1\` is twice on net \`A\`. Remove one.
  B: [U1.2, U1.1]
            ^^^^ pin-on-two-nets: \`U1.1\` is on net \`B\` and on net \`A\`; a pin is on one net only.
expected:
  - { procedure: p, ref: U1, pin: 0, low: 1 V, high: 2 V, source: invented }
                                  ^ no-such-pin
`;
  const hex = loadDevice(
    "mendlog-device: 1\nid: 7404\ntitle: Hex inverter\nkind: logic\npackage: { name: DIP-14, pins: 14 }\npins: { 1: { name: 1A, direction: input } }\nsource: from memory\n",
  ).value;
  const deviceOf = (part: string) => (part === "7404" ? hex : undefined);
  checkProblems((t) => loadBoard(t, { deviceOf }), HEAD + text);
  const codes = loadBoard(HEAD + text.replace(/^ *\^.*\n/gm, "")).problems.map((p) => p.code);
  expect(codes).toEqual(["pin-listed-twice", "pin-on-two-nets"]);
});

test("rails and expectations that contradict themselves", () => {
  const board = check(`era: { from: 1985, to: 1978 }
             ^^^^ era-reversed: \`era\` runs from 1985 to 1978, which is backwards.
rails:
  A: { nominal: 5 V, tolerance: -5 % }
                                ^^^^ negative-tolerance: \`-5 %\` is below zero.
  B: { nominal: 5 V, tolerance: 6 V }
                                ^^^ tolerance-too-wide: A tolerance of \`6 V\` lets rail \`B\` of \`5 V\` be off altogether.
  C: { nominal: 0 V, tolerance: 5 % }
                ^^^ rail-at-zero
parts: { U1: {} }
expected:
  - { procedure: p, ref: U1, low: 0.7 V, high: 400 mV, source: invented }
                                  ^^^^^ low-above-high: The expected reading runs from \`0.7 V\` to \`400 mV\`: its low end is above its high end.
  - { procedure: p, ref: U1, low: 1 V, high: 2 A, source: invented }
                                             ^^^ mixed-quantities
  - { procedure: p, low: 1 V, high: 2 V, source: invented }
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ needs-one-of: Entry 3 of \`expected\` needs \`ref\` or \`rail\`, to say what it is.
  - { procedure: p, ref: U1, low: 1 V, high: 2 V }
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ missing-key: Entry 4 of \`expected\` needs the key \`source\`.
  - { procedure: p, rail: A, pin: 3, low: 1 V, high: 2 V, source: invented }
                                  ^ pin-without-part
`);
  // Places in the list are those of the file, whatever was left out.
  expect(board?.expected.map((e) => e.index)).toEqual([0, 1, 4]);
});

test("matrices that do not fit their lines are told", () => {
  const board = check(`nets: { R1: [], R2: [], C1: [], C2: [] }
matrices:
  m:
    kind: lamps
          ^^^^^ not-in-list: \`kind\` of \`m\` is \`lamps\`, which is not in its list. Did you mean \`lamp\`?
    title: M
    rows: [R1, R2]
    columns: [C1, C3]
                  ^^ unknown-net
  n:
    kind: switch
    title: N
    rows: [R1, R2, R1]
                   ^^ line-twice: Net \`R1\` is twice in \`rows\`.
    columns: [C1, C2]
    cells:
    ^^^^^ wrong-grid: \`cells\` has 2 rows, but the matrix has 3. Write one list for each row.
      - [Tilt, ~]
      - [Start]
        ^^^^^^^ wrong-grid: Row 2 of \`cells\` has 1 names, but the matrix has 2 columns.
    reserved: [[2, 2], [2, 3], [0, 1], [1]]
                       ^^^^^^ cell-outside: Reserved cell [2, 3] is outside the matrix, which has 3 rows and 2 columns.
                                ^ out-of-range: it must be at least 1.
                                       ^^^ wrong-count: has 1 entry; it must have exactly 2
`);
  expect([...(board?.matrices.keys() ?? [])]).toEqual(["n"]);
  expect(board?.matrices.get("n")).toMatchObject({ cells: [["Tilt", null], ["Start"]] });
});

test("switch banks and modifications", () => {
  const board = check(`switch-banks:
  SW1:
    settings:
      - { title: Coins, switches: [1, 2], meaning: { "00": 1 coin, 01: 2 coins, "111": 3, 2x: 4 } }
                                                                                ^^^^^ wrong-pattern: Pattern \`111\` has 3 digits, but the setting has 2 switches.
                                                                                          ^^ bad-name: A pattern is one digit a switch
      - { title: Free, switches: [] }
                                 ^^ wrong-count: has 0 entries; it must have at least 1
modifications:
  a: { title: A, requires: [b, a], conflicts: [b] }
                               ^ refers-to-itself
                                               ^ requires-and-conflicts: Modification \`a\` both requires \`b\` and conflicts with it.
  b: { title: B, defeats: [Slam switch] }
  c: { title: C, defeats: door }
                          ^^^^ wrong-type
proving:
  - { id: x, title: X, procedure: p }
  - { id: x, title: Y, procedure: p }
          ^ duplicate-id: Two proving items have the id \`x\`.
`);
  expect(board?.modifications.get("a")?.defeats).toEqual([]);
  expect(board?.modifications.get("b")?.defeats).toEqual(["Slam switch"]);
  const [setting, ...others] = board?.switchBanks.get("SW1")?.settings ?? [];
  expect([...(setting?.meaning ?? [])]).toEqual([
    ["00", "1 coin"],
    ["01", "2 coins"],
    ["111", "3"],
  ]);
  expect(others).toEqual([]);
});

test("broken YAML in the middle is one problem, and the rest is kept", () => {
  const board = check(`rails:
  A: { nominal: 5 V, tolerance: 5 %
     ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ yaml-unclosed
parts:
  U1: { device: 7404 }
  U2: { device: "7400 }
                ^^^^^^^ yaml-unclosed
  U3: { device: 7402 }
maker: Marlow: Pike
       ^^^^^^^^^^^^ yaml-quote
nets:
  A: [U3.1]
`);
  expect([...(board?.parts.keys() ?? [])]).toEqual(["U1", "U2", "U3"]);
  expect(board?.rails.get("A")?.nominal).toBe("5 V");
  expect(board?.maker).toBe("Marlow: Pike");
  expect(board?.nets.get("A")?.pins).toEqual([{ ref: "U3", pin: "1" }]);
});

test("an alias bomb in a list of parts", () => {
  const rows = ["a", "b", "c", "d", "e", "f"].map(
    (name, i, all) =>
      `x-${name}: &${name} [${Array(12)
        .fill(i === 0 ? "1" : `*${all[i - 1]}`)
        .join(", ")}]`,
  );
  const text = `${HEAD}${rows.join("\n")}\nparts: { U1: { fits: *f } }\n`;
  const { problems, value } = loadBoard(text);
  expect(problems[0]?.code).toBe("yaml-alias-bomb");
  expect(text.slice(problems[0]!.span.start, problems[0]!.span.end)).toBe("*c");
  expect(value?.parts.has("U1")).toBe(true);
});

test("a megabyte in one value", () => {
  const { value, problems } = loadBoard(`${HEAD}maker: "${"x".repeat(1_000_000)}"\nparts: { U1: {} }\n`);
  expect(problems).toEqual([]);
  expect(value?.maker).toHaveLength(1_000_000);
  const wrong = loadBoard(`${HEAD}parts: ${"x".repeat(1_000_000)}\n`);
  expect(wrong.problems.map((p) => p.code)).toEqual(["wrong-type"]);
  expect(wrong.problems[0]!.message.length).toBeLessThan(250);
});

test("places in the file", () => {
  const text = `${HEAD}parts:\n  U14: { device: 7404 }\nsymptoms:\n  blank: { title: Blank }\n`;
  const { tree } = loadBoard(text);
  const at = (path: (string | number)[]) => {
    const span = locate(tree, path);
    return span && text.slice(span.start, span.end);
  };
  expect(at(["parts", "U14"])).toBe("U14");
  expect(at(["symptoms", "blank"])).toBe("blank");
  expect(at(["parts", "U15"])).toBeUndefined();
});
