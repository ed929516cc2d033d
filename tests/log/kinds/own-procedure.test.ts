// Procedures of a workspace have no record: what is known of them are their columns.
import { expect, test } from "vitest";
import { judgeBlock } from "../../../server/src/judge";
import { boardHead, logOf } from "../../support/boards";
import { table } from "../../support/tables";
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

const board = (id: string) => `${boardHead()}parts: { U1: { device: 74LS04 } }
expected:
  - { procedure: ${id}, ref: U1, pin: 2, low: 0.2 V, high: 0.3 V, source: invented }
`;

async function verdicts(id: string, title: string) {
  const { view } = await openAt(
    procedure(id, title) +
      logOf(
        board(id),
        table(title, "Ref | Pin | Reading", "U1 | 2 | 0.25", "U1 | 2 | 0.55", "U1 | 4 | 0.05"),
      ) +
      "$0",
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
