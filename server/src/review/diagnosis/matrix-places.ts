// Where a thing that a matrix shows stands: its nets, its names, its place in the log, and whether the machine was there.

import { defined } from "../../base/defined";
import type { SignFinding } from "../../compute/diagnosis/types";
import type { Crossing, MatrixLine } from "../../compute/matrix/shape";
import type { Board, Matrix } from "../../knowledge/types";
import { type Span, shift } from "../../text/span";
import type { PhaseReview } from "../matrix/log-review";
import type { LocatedObservation } from "./observation";

/** Undefined for a line that only a grid has named: nobody knows what is on it. */
export function netOf(
  { rows, columns }: Matrix,
  { kind, number }: MatrixLine,
  { nets }: Board,
): string | undefined {
  const name = (kind === "row" ? rows : columns)[number - 1];
  return name !== undefined && nets.has(name) ? name : undefined;
}

/** A test on the bare board has nothing of the machine in it. */
const BARE =
  /\b(?:loom|harness|cables?|machine|cabinet|J\d+(?:\s*(?:,|and|&)\s*J\d+)*)\s+(?:is\s+|are\s+|was\s+|were\s+)?(?:unplugged|off|out|disconnected|pulled)\b|\b(?:unplugged|without|bare board|on the bench|clip lead)\b/i;

export function isBare({ tables }: PhaseReview): boolean {
  return tables.every(({ table }) => BARE.test(table.section.heading?.text ?? ""));
}

export const nameOf = ({ log }: PhaseReview, { row, column }: Crossing): string => {
  const named = log.matrix.cells[row - 1]?.[column - 1];
  return `row ${row}, column ${column}${named ? ` (${named})` : ""}`;
};

export const thing = ({ log }: PhaseReview): string => (log.matrix.kind === "switch" ? "switch" : "lamp");

export function placed(
  { tables, phase }: PhaseReview,
  key: string,
  span: Span | undefined,
  finding: SignFinding,
): LocatedObservation[] {
  const [first] = tables;
  if (!first) return [];
  return [
    defined({
      key,
      what: finding.of,
      table: first.table,
      span: span ?? shift(first.table.span, first.start),
      refs: [],
      phase,
      finding,
    }),
  ];
}

export function netsAt({ log }: PhaseReview, { row, column }: Crossing, board: Board): readonly string[] {
  return (
    [
      { kind: "row", number: row },
      { kind: "column", number: column },
    ] as const
  ).flatMap((line) => netOf(log.matrix, line, board) ?? []);
}
