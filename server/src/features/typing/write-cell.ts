import type { LogView } from "../view";
import { afterEdits, type Direction, type TypingStep, walk } from "./next-cell";
import { cellTexts, sheetPositionAt } from "./sheet";
import { cellValue, fillCell } from "./write";

/**
 * Writes a text into the cell at the cursor, in place of what it holds, and goes on from there as `nextCell` does, or stays
 * behind what it wrote.
 * Line ends in the text become blanks and pipes are escaped. Undefined where the cursor is in no row of a readings table.
 */
export function writeCell(
  view: LogView,
  offset: number,
  text: string,
  direction: Exclude<Direction, "previous"> | "stay" = "row",
): TypingStep | undefined {
  const place = sheetPositionAt(view, offset);
  if (!place || place.row < 0) return undefined;
  const { sheet, row, column } = place;
  const value = cellValue(text);
  const edit = fillCell(sheet, row, column, value);
  if (direction === "stay") {
    const at = edit ? edit.span.start + edit.newText.trimEnd().length : offset;
    return { edits: edit ? [edit] : [], cursor: at };
  }
  const texts = sheet.rows.map((each, at) => {
    const own = cellTexts(each);
    return at === row ? own.with(column, value) : own;
  });
  return afterEdits(edit ? [edit] : [], walk({ ...place, atEnd: false }, direction, texts, offset));
}
