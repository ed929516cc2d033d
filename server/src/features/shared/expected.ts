import { expectedText } from "../../judge/expected-text";
import type { ColumnSpec } from "../../knowledge/types";
import type { Reading } from "../../log/model";
import type { CellPosition } from "../../log/position";
import type { LogView } from "../view";

/** What the board file, the shop's earlier jobs or the part lead one to expect in this very cell. */
export function expectedHere(
  { ctx }: LogView,
  at: CellPosition,
  spec: ColumnSpec | undefined,
): string | undefined {
  const reading = readingTo(at, spec);
  return reading && expectedText(reading, ctx);
}

/** The reading that the cell is going to hold: a cell that has only just begun is none yet. */
function readingTo(at: CellPosition, spec: ColumnSpec | undefined): Reading | undefined {
  const { table, row, cell, column } = at;
  if (spec?.role !== "reading") return undefined;
  const header = table.columns[column]?.header;
  const wide = table.shape === "wide" ? table.procedure.wide : undefined;
  const subject = {
    ...table.rows[row]?.cells,
    ...(wide && header ? { [wide.columns]: { text: header.text, span: header.span } } : {}),
  };
  const value = { kind: "empty", typed: "" } as const;
  const measure = spec.measure ?? spec.role;
  return { ...(at.reading ?? { table, row, subject, spec, measure, cell }), value };
}
