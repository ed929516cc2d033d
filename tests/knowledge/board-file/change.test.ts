import { describe, expect, test } from "vitest";
import {
  addCircuit,
  addExpected,
  addFits,
  addGround,
  addMatrix,
  addNet,
  addPart,
  addRail,
  addSymptom,
  type Changed,
  editBoard,
  setDevice,
} from "../../../server/src/knowledge/board-file";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import { applyEdits } from "../../../server/src/text/edits";

const HEAD = "mendlog-board: 1\nid: a\ntitle: A\n";

/** The rest of the text after the change; made twice, it changes nothing the second time. */
function once(rest: string, change: (text: string) => Changed): string {
  const text = HEAD + rest;
  const made = change(text);
  if (!made.ok) throw new Error(made.reason);
  const after = applyEdits(text, made.edits);
  expect(change(after)).toEqual({ ok: true, edits: [] });
  expect(loadBoard(after).problems).toEqual([]);
  return after.slice(HEAD.length);
}

const reason = (rest: string, change: (text: string) => Changed): string => {
  const made = change(HEAD + rest);
  return made.ok ? "" : made.reason;
};

describe("the device of a part", () => {
  const set = (text: string) => setDevice(text, "U1", "7404");
  test.each([
    [
      "replaced alone",
      'parts:\n  U1: { device: 7414, package: DIP-14 } # on "X"\n',
      'parts:\n  U1: { device: "7404", package: DIP-14 } # on "X"\n',
    ],
    [
      "in quotes",
      "parts: { U1: { package: DIP-14, device: '7414' } }\n",
      'parts: { U1: { package: DIP-14, device: "7404" } }\n',
    ],
    [
      "in a block",
      "parts:\n  U1:\n    device: 7414 # mine\n    package: DIP-14\n",
      'parts:\n  U1:\n    device: "7404" # mine\n    package: DIP-14\n',
    ],
    [
      "the key added",
      "parts:\n  U1: { package: DIP-14 }\n",
      'parts:\n  U1: { package: DIP-14, device: "7404" }\n',
    ],
    [
      "the key added to a block",
      "parts:\n  U1:\n    package: DIP-14\n  U2: {}\n",
      'parts:\n  U1:\n    package: DIP-14\n    device: "7404"\n  U2: {}\n',
    ],
    [
      "a key with nothing behind it",
      "parts:\n  U1: { device: , package: DIP-14 }\n",
      'parts:\n  U1: { device: "7404" , package: DIP-14 }\n',
    ],
    ["a part with nothing behind it", "parts:\n  U1: # seen\n", 'parts:\n  U1: { device: "7404" } # seen\n'],
    ["an empty part", "parts:\n  U1: {}\n", 'parts:\n  U1: { device: "7404" }\n'],
    ["there already", "parts:\n  U1: { device: 7404 }\n", "parts:\n  U1: { device: 7404 }\n"],
  ])("%s", (_, before, result) => expect(once(before, set)).toBe(result));

  test("of a part that is not there, or written so that it cannot be changed", () => {
    expect(reason("", set)).toBe("There is no part `U1` in the board file. Add it first.");
    expect(reason("parts:\n  U1: 7414\n", set)).toMatch(/^`U1` in line 5 is not written as/);
    expect(reason("parts:\n  U2: &h { device: 7400 }\n  U1: *h\n", set)).toMatch(
      /^`U1` in line 6 is not written as/,
    );
    expect(reason("parts:\n  U1:\n    device: >\n      7414\n", set)).toMatch(
      /^The device of `U1` in line \d cannot|^The device of `U1` in line/,
    );
    expect(reason("parts:\n  U1: {}\n", (text) => setDevice(text, "U1", ""))).toMatch(/device/);
  });
});

describe("what may be fitted instead", () => {
  const fit = (text: string) => addFits(text, "U1", "7404");
  test.each([
    [
      "a first",
      "parts:\n  U1: { device: 74LS04 } # one\n",
      'parts:\n  U1: { device: 74LS04, fits: ["7404"] } # one\n',
    ],
    [
      "one more",
      "parts:\n  U1: { fits: [7414], device: 74LS04 }\n",
      'parts:\n  U1: { fits: [7414, "7404"], device: 74LS04 }\n',
    ],
    ["an empty list", "parts:\n  U1: { fits: [] }\n", 'parts:\n  U1: { fits: ["7404"] }\n'],
    [
      "a list in a block",
      "parts:\n  U1:\n    fits:\n    - 7414 # ours\n    device: 74LS04\n",
      'parts:\n  U1:\n    fits:\n    - 7414 # ours\n    - "7404"\n    device: 74LS04\n',
    ],
    [
      "over lines",
      "parts:\n  U1: { fits: [\n      7414, # ours\n    ] }\n",
      'parts:\n  U1: { fits: [\n      7414, "7404", # ours\n    ] }\n',
    ],
    ["there already", "parts:\n  U1: { fits: [7404] }\n", "parts:\n  U1: { fits: [7404] }\n"],
  ])("%s", (_, before, result) => expect(once(before, fit)).toBe(result));

  test("where no list stands", () => {
    expect(reason("parts:\n  U1: { fits: 7414 }\n", fit)).toMatch(
      /^`fits` of `U1` in line 5 is not written as a list/,
    );
    expect(reason("", fit)).toMatch(/^There is no part/);
  });
});

describe("nets", () => {
  const join = (text: string) => addNet(text, { name: "A", pins: ["U1.1", "U1.2"], from: "log 1, line 2" });
  test.each([
    ["a new one", "", "  A: [U1.1, U1.2] # log 1, line 2\n"],
    ["pins of one that is there", "  A: [U1.1]\n", "  A: [U1.1, U1.2] # U1.2: log 1, line 2\n"],
    ["beside a comment", "  A: [U1.1] # mine\n", "  A: [U1.1, U1.2] # mine; U1.2: log 1, line 2\n"],
    ["in a block", "  A:\n    - U1.1\n", "  A:\n    - U1.1\n    - U1.2 # log 1, line 2\n"],
    [
      "over lines",
      "  A:\n    [\n      U1.1\n    ]\n",
      "  A:\n    [\n      U1.1, U1.2 # U1.2: log 1, line 2\n    ]\n",
    ],
    ["nothing behind it", "  A:\n", "  A: [U1.1, U1.2] # U1.1, U1.2: log 1, line 2\n"],
    ["all there", "  A: [U1.2, U1.1]\n", "  A: [U1.2, U1.1]\n"],
  ])("%s", (_, before, result) => {
    expect(once(`parts:\n  U1: {}\nnets:\n  # nets\n${before}`, join)).toBe(
      `parts:\n  U1: {}\nnets:\n  # nets\n${result}`,
    );
  });

  test("a pin of another net", () => {
    const rest = "parts: { U1: {} }\nnets:\n  B: [U1.1, U1.2]\n";
    expect(reason(rest, join)).toBe(
      "Pin `U1.1` is on net `B` in the board file, and a pin is on one net only. If it is on `A`, take it off the other first.",
    );
  });

  test("what is no pin", () => {
    expect(reason("", (text) => addNet(text, { name: "A", pins: ["U1"], from: "x" }))).toMatch(/U14\.7/);
  });
});

describe("expected readings", () => {
  const limits = {
    procedure: "diode-check",
    ref: "U1",
    pin: "3",
    low: "0.5 V",
    high: "0.6 V",
    source: "two boards",
    from: "log 1",
  };
  const expectIt = (text: string) => addExpected(text, limits);
  const START = "parts: { U1: {} }\nexpected:\n";
  test.each([
    [
      "a first",
      "  # unpowered\n",
      '  # unpowered\n  - { procedure: diode-check, ref: U1, pin: "3", low: 0.5 V, high: 0.6 V, source: two boards } # log 1\n',
    ],
    [
      "replaced",
      "- { procedure: diode-check, ref: U1, pin: 3, low: 0.4 V, high: 0.60 V, source: one board }\n",
      "- { procedure: diode-check, ref: U1, pin: 3, low: 0.5 V, high: 0.60 V, source: two boards } # low, source: log 1\n",
    ],
    [
      "in a block",
      "  - procedure: diode-check\n    ref: U1\n    pin: 3\n    low: 0.4 V\n    high: 0.7 V\n    source: one board\n",
      "  - procedure: diode-check\n    ref: U1\n    pin: 3\n    low: 0.5 V\n    high: 0.6 V\n    source: two boards # low, high, source: log 1\n",
    ],
    [
      "of another pin",
      "- { procedure: diode-check, ref: U1, pin: 4, low: 0.4 V, high: 0.6 V, source: one board }\n",
      '- { procedure: diode-check, ref: U1, pin: 4, low: 0.4 V, high: 0.6 V, source: one board }\n- { procedure: diode-check, ref: U1, pin: "3", low: 0.5 V, high: 0.6 V, source: two boards } # log 1\n',
    ],
  ])("%s", (_, before, result) => expect(once(START + before, expectIt)).toBe(START + result));

  test("of a rail that is not there, or the wrong way round", () => {
    const { ref: _, pin: __, ...rest } = limits;
    expect(reason("", (text) => addExpected(text, { ...rest, rail: "+5V" }))).toMatch(
      /^There is no rail `\+5V`/,
    );
    expect(
      once('rails: { "+5V": { nominal: 5 V, tolerance: 5 % } }\n', (text) =>
        addExpected(text, { ...rest, rail: "+5V" }),
      ),
    ).toContain('rail: "+5V", low');
    expect(reason("", (text) => addExpected(text, { ...limits, low: "0.7 V" }))).toMatch(/low end is above/);
  });
});

test("the other sections", () => {
  const rail = { name: "+5V", nominal: "5 V", tolerance: "5 %", from: "log 1" };
  expect(once("", (text) => addRail(text, rail))).toBe(
    'rails:\n  "+5V": { nominal: 5 V, tolerance: 5 % } # log 1\n',
  );
  expect(once("", (text) => addCircuit(text, { id: "reset", title: "Reset", from: "log 1" }))).toBe(
    "circuits:\n  reset: { title: Reset } # log 1\n",
  );
  expect(once("", (text) => addSymptom(text, { id: "dead", title: "Dead", from: "log 1" }))).toBe(
    "symptoms:\n  dead: { title: Dead } # log 1\n",
  );
  expect(
    once("nets: { R: [], C: [] }\n", (text) =>
      addMatrix(text, { id: "m", kind: "lamp", title: "Lamps", rows: ["R"], columns: ["C"], from: "" }),
    ),
  ).toBe("nets: { R: [], C: [] }\nmatrices:\n  m: { kind: lamp, title: Lamps, rows: [R], columns: [C] }\n");
  expect(once("grounds: [GND]\nnets: { GND: [], AGND: [] }\n", (text) => addGround(text, "AGND"))).toBe(
    "grounds: [GND, AGND]\nnets: { GND: [], AGND: [] }\n",
  );
  expect(once("grounds:\n- GND\nnets: { GND: [], AGND: [] }\n", (text) => addGround(text, "AGND"))).toBe(
    "grounds:\n- GND\n- AGND\nnets: { GND: [], AGND: [] }\n",
  );
  expect(reason("rails: { +5V: { nominal: 12 V, tolerance: 5 % } }\n", (text) => addRail(text, rail))).toBe(
    "`+5V` is different in the board file: nominal `12 V`, not `5 V`. If the file is wrong, change it there.",
  );
  expect(reason("", (text) => addPart(text, { ref: "U 1", from: "x" }))).toMatch(/designator/);
});

test("changes made together are held against each other", () => {
  const text = `${HEAD}parts:\n  U1: {}\n`;
  const made = editBoard(text, [
    { kind: "device", ref: "U2", device: "7404" },
    { kind: "part", entry: { ref: "U2", value: "x", from: "log 1" } },
    { kind: "fits", ref: "U2", part: "7414" },
    { kind: "part", entry: { ref: "U2", value: "y", package: "DIP-14", from: "log 2" } },
    { kind: "device", ref: "U1", device: "7400" },
    { kind: "fits", ref: "U1", part: "74LS00" },
    { kind: "net", entry: { name: "A", pins: ["U1.1"], from: "log 1" } },
    { kind: "net", entry: { name: "A", pins: ["U2.1"], from: "log 1" } },
  ]);
  expect(made.ok && made.text).toBe(
    `${HEAD}parts:\n  U1: { device: "7400", fits: [74LS00] }\n  U2: { value: x, package: DIP-14, device: "7404", fits: ["7414"] } # log 1\nnets:\n  A: [U1.1, U2.1] # log 1\n`,
  );
  expect(made.ok && made.kept).toMatchObject([
    { key: "U2", differs: [{ field: "value", file: "x", draft: "y" }] },
  ]);
});
