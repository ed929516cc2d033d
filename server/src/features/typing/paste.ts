// A column or a block of values from elsewhere, put into the cells of a table from the cursor on.
import type { TextEdit } from "../../text/edits";
import { span } from "../../text/span";
import type { LogView } from "../view";
import type { TypingStep } from "./next-cell";
import { predictRow } from "./predict";
import { rowText } from "./row-text";
import { cellTexts, lineEndAt, type Sheet, type SheetRow, sheetPositionAt, sheetRow } from "./sheet";
import { pointedIn } from "./tidy";
import { cellValue, fillCells } from "./write";

/** Rows at most; a log has no table of that length, and whoever copied so many did not mean to. */
const MOST_ROWS = 2_000;

export type PasteStep =
  | {
      readonly ok: true;
      readonly step: TypingStep;
      /** Cells that held something else before. */
      readonly replaced: number;
    }
  | { readonly ok: false; readonly problem: "empty" | "rows-of-a-table" | "too-many-rows" }
  /** More columns than the table has from the cursor on. */
  | {
      readonly ok: false;
      readonly problem: "too-many-columns";
      readonly columns: number;
      readonly room: number;
    };

/**
 * Fills cells down from the cursor's, and right where the values are separated by tabs. Where there are not enough rows,
 * some are added, each about what would come next there; a value for which nothing comes next gets a row all the same. An
 * empty value leaves its cell alone. Undefined where the cursor is in no cell of a readings table.
 */
export function pasteCells(view: LogView, offset: number, text: string): PasteStep | undefined {
  const place = sheetPositionAt(view, offset);
  if (!place || place.row < 0) return undefined;
  const { sheet, row, column, atEnd } = place;
  if (atEnd && sheet.rows[row]?.closed) return undefined;
  if (isTableRows(text)) return { ok: false, problem: "rows-of-a-table" };
  const grid = withPoints(sheet, column, pastedValues(text));
  const columns = Math.max(0, ...grid.map((values) => values.length));
  const room = sheet.table.columns.length - column;
  if (grid.every((values) => values.every((value) => value === ""))) return { ok: false, problem: "empty" };
  if (columns > room) return { ok: false, problem: "too-many-columns", columns, room };
  if (grid.length > MOST_ROWS) return { ok: false, problem: "too-many-rows" };

  const end = sheet.rows.findIndex((each, at) => at > row && !each.piped);
  const rows = sheet.rows.slice(0, end < 0 ? undefined : end);
  const edits: TextEdit[] = [];
  let replaced = 0;
  const there = grid.slice(0, rows.length - row);
  const filled = rows.map(cellTexts).map((own, at) => {
    const values = there[at - row];
    if (at < row || !values) return own;
    const cells = new Map(values.flatMap((value, j) => (value === "" ? [] : [[column + j, value] as const])));
    for (const [j, value] of cells) if ((own[j] ?? "") !== "" && own[j] !== value) replaced += 1;
    edits.push(...fillCells(sheet, at, cells));
    return Array.from(
      { length: Math.max(own.length, column + values.length) },
      (_, j) => cells.get(j) ?? own[j] ?? "",
    );
  });

  const last = rows.at(-1)?.line.end ?? sheet.delimiter.end;
  const eol = lineEndAt(view.doc.text, last);
  const above: SheetRow[] = [...rows];
  let added = "";
  for (const values of grid.slice(there.length)) {
    const given = sheet.table.columns.map((_, j) => values[j - column] ?? "");
    const texts = predictRow(sheet, filled, [], given);
    const { text: made } = rowText(sheet, texts, above);
    added += eol + made;
    above.push(sheetRow(made, span(0, made.length)));
    filled.push(texts);
  }
  if (added !== "") edits.push({ span: span(last, last), newText: added });
  const grown = edits.reduce((sum, edit) => sum + edit.newText.length - (edit.span.end - edit.span.start), 0);
  const lastFilled = added === "" ? (rows[row + there.length - 1]?.line.end ?? last) : last;
  return { ok: true, step: { edits, cursor: lastFilled + grown }, replaced };
}

/**
 * Digits as a meter's program writes them, with their point. A column of whole numbers alone is one of millivolts, each of
 * them; otherwise only what can be no other reading.
 */
function withPoints(sheet: Sheet, first: number, grid: string[][]): string[][] {
  const made = grid.map((values) => [...values]);
  const columns = Math.max(0, ...grid.map((values) => values.length));
  for (let j = 0; j < columns; j += 1) {
    const numbers = grid.flatMap((values) => (/\d/.test(values[j] ?? "") ? [values[j] ?? ""] : []));
    const whole = numbers.length >= FEWEST && numbers.every((each) => /^\d{1,4}$/.test(each));
    const isMilli = whole && numbers.filter((each) => each.length === 3).length * 2 > numbers.length;
    for (const values of made) {
      const value = values[j];
      if (value === undefined || !/^\d{2,4}$/.test(value)) continue;
      const only = pointedIn(sheet, -1, first + j, value);
      const milli = isMilli && pointedIn(sheet, -1, first + j, SURE) !== undefined;
      const pointed = milli ? `${(Number(value) / 1000).toFixed(3)} V` : only;
      if (pointed !== undefined) values[j] = pointed;
    }
  }
  return made;
}

/** Whole numbers that tell a column of millivolts. */
const FEWEST = 3;
/** Digits that get their point wherever digits do. */
const SURE = "558";

/** Lines that each begin with a pipe are no values but rows, which belong on lines of their own. */
const isTableRows = (text: string): boolean => {
  const lines = text.split(/[\r\n]+/).filter((line) => line.trim() !== "");
  return lines.length > 0 && lines.every((line) => line.trimStart().startsWith("|"));
};

/** A value that a spreadsheet has put in quotes. */
const QUOTED = /^"(?:[^"]|"")*"$/;

/**
 * The values of a text line by line, split at tabs. A value in quotes may hold line ends, tabs and doubled quotes, as
 * spreadsheets write them. One line end at the end is none.
 */
export function pastedValues(text: string): string[][] {
  const rows: string[][] = [[]];
  const pieces = /("(?:[^"]|"")*"(?=[\t\r\n]|$)|[^\t\r\n]*)(\t|\r\n|\r|\n|$)/gy;
  const source = text.replace(/(?:\r\n|\r|\n)$/, "");
  for (let match = pieces.exec(source); match; match = pieces.exec(source)) {
    const [, raw = "", separator = ""] = match;
    const value = QUOTED.test(raw) ? raw.slice(1, -1).replace(/""/g, '"') : raw;
    rows.at(-1)!.push(cellValue(value));
    if (separator === "") break;
    if (separator !== "\t") rows.push([]);
  }
  return rows;
}
