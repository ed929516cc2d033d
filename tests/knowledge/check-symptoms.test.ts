import { expect, test } from "vitest";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { checkProblems } from "./problems";

test("an input of a symptom is a crossing of a matrix", () => {
  const board = checkProblems(
    (text) => loadBoard(text),
    `mendlog-board: 1
id: b
title: Board
nets: { R_1: [], C_1: [], C_2: [] }
matrices:
  switches:
    kind: switch
    title: Switches
    rows: [R_1]
    columns: [C_1, C_2]
    cells: [[Coin door, Tilt]]
symptoms:
  race-ends: { title: The race ends, inputs: [Coin door, Tlit, 2] }
                                                         ^^^^ unknown-input: Did you mean \`Tilt\`?
                                                               ^ unknown-input: \`2\`
  no-inputs: { title: Nothing, inputs: [] }
`,
  );
  expect(board?.symptoms.get("no-inputs")?.inputs).toEqual([]);
});
