import type { Matrix } from "../../knowledge/types";
import type { CellPosition } from "../../log/position";
import { md } from "../describe";
import { cautionLines } from "../documentation";
import type { LogView } from "../view";

/** What stands at a crossing of the board's matrix: its name, its two nets, and whether to keep off it. */
export function crossingMarkdown(view: LogView, at: CellPosition): string | undefined {
  const kind = KINDS[at.table.procedure.id];
  const { row, column } = at.reading?.subject ?? {};
  if (!kind || !row || !column) return undefined;
  for (const matrix of view.ctx.board?.value.matrices.values() ?? []) {
    const r = lineOf(row.text, matrix.rows);
    const c = lineOf(column.text, matrix.columns);
    if (matrix.kind === kind && r !== undefined && c !== undefined) return describe(matrix, r, c);
  }
  return undefined;
}

const KINDS: Readonly<Record<string, Matrix["kind"]>> = { "switch-matrix": "switch", "lamp-matrix": "lamp" };

/** A line by its number ("3", "row 3") or its net; from 0. */
function lineOf(typed: string, nets: readonly string[]): number | undefined {
  const byName = nets.findIndex((net) => net.toUpperCase() === typed.trim().toUpperCase());
  if (byName >= 0) return byName;
  const number = Number(/^(?:row|column|col)?\s*(\d{1,3})$/i.exec(typed.trim())?.[1]);
  return number >= 1 && number <= nets.length ? number - 1 : undefined;
}

function describe(matrix: Matrix, r: number, c: number): string {
  const reserved = matrix.reserved.some(([row, column]) => row === r + 1 && column === c + 1);
  return [
    `**${md(matrix.cells[r]?.[c] || "(unnamed)")}** · row ${r + 1} (${md(matrix.rows[r] ?? "")}), column ${c + 1} (${md(matrix.columns[c] ?? "")})`,
    ...(reserved ? cautionLines(["This crossing is reserved by the board file: do not bridge it."]) : []),
  ].join("\n\n");
}
