import { matrixLogs } from "../../review/matrix/from-log";
import { testRows } from "../../review/matrix/test-rows";
import type { Span } from "../../text/span";
import type { Refactor } from "../types";
import type { LogView } from "../view";

/** From anywhere in a section with one of the matrix's tables: the rows that would prove the rest of it. */
export function insertTestRows(view: LogView, selected: Span): readonly Refactor[] {
  const board = view.ctx.board?.value;
  if (!board) return [];
  return matrixLogs(view.doc, board).flatMap((log): Refactor[] => {
    const here = log.tables.some(({ table, start }) => {
      const from = start + (table.section.heading?.span.start ?? table.span.start);
      return selected.start <= start + table.span.end && selected.end >= from;
    });
    const rows = here ? testRows(view.doc, log, board) : undefined;
    if (!rows) return [];
    const count =
      rows.cells.length === 1 ? "the test row that proves" : `the ${rows.cells.length} test rows that prove`;
    return [{ title: `Insert ${count} the rest of this matrix`, edits: [rows.edit] }];
  });
}
