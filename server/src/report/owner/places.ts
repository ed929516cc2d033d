// Places of a board in an owner's words.
import { boardIndex } from "../../knowledge/board-index";
import type { ColumnRole } from "../../knowledge/types";
import { tablesOf } from "../../log/document";
import type { LogRow, LogTable } from "../../log/model";
import { saysReplaced } from "../../log/planned";
import type { ReportSource } from "./model";

/** "U14 (hex inverter, switch matrix)"; the designator alone where nothing is known of it. */
export function partWords(ref: string, { ctx }: ReportSource): string {
  const board = ctx.board?.value;
  const part = board && boardIndex(board).part(ref);
  if (!board || !part) return ref;
  const device = part.device === undefined ? undefined : ctx.library.device(part.device)?.device;
  const what = device ? lowerFirst(device.title) : (part.value ?? part.device);
  const circuit = part.circuit === undefined ? undefined : board.circuits.get(part.circuit)?.title;
  const words = [what, circuit && lowerFirst(circuit)].filter(Boolean).join(", ");
  return words === "" ? part.ref : `${part.ref} (${words})`;
}

/** A cell as the log has it; the model keeps the first designator only. */
export function wholeCell(table: LogTable, row: LogRow, role: ColumnRole): string | undefined {
  const at = table.columns.findIndex(({ spec }) => spec?.role === role);
  const text = table.source.rows[row.index]?.cells[at]?.text.trim() || row.cells[role]?.text.trim();
  return text === undefined || /^[-–—]*$/.test(text) ? undefined : text;
}

/** Designators in upper case that a row of work says were replaced. */
export function replacedRefs({ doc }: ReportSource): ReadonlySet<string> {
  const refs = new Set<string>();
  for (const { table } of tablesOf(doc)) {
    if (table.kind.holds !== "work") continue;
    for (const row of table.rows) {
      if (!saysReplaced(row.cells.action?.text ?? "")) continue;
      for (const [ref] of (wholeCell(table, row, "ref") ?? "").matchAll(/[A-Z]{1,4}\d{1,4}/gi))
        refs.add(ref.toUpperCase());
    }
  }
  return refs;
}

export const lowerFirst = (text: string): string =>
  /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

export const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
