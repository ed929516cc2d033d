// The crossings still to be tested, written as rows to be filled in.

import { type Crossing, crossingKey, keysOf, nameOfCell } from "../../compute/matrix/shape";
import type { Board, Procedure } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import type { LogTable } from "../../log/model";
import { encodeCell } from "../../syntax/tables";
import type { TextEdit } from "../../text/edits";
import type { LocatedResults, MatrixLog } from "./from-log";
import { provingOf } from "./log-review";

export interface TestRows {
  readonly cells: readonly Crossing[];
  readonly edit: TextEdit;
}

/**
 * Rows for the fewest crossings that prove the rest of the matrix: below the last long table where there is one, else
 * in a table of their own below the grid. Undefined where nothing is left to test or the rows stand there already.
 */
export function testRows(doc: LogDocument, log: MatrixLog, board: Board): TestRows | undefined {
  const plan = provingOf(log, board);
  const waiting = keysOf(log.tables.flatMap((table) => table.waiting));
  const cells = (plan?.next ?? []).filter((cell) => !waiting.has(crossingKey(cell)));
  const last = log.tables.at(-1);
  if (cells.length === 0 || !last) return undefined;
  const eol = doc.text.includes("\r\n") ? "\r\n" : "\n";
  const at = last.start + last.table.span.end;
  const lines = isLong(last) ? longRows(last.table, log, cells) : newTable(last.table.procedure, log, cells);
  const lead = isLong(last) ? eol : eol + eol;
  return { cells, edit: { span: { start: at, end: at }, newText: lead + lines.join(eol) } };
}

/** A long table that says by its own columns which crossing a row is of. */
function isLong({ table }: LocatedResults): boolean {
  const roles = table.columns.map((column) => column.spec?.role);
  return (
    table.shape === "long" && ((roles.includes("row") && roles.includes("column")) || roles.includes("cell"))
  );
}

function longRows(table: LogTable, { shape }: MatrixLog, cells: readonly Crossing[]): readonly string[] {
  const widths = table.columns.map(({ header }) => Math.max(0, header.outer.end - header.outer.start - 2));
  const hasLines = table.columns.some(({ spec }) => spec?.role === "row");
  return cells.map((cell) => {
    const texts = table.columns.map(({ spec }) => {
      if (spec?.role === "row") return String(cell.row);
      if (spec?.role === "column") return String(cell.column);
      if (spec?.role !== "cell") return "";
      return nameOfCell(shape, cell) ?? (hasLines ? "" : `${cell.row},${cell.column}`);
    });
    return line(texts, widths);
  });
}

function newTable(procedure: Procedure, { shape }: MatrixLog, cells: readonly Crossing[]): readonly string[] {
  const word = (role: string): string =>
    procedure.columns.find((spec) => spec.role === role)?.headers[0] ?? role;
  const rows = [
    [word("row"), word("column"), word("cell"), word("result")],
    ...cells.map((cell) => [String(cell.row), String(cell.column), nameOfCell(shape, cell) ?? "", ""]),
  ];
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => encodeCell(row[i]!).length)));
  const [head, ...body] = rows.map((row) => line(row, widths));
  return [head!, `|${widths.map((width) => "-".repeat(width + 2)).join("|")}|`, ...body];
}

const line = (cells: readonly string[], widths: readonly number[]): string =>
  `| ${cells.map((cell, i) => encodeCell(cell).padEnd(widths[i] ?? 0)).join(" | ")} |`;
