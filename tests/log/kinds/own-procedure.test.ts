// Procedures of a workspace have no record: what is known of them are their columns.
import { expect, test } from "vitest";
import { judgeBlock } from "../../../server/src/judge";
import { openAt } from "../../support/workspace";

const procedure = (id: string, title: string) => `//- ${id}.procedure.yaml
mendlog-procedure: 1
id: ${id}
title: ${title}
powered: unpowered
columns:
  - { role: ref, headers: [Ref], required: true }
  - { role: pin, headers: [Pin], required: true }
  - { role: reading, measure: drop, headers: [Reading], quantity: voltage, unit: V, required: true }
purpose: Trial.
source: invented
`;

const board = (id: string) => `//- b.board.yaml
mendlog-board: 1
id: b
title: B
source: invented
parts: { U1: { device: 74LS04 } }
expected:
  - { procedure: ${id}, ref: U1, pin: 2, low: 0.2 V, high: 0.3 V, source: invented }
`;

async function verdicts(id: string, title: string) {
  const { view } = await openAt(
    `${procedure(id, title)}${board(id)}//- log.md\n---\nmendlog: 1\nboard: b\n---\n\n## ${title}\n\n` +
      "| Ref | Pin | Reading |\n|-----|-----|---------|\n| U1 | 2 | 0.25 |\n| U1 | 2 | 0.55 |\n| U1 | 4 | 0.05 |\n$0",
  );
  return view.doc.blocks.flatMap(({ block }) =>
    [...judgeBlock(block, view.ctx).values()].map(({ verdict, code }) => code ?? verdict),
  );
}

test("one with an id of its own is held against what the board file expects, and against nothing else", async () => {
  expect(await verdicts("leg-drops", "Leg drops")).toEqual(["within-limits", "outside-expected", "unjudged"]);
});

test("one with an id of the library's takes its place and is judged as it is", async () => {
  expect(await verdicts("diode-check", "Leg drops")).toEqual([
    "within-limits",
    "diode-out-of-window",
    "diode-out-of-window",
  ]);
});
