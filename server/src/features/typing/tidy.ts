// What is done with a row as the cursor leaves it: readings typed without their point get it where they can only be one
// reading, and the row is padded to its table's widths. Other rows stay as they are.

import { type WholeDigits, wholeReading } from "../../quantity/whole-digits";
import { encodeCell } from "../../syntax/tables";
import { displayWidth } from "../../text/display-width";
import type { TextEdit } from "../../text/edits";
import { slice, span } from "../../text/span";
import { digitsOf } from "../shared/digits-of";
import type { LogView } from "../view";
import { isValueColumn } from "./columns";
import { type Sheet, sheetPositionAt } from "./sheet";

/**
 * The edits of a row that is left; none where it is as it should be. Tables whose header and dashes are not in line were
 * typed with no care for columns, and their rows are not moved.
 * @param only the one column to look at, where the cursor stays in the row
 */
export function tidyRow(sheet: Sheet, row: number, only?: number): TextEdit[] {
  const own = sheet.rows[row];
  if (!own?.piped) return [];
  const { text } = sheet.view.doc;
  const straight = isStraight(sheet);
  const edits: TextEdit[] = [];
  own.cells.forEach((cell, column) => {
    const header = sheet.header.cells[column];
    if (!header || (only !== undefined && column !== only)) return;
    const pointed = pointedIn(sheet, row, column);
    if (pointed === undefined && !straight) return;
    const content = pointed === undefined ? slice(text, cell.span) : encodeCell(pointed);
    const isOpen = column === own.cells.length - 1 && !own.closed;
    // What is open may still be typed on, and what is right of it is not there yet.
    if (isOpen && pointed === undefined) return;
    const start = cell.text === "" ? cell.outer.start : cell.span.start;
    const lead = slice(text, span(cell.outer.start, start));
    const width = straight ? header.outer.end - header.outer.start : cell.outer.end - cell.outer.start;
    const least = /[ \t]$/.test(slice(text, header.outer)) || content.endsWith("\\") ? 1 : 0;
    const blanks = isOpen ? 0 : Math.max(least, width - displayWidth(lead) - displayWidth(content));
    const newText = content + " ".repeat(blanks);
    if (slice(text, span(start, cell.outer.end)) === newText) return;
    edits.push({ span: span(start, cell.outer.end), newText });
  });
  if (straight && only === undefined) edits.push(...closing(sheet, row));
  return edits;
}

/** The edits of the row at a place as it is left; none outside of a readings table and where it is as it should be. */
export function leaveRow(view: LogView, offset: number): TextEdit[] {
  const place = sheetPositionAt(view, offset);
  return place && place.row >= 0 ? tidyRow(place.sheet, place.row) : [];
}

/** The reading that a cell's digits stand for; undefined where they may be several, or are a reading as they are. */
export function pointedIn(sheet: Sheet, row: number, column: number, typed?: string): string | undefined {
  const digits = isValueColumn(sheet, column) ? digitsIn(sheet) : undefined;
  return digits && wholeReading(typed ?? sheet.rows[row]?.cells[column]?.text ?? "", digits);
}

/** How digits without their point are read in a table; undefined where they are only digits. */
export function digitsIn({ table }: Sheet): WholeDigits | undefined {
  // A column whose header or readings say millivolts holds what was meant.
  if (table.columns.some(({ unit }) => unit !== undefined && unit !== "V")) return undefined;
  if (table.readings.some(({ value }) => value.kind === "quantity" && isMilli(value))) return undefined;
  return digitsOf(table.procedure);
}

/** A number without a unit that is read as millivolts, as where a whole column was copied off such a display. */
const isMilli = ({ typed, quantity }: { typed: string; quantity: { value: number } }): boolean =>
  /^\d{2,4}$/.test(typed) && Math.abs(quantity.value * 1000 - Number(typed)) < 1e-6;

/** The pipes of the header stand where those of the row of dashes do. */
function isStraight({ header, delimiter, view }: Sheet): boolean {
  const pipes = (line: string) => [...line.matchAll(/\|/g)].map(({ index }) => index);
  const above = slice(view.doc.text, header.line);
  if (above.includes("\\|")) return false;
  const head = pipes(above);
  const dashes = pipes(slice(view.doc.text, delimiter));
  return head.length > 1 && head.length === dashes.length && head.every((at, i) => at === dashes[i]);
}

/** The cells a row is short of. */
function closing({ header, rows, view }: Sheet, row: number): TextEdit[] {
  const own = rows[row];
  if (!own || own.closed || !header.closed) return [];
  const { text } = view.doc;
  const last = own.cells.length - 1;
  const cell = own.cells[last];
  const model = header.cells[last];
  if (!cell || !model) return [];
  const end = own.line.start + slice(text, own.line).trimEnd().length;
  const room = model.outer.end - model.outer.start - (end - cell.outer.start);
  const more = header.cells.slice(last + 1).map(({ outer }) => `${" ".repeat(outer.end - outer.start)}|`);
  const newText = `${" ".repeat(Math.max(1, room))}|${more.join("")}`;
  return [{ span: span(Math.max(end, own.line.start), own.line.end), newText }];
}
