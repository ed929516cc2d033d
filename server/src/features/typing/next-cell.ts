// Where the cursor goes from a cell of a readings table, and the row that is written for it where there is none.
import { defined } from "../../base/defined";
import type { TextEdit } from "../../text/edits";
import { type Span, span } from "../../text/span";
import type { LogView } from "../view";
import { columnRole, columnWithRole, emptyCell, isValueColumn, valueColumn, wantsValue } from "./columns";
import { predictRow } from "./predict";
import { rowText } from "./row-text";
import {
  cellTexts,
  lineEndAt,
  type Sheet,
  type SheetPosition,
  type SheetRow,
  sheetPositionAt,
  type Texts,
} from "./sheet";
import { tidyRow } from "./tidy";
import { cursorInCell, fillCell } from "./write";

/** "row": down, as Enter goes. "next", "previous": along the cells that want a value, as Tab and Shift+Tab go. */
export type Direction = "row" | "next" | "previous";

export interface TypingStep {
  /** Edits of the document as it stands, in order and apart from each other. */
  readonly edits: readonly TextEdit[];
  /** Where the cursor belongs in the text after the edits. */
  readonly cursor: number;
  /** Start of the line of a row that was written here and holds nothing measured yet; in the text after the edits. */
  readonly started?: number;
}

/**
 * Where to go from the cell at the cursor. Undefined outside the rows of a readings table: the key then means what it
 * always means.
 * @param started true where the row of the cursor is one that was only just written by a step like this
 * @param tidies false leaves the row that is left as it is
 */
export function nextCell(
  view: LogView,
  offset: number,
  direction: Direction,
  started = false,
  tidies = true,
): TypingStep | undefined {
  const place = sheetPositionAt(view, offset);
  if (!place) return undefined;
  if (place.row < 0) return place.atEnd && direction !== "previous" ? newRow(place.sheet, -1) : undefined;
  if (started && direction === "row" && isStarted(place)) return endTable(place);
  const step = walk(place, direction, place.sheet.rows.map(cellTexts), offset);
  return direction === "previous" || !tidies ? step : leaving(place, step);
}

/** A step with the row it leaves put in order; of a row that it stays in, no more than the cell. */
export function leaving({ sheet, row, column }: SheetPosition, step: TypingStep): TypingStep {
  const line = sheet.rows[row]?.line;
  const own = step.edits.filter(({ span: at }) => line && at.start >= line.start && at.end <= line.end);
  const grown = own.reduce((sum, { newText, span: at }) => sum + newText.length - (at.end - at.start), 0);
  const stays =
    line && step.started === undefined && step.cursor >= line.start && step.cursor <= line.end + grown;
  const tidied = tidyRow(sheet, row, stays ? column : undefined);
  // A step may itself add to the end of the row.
  const free = tidied.filter(({ span: own }) => step.edits.every((other) => !overlaps(own, other.span)));
  return afterEdits(free, step);
}

const overlaps = (a: Span, b: Span): boolean => a.start < b.end && b.start < a.end;

/** Edits made before a step, whose places are of the same text: the cursor moves by what stands above it. */
export function afterEdits(before: readonly TextEdit[], step: TypingStep): TypingStep {
  const grown = before.reduce((sum, { span, newText }) => sum + newText.length - (span.end - span.start), 0);
  return defined({
    edits: [...before, ...step.edits],
    cursor: step.cursor + grown,
    started: step.started === undefined ? undefined : step.started + grown,
  });
}

/**
 * What follows once a row's cells are these.
 * @param texts the cells of every row, which may be ahead of the document
 */
export function walk(
  place: SheetPosition,
  direction: Direction,
  texts: readonly Texts[],
  offset: number,
): TypingStep {
  const { sheet, row, column } = place;
  if (direction === "previous") return backwards(place, texts, offset);
  if (direction === "next") return forwards(place, texts);
  const isLast = row === sheet.rows.length - 1;
  const own = texts[row] ?? [];
  const open = emptyCell(sheet, own) !== undefined;
  const same = isValueColumn(sheet, column) && open ? column : undefined;
  // Behind the last pipe the row is over: what follows is a row of its own, even in the middle of a table.
  const over = place.atEnd && sheet.rows[row]?.closed === true;
  if (isLast || over) return newRow(sheet, row, same);
  const below = texts[row + 1] ?? [];
  const to = same !== undefined && wantsValue(sheet, same, below) ? same : emptyCell(sheet, below);
  return goTo(sheet, row + 1, to ?? (isValueColumn(sheet, column) ? column : valueColumn(sheet)));
}

function forwards({ sheet, row, column }: SheetPosition, texts: readonly Texts[]): TypingStep {
  const own = texts[row] ?? [];
  const here = emptyCell(sheet, own, column + 1);
  if (here !== undefined) return withPin(sheet, row, here, texts) ?? goTo(sheet, row, here);
  const note = noteBehind(sheet, row, column, texts);
  if (note !== undefined) return goTo(sheet, row, note);
  if (row === sheet.rows.length - 1) return newRow(sheet, row);
  for (let at = row + 1; at < sheet.rows.length; at++) {
    const to = emptyCell(sheet, texts[at] ?? []);
    if (to !== undefined) return withPin(sheet, at, to, texts) ?? goTo(sheet, at, to);
  }
  return goTo(sheet, row + 1, valueColumn(sheet));
}

/** The empty note of a row, in a table whose row above has one: notes are being written there. */
function noteBehind(sheet: Sheet, row: number, column: number, texts: readonly Texts[]): number | undefined {
  const note = columnWithRole(sheet, "note");
  if (note <= column || (texts[row]?.[note] ?? "") !== "") return undefined;
  return (texts[row - 1]?.[note] ?? "") === "" ? undefined : note;
}

/** A chip was named and its pin was not: the next one is written, and the cursor goes on to the reading. */
function withPin(sheet: Sheet, row: number, column: number, texts: readonly Texts[]): TypingStep | undefined {
  const own = texts[row] ?? [];
  if (columnRole(sheet, column) !== "pin" || sheet.table.shape === "wide") return undefined;
  const pin = predictRow(sheet, texts.slice(0, row), texts.slice(row + 1), own)[column];
  const cell = sheet.rows[row]?.cells[column];
  if (!pin || !cell) return undefined;
  const edit = fillCell(sheet, row, column, pin);
  const to = emptyCell(sheet, own.with(column, pin), column + 1);
  if (!edit || to === undefined) return undefined;
  const { edits, cursor } = goTo(sheet, row, to);
  const grown = edit.newText.length - (edit.span.end - edit.span.start);
  return { edits: [edit, ...edits], cursor: cursor + grown };
}

function backwards(
  { sheet, row, column }: SheetPosition,
  texts: readonly Texts[],
  offset: number,
): TypingStep {
  for (let at = row, from = column - 1; at >= 0; at--, from = sheet.table.columns.length - 1) {
    for (let to = from; to >= 0; to--) {
      if (sheet.rows[at]?.piped && wantsValue(sheet, to, texts[at] ?? [])) return goTo(sheet, at, to);
    }
  }
  return { edits: [], cursor: offset };
}

/** The cursor behind what a cell holds; a row that is short of the cell is drawn out to it. */
export function goTo(sheet: Sheet, row: number, column: number): TypingStep {
  const { edit, cursor } = cursorInCell(sheet, row, column);
  return { edits: edit ? [edit] : [], cursor };
}

/** A row below another, -1 for the delimiter row, with what can be told of it already written. */
export function newRow(sheet: Sheet, after: number, column?: number): TypingStep {
  const line = after < 0 ? sheet.delimiter : sheet.rows[after]?.line;
  const end = line?.end ?? sheet.delimiter.end;
  const eol = lineEndAt(sheet.view.doc.text, end);
  const made = makeRow(sheet, sheet.rows.slice(0, after + 1), sheet.rows.slice(after + 1), column);
  return {
    edits: [{ span: span(end, end), newText: eol + made.text }],
    cursor: end + eol.length + made.cursor,
    started: end + eol.length,
  };
}

/** A row with what can be told of it, and where in it the cursor belongs. */
export function makeRow(
  sheet: Sheet,
  above: readonly SheetRow[],
  below: readonly SheetRow[],
  column?: number,
): { readonly text: string; readonly cursor: number } {
  const texts = predictRow(sheet, above.map(cellTexts), below.map(cellTexts));
  const wanted = column !== undefined && wantsValue(sheet, column, texts) ? column : undefined;
  // Where nothing can be told of the row, that is what has to be typed first.
  const first = emptyCell(sheet, texts);
  const isAbout = first !== undefined && !isValueColumn(sheet, first);
  const to = (isAbout ? first : (wanted ?? first)) ?? valueColumn(sheet);
  const { text, ends } = rowText(sheet, texts, above, to);
  return { text, cursor: ends[to] ?? text.length };
}

/** True where nothing was measured in a row so far: all there is was written when it was begun. */
export function isStarted({ sheet, row }: SheetPosition): boolean {
  const own = sheet.rows[row];
  return own !== undefined && row === sheet.rows.length - 1 && valuesIn(sheet, cellTexts(own)) === 0;
}

const valuesIn = (sheet: Sheet, texts: Texts): number =>
  texts.filter((text, column) => {
    const role = columnRole(sheet, column);
    return text !== "" && (isValueColumn(sheet, column) || role === undefined || role === "note");
  }).length;

/** Takes the row away that was begun in vain, and leaves an empty line between the table and what is typed next. */
function endTable({ sheet, row }: SheetPosition): TypingStep {
  const line: Span = sheet.rows[row]?.line ?? sheet.delimiter;
  const eol = lineEndAt(sheet.view.doc.text, line.end);
  return { edits: [{ span: line, newText: eol }], cursor: line.start + eol.length };
}
