import { describe, test } from "vitest";
import { checkReferences } from "../support/mentions";

const board = (id: string): string => `//- ${id}.board.yaml
mendlog-board: 1
id: ${id}
title: Board ${id}
circuits: { one: { title: One } }
parts:
  U14: { device: 74LS04, circuit: one }
  U15: { device: "7404" }
nets:
  ROW: [U14.3, U15.4]
symptoms:
  dead: { title: Dead, circuits: [one], note: seen with U14 out }
`;
const log = (name: string, id: string, body: string): string => `//- logs/${name}.md
---
mendlog: 1
board: ${id}
symptoms: [dead]
---

${body}
`;
const TABLE = `## Diode check

| Ref | Pin | Reading | Note |
| --- | --- | ------- | ---- |
| U14 | 3   | 0.5     | ROW  |
| U15 | 4   | 0.5     | like U14 |
`;

const WORLD = [
  board("a"),
  board("b"),
  log("1", "a", TABLE),
  log("2", "a", "U14.3 and u14 but not U140."),
  log("3", "b", TABLE),
].join("");

const OF_A = ["a.board.yaml 6!", "a.board.yaml 9", "a.board.yaml 11"];

describe("a designator", () => {
  test("is found in its board file and in every log of that board, from the board file", async () => {
    await checkReferences(WORLD.replace("  U14: ", "  U1$04: "), "U14", [
      ...OF_A,
      "logs/1.md 11",
      "logs/1.md 12",
      "logs/2.md 7",
      "logs/2.md 7",
    ]);
  });

  test.each([
    ["closed", true],
    ["open", false],
  ])("is found from a log as well, with the others %s", async (_how, closed) => {
    await checkReferences(
      WORLD.replace("U14.3 and", "U1$04.3 and"),
      "U14",
      [...OF_A, "logs/1.md 11", "logs/1.md 12", "logs/2.md 7", "logs/2.md 7"],
      { closed },
    );
  });
});

test("a net, a symptom, a board and a circuit are found wherever they are named", async () => {
  await checkReferences(WORLD.replace("| ROW ", "| R$0OW "), "ROW", ["a.board.yaml 9!", "logs/1.md 11"]);
  await checkReferences(WORLD.replace("[dead]", "[de$0ad]"), "dead", [
    "a.board.yaml 11!",
    "logs/1.md 4",
    "logs/2.md 4",
  ]);
  await checkReferences(WORLD.replace("board: a", "board: a$0"), "a", [
    "a.board.yaml 2!",
    "logs/1.md 3",
    "logs/2.md 3",
  ]);
  await checkReferences(WORLD.replace("circuits: { one", "circuits: { on$0e"), "one", [
    "a.board.yaml 4!",
    "a.board.yaml 6",
    "a.board.yaml 11",
  ]);
});

test("a part number is found on every board, under any number of the same device", async () => {
  await checkReferences(WORLD.replace("device: 74LS04", "device: 74L$0S04"), "74LS04", [
    "a.board.yaml 6",
    "a.board.yaml 7",
    "b.board.yaml 6",
    "b.board.yaml 7",
  ]);
});

test("what a log without a board names is its own", async () => {
  const world = `//- x.md
---
mendlog: 1
---
${TABLE.replace("| U14 |", "| U1$04 |")}//- y.md
---
mendlog: 1
---
${TABLE}`;
  await checkReferences(world, "U14", ["x.md 8", "x.md 9"]);
});

test("nothing is found where nothing is named", async () => {
  await checkReferences(WORLD.replace("but not", "b$0ut not"), undefined, []);
});
