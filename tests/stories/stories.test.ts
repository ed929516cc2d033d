// Every story can be read, its log without complaints about its form, and its answer names what is on the board.
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { runJson } from "../cli/memory";
import { isAdvised, isNamed, judge, MISTAKES, netOf, type Said } from "./judge";
import { type Answer, type BoardFile, boards, boardTexts, CLASSES, knowledge, SPLITS, stories } from "./read";

/** Milliseconds for hundreds of logs at once on a machine that does something else beside. */
const ALL = 300_000;

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const all = stories(ROOT);
const byId = boards(ROOT);
const boardOf = (id: string): BoardFile => byId.get(id)!;

/**
 * Findings about how a log is typed: a story has none of these. What a reading means is no matter of form, nor is a
 * resistance below zero: a rail that was not discharged reads so.
 */
const FORM = new Set([
  "almost-a-table",
  "board-not-named",
  "cells-beyond-header",
  "column-not-read",
  "dates-out-of-order",
  "duplicate-id",
  "duplicate-reading",
  "front-matter-malformed",
  "heading-names-several",
  "matrix-line-unknown",
  "not-in-board-file",
  "number-not-in-library",
  "pin-outside-package",
  "point-missing",
  "section-not-read",
  "settings-undefined",
  "several-pins",
  "stated-twice",
  "text-in-table",
  "unknown-board",
  "unknown-designator",
  "unknown-device",
  "unknown-heading",
  "unknown-meter",
  "unknown-symptom",
  "unreadable-value",
]);

test("there are enough of them, of every class, and more than a third was kept back at first", () => {
  const count = (of: (answer: Answer) => boolean) => all.filter(({ answer }) => of(answer)).length;
  expect(all.length).toBeGreaterThanOrEqual(60);
  for (const name of CLASSES)
    expect({ name, enough: count((a) => a.class === name) > 0 }).toEqual({ name, enough: true });
  // What was read at once, to be learnt from, is `train`; each other name is a set that had its first look unread.
  expect(count((a) => a.split !== "train") / all.length).toBeGreaterThan(0.33);
  expect(new Set(all.map(({ log }) => /^job: (.+)$/m.exec(log)?.[1])).size).toBe(all.length);
});

test(
  "every log is read without a complaint about its form",
  async () => {
    const files = Object.fromEntries(all.map(({ name, log }) => [`logs/${name}.md`, log]));
    const { json } = await runJson(["logs", "--fail-on", "never"], { ...knowledge(ROOT), ...files });
    expect(json.problems).toEqual([]);
    expect(json.files).toHaveLength(all.length);
    const complaints = json.files.flatMap(({ path, findings }) =>
      findings
        .filter(({ code }) => FORM.has(code))
        .map((f) => `${path}:${f.start.line} ${f.code}: ${f.message}`),
    );
    expect(complaints).toEqual([]);
  },
  ALL,
);

test("every board is read without a complaint", async () => {
  const { json } = await runJson(["boards", "--fail-on", "never"], boardTexts(ROOT));
  expect(json.files.flatMap(({ path, findings }) => findings.map((f) => `${path}: ${f.message}`))).toEqual(
    [],
  );
});

test.each(all)("$name: the answer is whole and names what is on its board", ({ board: id, answer }) => {
  const board = boardOf(id);
  expect(board).toBeDefined();
  expect(CLASSES).toContain(answer.class);
  expect(SPLITS).toContain(answer.split);
  expect(answer.title).not.toBe("");
  expect(answer.note.split(" ").length).toBeGreaterThan(10);
  expect(answer.causes.length).toBe(answer.class === "two" ? 2 : 1);
  for (const { part, pin, fault, accept } of answer.causes) {
    expect(fault).not.toBe("");
    expect(accept.length).toBeGreaterThan(0);
    if (part !== undefined) expect(Object.keys(board.parts)).toContain(part);
    if (pin !== undefined)
      expect({ part, pin, net: netOf(`${part}.${pin}`, board) }).toMatchObject({ net: expect.any(String) });
    for (const entry of accept)
      expect({ entry, known: isKnown(entry, board) }).toEqual({ entry, known: true });
  }
  expect(answer.class === "mistake").toBe(
    answer.causes.some(({ accept }) => accept[0]?.startsWith("mistake ") ?? false),
  );
  expect(answer.next.sensible.length).toBeGreaterThan(0);
  expect(answer.next.silly.length).toBeGreaterThan(0);
  for (const entry of [...answer.next.sensible, ...answer.next.silly]) {
    const place = entry.split(" ").slice(1).join(" ");
    expect({ entry, known: entry === "none" || isPlace(place, board) }).toEqual({ entry, known: true });
  }
  expect(answer.next.sensible.filter((entry) => answer.next.silly.includes(entry))).toEqual([]);
});

function isKnown(entry: string, board: BoardFile): boolean {
  const [word, ...rest] = entry.split(" ");
  if (word === "mistake")
    return Object.keys(MISTAKES).includes(rest[0] ?? "") && (rest.length < 2 || isPlace(rest[1]!, board));
  if (word === "net" || word === "bridge") return rest[0] !== undefined && rest[0] in board.nets;
  if (word === "display") return /^\d+( [a-g])?$/i.test(rest.join(" "));
  if (word === "socket" || word === "setting") return isPlace(rest[0] ?? "", board);
  return isPlace(entry, board);
}

function isPlace(place: string, board: BoardFile): boolean {
  const [ref = "", pin] = place.split(".");
  if (/^(machine|loom|)$/.test(place) || /^(cell|diode) \d+,\d+$/.test(place)) return true;
  if (pin !== undefined && netOf(place, board) !== undefined) return true;
  return (
    place in board.parts ||
    place in board.nets ||
    place in board.rails ||
    (pin !== undefined && ref in board.parts)
  );
}

const BOARD = boardOf("regatta-controller");
test.each([
  ["U12", "U12", true],
  ["U1", "U12", false],
  ["the joint of U12 pin 5", "U12.5", true],
  ["the joint of U12 pin 5", "U12", false],
  ["the joint of U12 pin 15", "U12.5", false],
  ["the track or a joint of SW_COL_5", "net SW_COL_5", true],
  ["the track or a joint of SW_COL_5", "net SW_COL_6", false],
  ["the socket contact of U2 pin 9", "socket U2", true],
  ["the switch Lane 6 middle hole", "cell 3,6", true],
  ["the switch at row 3, column 6", "cell 3,6", true],
  ["the switch at row 3, column 5", "cell 3,6", false],
  ["the display itself at digit 4, segment B", "display 4 B", true],
  ["the display itself at digit 4, segment C", "display 4 B", false],
  ["U20 of the display", "display 4", false],
  ["a mistake in the reading of U13 pin 3", "U13.3", false],
  ["a mistake in the reading of U13 pin 3", "mistake slip U13.3", true],
  ["a mistake in the reading of U13 pin 5", "mistake slip U13.3", false],
  ["the lead was off ground while U14 was read", "mistake off-ground U14", true],
  ["the lead was off ground while U14 was read", "mistake reversed U14", false],
])("%s, held against %s", (name, accept, expected) => {
  expect(isNamed(name, accept, BOARD)).toBe(expected);
});

test.each([
  [{ kind: "diode-check", ref: "U13", pin: "5" }, "any SW_ROW_3", true],
  [{ kind: "diode-check", ref: "J3", pin: "3" }, "diode SW_ROW_3", true],
  [{ kind: "diode-check", ref: "J3", pin: "3" }, "lift SW_ROW_3", false],
  [{ kind: "lift-pin", ref: "U13", pin: "5" }, "lift U13.5", true],
  [{ kind: "lift-pin", ref: "U13", pin: "6" }, "lift U13.5", false],
  [{ kind: "supply-rails", ref: "TP1", pin: "1" }, "any +5V", true],
  [{ kind: "inspection", ref: "the machine" }, "inspect machine", true],
  [{ kind: "switch", ref: "3,6" }, "any cell 3,6", true],
  [{ kind: "switch", ref: "3,5" }, "any cell 3,6", false],
  [{ kind: "inspection", ref: "U13" }, "inspect machine", false],
  [{ kind: "diode-check", ref: "U7", pin: "1" }, "any SW_ROW_3", false],
])("the advice %o, held against %s", (advised, entry, expected) => {
  expect(isAdvised(advised, entry, BOARD)).toBe(expected);
});

const ANSWER: Answer = {
  title: "two",
  class: "two",
  split: "train",
  causes: [
    { fault: "short", part: "U12", accept: ["U12", "U12.5"] },
    { fault: "open", part: "U13", accept: ["U13"] },
  ],
  next: { sensible: ["any U12"], silly: ["any U7"] },
  note: "",
};
const said = (suspects: readonly (readonly [string, number])[]): Said => ({
  suspects: suspects.map(([name, share]) => ({ name, share })),
  together: [],
});

test("of two faults one is enough to be first, both have to be listed, and equivalents are one claim", () => {
  const both = judge(
    said([
      ["U12", 0.5],
      ["U9", 0.2],
      ["the joint of U12 pin 5", 0.3],
      ["U13", 0.1],
    ]),
    ANSWER,
    BOARD,
  );
  expect(both).toMatchObject({ first: true, inThree: true, sensible: false, advised: "nothing" });
  expect(both.claims).toEqual([
    { share: 0.2, right: false },
    { share: 0.8, right: true },
    { share: 0.1, right: true },
  ]);
  expect(
    judge(
      said([
        ["U9", 0.9],
        ["U12", 0.5],
      ]),
      ANSWER,
      BOARD,
    ),
  ).toMatchObject({ first: false, inThree: false, instead: "U9" });
});

test("a mistake leads where the likeliest explanation blames nothing else", () => {
  const answer: Answer = {
    ...ANSWER,
    class: "mistake",
    causes: [{ fault: "slip", accept: ["mistake slip U13.3"] }],
  };
  const slip = "a mistake in the reading of U13 pin 3";
  const told = (blamed: string[], excused: string[]): Said => ({
    ...said([["U13", 0.3]]),
    together: [{ blamed, excused, share: 0.6 }],
  });
  expect(judge(told([], [slip]), answer, BOARD).first).toBe(true);
  expect(judge(told(["U13"], []), answer, BOARD).first).toBe(false);
  expect(judge(told(["U7"], [slip]), answer, BOARD).first).toBe(false);
});
