// Places of a board in an owner's words.
import { boardIndex } from "../../knowledge/board-index";
import type { ColumnRole } from "../../knowledge/types";
import type { LogRow, LogTable } from "../../log/model";
import { workRows } from "../../log/timeline";
import type { ReportSource } from "./model";

/** "U14 (hex inverter, switch matrix)"; the designator alone where nothing is known of it. */
export function partDescription(ref: string, { ctx }: ReportSource): string {
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
export const replacedRefs = ({ doc }: ReportSource): ReadonlySet<string> =>
  new Set(workRows(doc).flatMap(({ replaced, refs }) => (replaced ? refs : [])));

export const lowerFirst = (text: string): string =>
  /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

export { upperFirst } from "../../text/sentence";
