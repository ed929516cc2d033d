// Single crossings of a matrix, as the diagnosis takes them: those that are dead, and a diode that lets current through backwards.

import { defined } from "../../../base/defined";
import type { MatrixLine } from "../../../compute/matrix/shape";
import type { Board } from "../../../knowledge/types";
import { type PhaseReview, spanOfCell, spanOfHeld } from "../../matrix/log-review";
import type { LocatedObservation } from "../observation";
import { isBare, nameOf, netOf, netsAt, placed, thing } from "./matrix-places";

/** The two kinds of line that meet at a crossing. */
export const LINES = ["row", "column"] as const;

/** A crossing on the line was seen to show itself. */
const answers = ({ tables }: PhaseReview, { kind, number }: MatrixLine): boolean =>
  tables.some(({ entries }) =>
    entries.some(
      (entry) =>
        "recorded" in entry &&
        entry.recorded[kind] === number &&
        (entry.recorded.result.state === "works" ||
          (entry.recorded.result.state === "closes-others" && entry.recorded.result.own)),
    ),
  );

/** A dead crossing on lines that answer, and a diode that lets current through backwards: neither is on the board. */
export function crossings(
  phase: PhaseReview & { readonly boardWorks?: (line: MatrixLine) => boolean },
  board: Board,
): LocatedObservation[] {
  const { tables, review } = phase;
  const dead = (review.dead.nothingAnswers === undefined ? review.dead.cells : []).flatMap(
    (cell): LocatedObservation[] => {
      if (phase.curedCell(cell)) return [];
      const silentLines = LINES.filter((kind) => !answers(phase, { kind, number: cell[kind] }));
      const [line] = silentLines;
      const where =
        silentLines.length === 0
          ? "its row and column answer elsewhere"
          : `nothing else on its ${silentLines.join(" and its ")} was tried`;
      const silentLine =
        line && silentLines.length === 1
          ? netOf(phase.log.matrix, { kind: line, number: cell[line] }, board)
          : undefined;
      // Both of its lines were themselves on the bare board: two tables say that it lies in the machine.
      const isApart = LINES.every((kind) => phase.boardWorks?.({ kind, number: cell[kind] }));
      return placed(phase, `dead ${cell.row} ${cell.column}`, spanOfCell(tables, cell), {
        kind: "sign",
        sign: isApart ? "wiring-apart" : "crossing-dead",
        nets: isBare(phase) ? netsAt(phase, cell, board) : [],
        of: nameOf(phase, cell),
        says: `The crossing at ${nameOf(phase, cell)} is dead, and ${where}.`,
        outside: isBare(phase)
          ? `the test lead at ${nameOf(phase, cell)}`
          : `the ${thing(phase)} at ${nameOf(phase, cell)}, its diode or its wire`,
      }).map((one) => defined({ ...one, silentLine }));
    },
  );
  const [best] = review.phantoms.suspects;
  const diode = best?.only
    ? placed(
        phase,
        `phantom ${best.row} ${best.column}`,
        spanOfHeld(tables, best.explains[0]?.cell ?? best),
        {
          kind: "sign",
          sign: "phantom",
          of: nameOf(phase, best),
          says: `A crossing showed although open, and only the diode at ${nameOf(phase, best)} could let it.`,
          outside: `the diode at ${nameOf(phase, best)}`,
        },
      )
    : [];
  return [...dead, ...diode];
}
