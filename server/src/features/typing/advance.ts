// Where the cursor goes by itself once a reading is typed in full: no further than Enter would, and never into a cell that
// somebody has filled in.
import { rangeFor, siValue } from "../../judge/uncertainty";
import { blockAt } from "../../log/document";
import type { WholeDigits } from "../../quantity/whole-digits";
import { digitsOf } from "../shared/digits-of";
import type { LogView } from "../view";
import { emptyCell, isValueColumn, wantsValue } from "./columns";
import { goTo, leaving, newRow, type TypingStep } from "./next-cell";
import { predictRow } from "./predict";
import { cellTexts, type Sheet, type SheetPosition, sheetPositionAt, type Texts } from "./sheet";
import { digitsIn, tidyRow } from "./tidy";

/** The last digit of the readings that can be told from one another without a point, in volts. */
const LAST_DIGIT = 0.001;

/**
 * From a reading to the next cell down its column that is still empty, at the foot of a wide table to the top of the next
 * column, and to a row that is made where it is known what it is of. Where there is none the cursor stays behind the
 * reading, which is put in order. Undefined outside the cells for what is measured.
 */
export function advance(view: LogView, offset: number): TypingStep | undefined {
  const place = sheetPositionAt(view, offset);
  if (!place || place.row < 0 || !isValueColumn(place.sheet, place.column)) return undefined;
  const step = onwards(place, place.sheet.rows.map(cellTexts));
  if (!step) return staying(place, offset);
  const left = leaving(place, step);
  // At the top of the next column nothing of the row that is left stands above the cursor.
  const isAbove = step.cursor < (place.sheet.rows[place.row]?.line.start ?? 0);
  const edits = left.edits.toSorted((a, b) => a.span.start - b.span.start);
  return { ...left, edits, cursor: isAbove ? step.cursor : left.cursor };
}

/** How digits are read in the cell of a place; undefined where nothing tells that a reading is over. */
export function digitsAt({ sheet, column }: SheetPosition): WholeDigits | undefined {
  return isValueColumn(sheet, column) ? withoutPoint(sheet.view, digitsIn(sheet)) : undefined;
}

/** How digits will be read in a table that is begun at an offset; undefined where nothing tells that a reading is over. */
export function digitsBelow(view: LogView, offset: number): WholeDigits | undefined {
  const placed = blockAt(view.doc, offset);
  const above = placed?.block.sections.findLast(
    ({ heading }) => !heading || heading.span.start + placed.start <= offset,
  );
  return above?.procedure && withoutPoint(view, digitsOf(above.procedure));
}

/** A meter that shows tenths of a millivolt has another digit to come. */
function withoutPoint({ ctx }: LogView, digits: WholeDigits | undefined): WholeDigits | undefined {
  const shown = ctx.meter && rangeFor(ctx.meter, "diode", 0)?.resolution;
  const isFiner = shown !== undefined && (siValue(shown, "V") ?? LAST_DIGIT) < LAST_DIGIT * 0.999;
  return isFiner ? undefined : digits;
}

function onwards({ sheet, row, column }: SheetPosition, texts: readonly Texts[]): TypingStep | undefined {
  const below = firstWanted(sheet, column, row + 1, texts);
  if (below !== undefined) return intoEmpty(sheet, below, column, texts);
  const made = predictRow(sheet, texts, []);
  const first = emptyCell(sheet, made);
  if (first !== undefined && isValueColumn(sheet, first) && wantsValue(sheet, column, made))
    return newRow(sheet, sheet.rows.length - 1, column);
  if (sheet.table.shape !== "wide") return undefined;
  const next = column + 1;
  if (!isValueColumn(sheet, next)) return undefined;
  const top = firstWanted(sheet, next, 0, texts);
  return top === undefined ? undefined : intoEmpty(sheet, top, next, texts);
}

/** The first row, from one on, that is to have a value in the column: a chip of the table may have no such pin. */
function firstWanted(
  sheet: Sheet,
  column: number,
  from: number,
  texts: readonly Texts[],
): number | undefined {
  const found = texts.findIndex(
    (own, at) => at >= from && sheet.rows[at]?.piped && wantsValue(sheet, column, own),
  );
  return found < 0 ? undefined : found;
}

const intoEmpty = (sheet: Sheet, row: number, column: number, texts: readonly Texts[]) =>
  (texts[row]?.[column] ?? "") === "" ? goTo(sheet, row, column) : undefined;

function staying({ sheet, row, column }: SheetPosition, offset: number): TypingStep {
  const edits = tidyRow(sheet, row, column);
  const [edit] = edits;
  return { edits, cursor: edit ? edit.span.start + edit.newText.trimEnd().length : offset };
}
