// Rows made of lines that were begun below a table: by a line break, and by what was typed before the row was there.
import { defined } from "../../base/defined";
import type { WholeDigits } from "../../quantity/whole-digits";
import { type Span, slice, span, touches } from "../../text/span";
import type { LogView } from "../view";
import { digitsAt } from "./advance";
import { isValueColumn } from "./columns";
import { afterEdits, isStarted, makeRow, type TypingStep } from "./next-cell";
import { rowText } from "./row-text";
import {
  lineAbove,
  lineEndAt,
  lineSpanAt,
  rowsBelow,
  type Sheet,
  type SheetRow,
  sheetAt,
  sheetPositionAt,
  sheetRow,
} from "./sheet";
import { pointedIn, tidyRow } from "./tidy";

/** Words that may have been typed ahead of a row: a value, and no beginning of anything else in Markdown. */
export const TYPED_AHEAD = /^[\p{L}\d.,~\u2248+\u2212-][^\s|]*$/u;
/** The same where nothing but the text itself tells: no word of prose. */
const NUMBER = /^[~\u2248+\u2212-]?[.,]?\d[^\s|]*$/;
/** Lines typed ahead at most. */
const MOST_AHEAD = 50;

interface Begun {
  readonly sheet: Sheet;
  /** The row above the lines, -1 for the delimiter row. */
  readonly after: number;
  /** The lines down to the cursor's with what was typed on each; the last may be empty. */
  readonly lines: readonly { readonly line: Span; readonly typed: string }[];
}

/** The lines without pipes from below a row of a readings table to the cursor. */
export function begunAt(view: LogView, offset: number, isValue: RegExp): Begun | undefined {
  const { text } = view.doc;
  const lines: { line: Span; typed: string }[] = [];
  for (let line: Span | undefined = lineSpanAt(text, offset); line && lines.length <= MOST_AHEAD; ) {
    const typed = slice(text, line).trimStart();
    if (typed.includes("|")) {
      const own = line;
      const sheet = lines.length > 0 ? sheetAt(view, own) : undefined;
      if (!sheet) return undefined;
      const after = sheet.rows.findIndex((row) => row.line.start === own.start);
      return after >= 0 || own.start === sheet.delimiter.start
        ? { sheet, after, lines: lines.reverse() }
        : undefined;
    }
    // Only the line of the cursor may be empty so far.
    if (typed === "" ? lines.length > 0 : !isValue.test(typed)) return undefined;
    lines.push({ line, typed });
    line = lineAbove(text, line);
  }
  return undefined;
}

/**
 * Makes a row of the line that was begun below another by a line break. What was typed on it meanwhile becomes the
 * reading, on several lines those of several rows. Undefined where it is no line below a readings table, or the row is
 * already being typed by hand.
 * @param started true where the row above is one that was only just written by a step like this
 */
export function startRow(view: LogView, offset: number, started = false): TypingStep | undefined {
  const begun = begunAt(view, offset, TYPED_AHEAD);
  const first = begun?.lines[0];
  const last = begun?.lines.at(-1);
  if (!begun || !first || !last) return undefined;
  const { sheet, after } = begun;
  const { text } = view.doc;
  const rowAbove = sheet.rows[after];
  if (started && last.typed === "" && begun.lines.length === 1 && rowAbove) {
    if (isStarted({ sheet, row: after, column: 0, atEnd: true })) {
      const { line } = rowAbove;
      return { edits: [{ span: line, newText: "" }], cursor: offset - (line.end - line.start) };
    }
  }
  const above: SheetRow[] = sheet.rows.slice(0, after + 1);
  const below =
    last.typed === ""
      ? rowsBelow(text, last.line)
      : sheet.rows.filter(({ line }) => line.start > last.line.end);
  let newText = "";
  let cursor = 0;
  let start = 0;
  for (const { line, typed } of begun.lines) {
    const made = makeRow(sheet, above, below);
    // What is still being typed stays as it is; what is behind it is left, and put in order.
    const isLeft = typed !== "" && line !== last.line;
    const row = isLeft ? leftRow(sheet, made, typed, above) : insertAt(made, typed);
    if (newText !== "") newText += lineEndAt(text, first.line.end);
    start = newText.length;
    cursor = start + made.cursor + typed.length;
    newText += row;
    above.push(sheetRow(row, span(0, row.length)));
  }
  const from = first.line.start;
  const step: TypingStep = defined({
    edits: [{ span: span(from, last.line.end), newText }],
    cursor: from + cursor,
    started: last.typed === "" ? from + start : undefined,
  });
  return after < 0 ? step : afterEdits(tidyRow(sheet, after), step);
}

type Made = ReturnType<typeof makeRow>;

const insertAt = ({ text, cursor }: Made, typed: string) =>
  text.slice(0, cursor) + typed + text.slice(cursor);

/** A row with its reading, as the keys of the table leave it. */
function leftRow(sheet: Sheet, made: Made, typed: string, above: readonly SheetRow[]): string {
  const cells = sheetRow(made.text, span(0, made.text.length)).cells;
  const column = cells.findIndex(({ outer }) => touches(outer, made.cursor));
  if (column < 0) return insertAt(made, typed);
  const value = pointedIn(sheet, -1, column, typed) ?? typed;
  return rowText(
    sheet,
    cells.map(({ text }, at) => (at === column ? value : text)),
    above,
  ).text;
}

/** What Enter does at a place. */
export interface EnterAt {
  readonly does: "row" | "cell" | "below" | "line";
  /** True in a cell for what is measured, where a value that is taken from a list is all there is to be said. */
  readonly measured: boolean;
  /** How digits are read there, where they tell by themselves that a reading is over. */
  readonly digits?: WholeDigits;
}

/**
 * Undefined where Enter is a line break and nothing else. In the last row it is "row" whether or not something stands in
 * it: the editor asks once and goes by the answer for many keys.
 */
export function enterAt(view: LogView, offset: number): EnterAt | undefined {
  const place = sheetPositionAt(view, offset);
  if (!place) return begunAt(view, offset, NUMBER) ? { does: "line", measured: true } : undefined;
  const { sheet, row, column, atEnd } = place;
  const measured = row >= 0 && isValueColumn(sheet, column);
  if (row < 0) return atEnd ? { does: "row", measured } : undefined;
  const isLast = row === sheet.rows.length - 1 || (atEnd && sheet.rows[row]?.closed === true);
  const does = isLast ? "row" : measured && sheet.rows[row + 1]?.piped ? "below" : "cell";
  return defined({ does, measured, digits: digitsAt(place) });
}
