import { expect, test } from "vitest";
import { nodesOf, type SuspectNode, type SuspectsWords } from "../../client/src/suspects/nodes";
import type { Suspects } from "../../server/src/protocol/custom-requests/suspects";

const WORDS: SuspectsWords = {
  nextOne: (minutes) => `next, ${minutes}`,
  boardFile: (name) => `${name} in the board file`,
  minutes: (minutes) => `${minutes} min`,
  or: (action) => `Or: ${action}`,
  suspect: (name, { how, percent }) => `${how} ${percent} %: ${name}`,
  spokenSuspect: (name, { how, percent }, title) => `Suspect ${name}, ${how} ${percent} %. ${title}`,
  spokenCaution: (text) => `Caution: ${text}`,
  spokenPlace: (text, line) => `${text} Goes to line ${line}.`,
  speaksFor: (count) => `for ${count}`,
  speaksAgainst: (count) => `against ${count}`,
  beforehand: (count) => `before ${count}`,
  notRead: (count) => `open ${count}`,
  unproven: (count, all) => `unproven ${count} of ${all}`,
  failed: "failed",
  noReading: "nothing left to read",
  limits: "limits",
};
const PLACE = { uri: "file:///log.md", line: 3, character: 5 };
const NOTHING: Suspects = { version: 1, suspects: [], others: [], unproven: [], toProve: 0, notes: [] };
const ONE: Suspects = {
  ...NOTHING,
  suspects: [
    {
      name: "U14",
      title: "74LS14",
      share: { how: "about", percent: 85 },
      for: [{ text: "U14 pin 1 reads low", place: PLACE }],
      before: [],
      against: ["5 pins within limits"],
      notTaken: [{ text: "U14 pin 3" }],
      place: { ...PLACE, uri: "file:///x.board.yaml" },
    },
  ],
  next: { action: "Read U14 pin 1", why: "It tells.", minutes: 2, cautions: ["Power off."], place: PLACE },
  others: [{ action: "Lift", why: "So.", minutes: 3, cautions: [] }],
  unproven: [
    { title: "Lamps", wants: "a row", failed: false },
    { title: "Memory", wants: "", failed: true },
  ],
  toProve: 9,
  notes: ["Sets of two."],
};

const lines = (nodes: readonly SuspectNode[], indent = ""): string[] =>
  nodes.flatMap(({ label, description, place, children }) => [
    `${indent}${label}${description ? ` (${description})` : ""}${place ? " ->" : ""}`,
    ...lines(children, `${indent}  `),
  ]);

test("the next reading with its caution first, the suspects with their evidence, what is unproven, how far it goes", () => {
  expect(lines(nodesOf(ONE, WORDS))).toEqual([
    "Read U14 pin 1 (next, 2 min) ->",
    "  Power off.",
    "  It tells.",
    "  Or: Lift (3 min)",
    "about 85 %: U14 (74LS14)",
    "  for 1",
    "    U14 pin 1 reads low ->",
    "  against 1",
    "    5 pins within limits",
    "  open 1",
    "    U14 pin 3",
    "  U14 in the board file ->",
    "unproven 2 of 9",
    "  Lamps (a row)",
    "  Memory (failed)",
    "limits",
    "  Sets of two.",
  ]);
});

test("nothing is listed where there is nothing, and no reading is said to be left where none tells suspects apart", () => {
  expect(nodesOf({ ...NOTHING, nothing: "No board." }, WORDS)).toEqual([]);
  expect(nodesOf(NOTHING, WORDS)).toEqual([]);
  const { next: _next, ...without } = ONE;
  expect(lines(nodesOf(without, WORDS))[0]).toBe("nothing left to read");
});

test("every row has an id of its own, the same in the next answer, and says what it is", () => {
  const ids = (nodes: readonly SuspectNode[]): string[] =>
    nodes.flatMap(({ id, children }) => [id, ...ids(children)]);
  const all = ids(nodesOf(ONE, WORDS));
  expect(new Set(all).size).toBe(all.length);
  expect(ids(nodesOf({ ...ONE, version: 2 }, WORDS))).toEqual(all);
  expect(nodesOf(ONE, WORDS)[0]?.spoken).toBe("Read U14 pin 1, next, 2 min. Power off.");
  expect(nodesOf(ONE, WORDS)[1]?.spoken).toBe("Suspect U14, about 85 %. 74LS14");
});

test("a screen reader hears what the icons say: a caution, a place to go to, a failure", () => {
  const flat = (nodes: readonly SuspectNode[]): SuspectNode[] =>
    nodes.flatMap((node) => [node, ...flat(node.children)]);
  const all = flat(nodesOf(ONE, WORDS));
  const heard = ({ spoken, label, description }: SuspectNode) =>
    spoken ?? [label, description].filter(Boolean).join(", ");
  const of = (icon: string) => all.filter((node) => node.icon === icon).map(heard);
  expect(of("warning")).toEqual(["Caution: Power off."]);
  expect(of("error")).toEqual(["Memory, failed"]);
  expect(of("go-to-file")).toEqual(["U14 pin 1 reads low Goes to line 4.", "U14 in the board file"]);
  // The shares and the minutes stand beside the label; none of them is left out.
  for (const node of all)
    for (const word of (node.description ?? "").split(", ")) expect(heard(node)).toContain(word);
});
