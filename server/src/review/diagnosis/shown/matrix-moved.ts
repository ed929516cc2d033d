// A matrix of which every crossing answers as another one, by one rule for all of them: whoever closed them by hand counted the
// lines of a header from the wrong end, or from the pin beside.

import type { Crossing } from "../../../compute/matrix/shape";
import type { Board } from "../../../knowledge/types";
import type { LogDocument } from "../../../log/document";
import { momentIn, timelineOf } from "../../../log/timeline";
import { shift } from "../../../text/span";
import type { PhaseReview } from "../../matrix/log-review";
import { COUNTED, SHIFTED, wholeTable } from "../bench/whole-table";
import type { LocatedObservation } from "../observation";
import { wasTriedRight } from "../words/running";
import { headersOn, isBare } from "./matrix-places";

/** Crossings that answer as another, and the share of all that answer which have to follow the rule. Common practice, no source. */
const LEAST = 4;
const MOSTLY = 0.9;

interface Rule {
  readonly lines: readonly ("rows" | "columns")[];
  readonly beside?: true;
  readonly meant: (cell: Crossing, rows: number, columns: number) => Crossing;
}

const RULES: readonly Rule[] = [
  { lines: ["rows"], meant: ({ row, column }, rows) => ({ row: rows + 1 - row, column }) },
  { lines: ["columns"], meant: ({ row, column }, _, columns) => ({ row, column: columns + 1 - column }) },
  {
    lines: ["rows", "columns"],
    meant: ({ row, column }, rows, columns) => ({ row: rows + 1 - row, column: columns + 1 - column }),
  },
  { lines: ["rows", "columns"], meant: ({ row, column }) => ({ row: column, column: row }) },
  ...[1, -1].flatMap((by): Rule[] => [
    { lines: ["rows"], beside: true, meant: ({ row, column }) => ({ row: row + by, column }) },
    { lines: ["columns"], beside: true, meant: ({ row, column }) => ({ row, column: column + by }) },
  ]),
];

/** One finding in place of all that the tables show, or none. In the machine such a rule is its plug or its loom, unless it was tried there. */
export function movedLines(review: PhaseReview, board: Board, doc: LogDocument): LocatedObservation[] {
  const { log, tables, phase } = review;
  const shown = tables
    .flatMap(({ entries }) => entries)
    .flatMap((entry): { at: Crossing; as: Crossing }[] => {
      if (!("recorded" in entry)) return [];
      const { result, row, column } = entry.recorded;
      const at = { row, column };
      if (result.state === "works") return [{ at, as: at }];
      const [as, ...others] = result.state === "closes-others" && !result.own ? result.others : [];
      return as && others.length === 0 ? [{ at, as }] : [];
    });
  const moved = shown.filter(({ at, as }) => !isSame(at, as));
  const [first] = tables;
  const [rows, columns] = [log.matrix.rows.length, log.matrix.columns.length];
  if (moved.length < LEAST || !first) return [];
  const rule = RULES.find(({ meant }) => {
    const follow = shown.filter(({ at, as }) => isSame(meant(at, rows, columns), as));
    const anew = moved.filter((one) => follow.includes(one));
    const lines = new Set(anew.map(({ at, as }) => (at.row === as.row ? at.column : at.row)));
    return anew.length >= LEAST && lines.size > 1 && follow.length >= MOSTLY * shown.length;
  });
  const timeline = timelineOf(doc);
  const wasTried = () => wasTriedRight(doc.blocks, (table) => momentIn(timeline, table).order === phase);
  if (!rule || !(isBare(review) || wasTried())) return [];
  const refs = rule.lines.flatMap((lines) => {
    const nets = log.matrix[lines];
    // The one header that they all go to.
    return headersOn(nets, board).filter((ref) =>
      nets.every((net) => board.nets.get(net)?.pins.some((pin) => pin.ref === ref)),
    );
  });
  const whose = [...new Set(refs)];
  const one = wholeTable(
    first.table,
    first.table.readings,
    whose,
    (rule.beside ? SHIFTED : COUNTED)(whose.length > 0 ? whose : [log.matrix.title]),
  );
  return one ? [{ ...one, span: shift(one.span, first.start), phase }] : [];
}

const isSame = (a: Crossing, b: Crossing): boolean => a.row === b.row && a.column === b.column;
