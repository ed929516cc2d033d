// Rows made of lines that were begun below a table: by a line break, and by what was typed before the row was there.
import { defined } from "../../base/defined";
import { type Span, slice, span } from "../../text/span";
import type { LogView } from "../view";
import { isStarted, makeRow, type Step } from "./next-cell";
import {
  lineAbove,
  lineEndAt,
  lineOf,
  placeAt,
  rowsBelow,
  type Sheet,
  type SheetRow,
  sheetAt,
  sheetRow,
} from "./sheet";

/** Words that may have been typed ahead of a row: a value, and no beginning of anything else in Markdown. */
const AHEAD = /^[\p{L}\d.,~\u2248+\u2212-][^\s|]*$/u;
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
function begunAt(view: LogView, offset: number, isValue: RegExp): Begun | undefined {
  const { text } = view.doc;
  const lines: { line: Span; typed: string }[] = [];
  for (let line: Span | undefined = lineOf(text, offset); line && lines.length <= MOST_AHEAD; ) {
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
export function startRow(view: LogView, offset: number, started = false): Step | undefined {
  const begun = begunAt(view, offset, AHEAD);
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
  for (const { typed } of begun.lines) {
    const made = makeRow(sheet, above, below);
    const row = made.text.slice(0, made.cursor) + typed + made.text.slice(made.cursor);
    if (newText !== "") newText += lineEndAt(text, first.line.end);
    start = newText.length;
    cursor = start + made.cursor + typed.length;
    newText += row;
    above.push(sheetRow(row, span(0, row.length)));
  }
  const from = first.line.start;
  return defined({
    edits: [{ span: span(from, last.line.end), newText }],
    cursor: from + cursor,
    started: last.typed === "" ? from + start : undefined,
  });
}

/** What Enter does at a place, undefined where it is a line break and nothing else. */
export function enterAt(
  view: LogView,
  offset: number,
  started: boolean,
): "row" | "cell" | "line" | undefined {
  const place = placeAt(view, offset);
  if (!place) return begunAt(view, offset, NUMBER) ? "line" : undefined;
  const { sheet, row, atEnd } = place;
  if (row < 0) return atEnd ? "row" : undefined;
  if (started && isStarted(place)) return "cell";
  return row === sheet.rows.length - 1 || (atEnd && sheet.rows[row]?.closed) ? "row" : "cell";
}
