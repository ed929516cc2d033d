// Enter in a cell with rows below it. The editor makes a line of it at once, on which what is typed meanwhile cannot come
// into the cell that was left; here that line is taken back out, and what stands on it goes into the rows it is for.
import { slice, span, touches } from "../../text/span";
import type { LogView } from "../view";
import { emptyCell, wantsValue } from "./columns";
import { afterEdits, type TypingStep } from "./next-cell";
import { rowText } from "./row-text";
import { cellTexts, lineEndAt, rowsBelow, type Sheet, type SheetRow, sheetRow } from "./sheet";
import { begunAt, startRow, TYPED_AHEAD } from "./start-row";
import { pointedIn, tidyRow } from "./tidy";

interface Filled {
  readonly text: string;
  readonly cursor: number;
}

/**
 * What stands on the lines begun below a row goes into the rows below, one after the other, and the lines are gone.
 * Undefined where the cursor is on no such line.
 * @param from offset of the cell that the key was pressed in, in the row above the lines
 */
export function fillBelow(view: LogView, offset: number, from: number): TypingStep | undefined {
  const begun = begunAt(view, offset, TYPED_AHEAD);
  const first = begun?.lines[0];
  const last = begun?.lines.at(-1);
  if (!begun || !first || !last) return undefined;
  const { sheet, after, lines } = begun;
  const { text } = view.doc;
  const column = sheet.rows[after]?.cells.findIndex(({ outer }) => touches(outer, from)) ?? -1;
  const below =
    last.typed === ""
      ? rowsBelow(text, last.line)
      : sheet.rows.filter(({ line, piped }) => piped && line.start > last.line.end);
  // More was typed than there are rows: the last of it begins rows of its own.
  if (column < 0 || below.length < lines.length) return startRow(view, offset);
  const above = sheet.rows.slice(0, after + 1);
  const rows: string[] = [];
  let cursor = 0;
  for (const [i, { typed, line }] of lines.entries()) {
    const row = below[i];
    if (!row) break;
    const texts = cellTexts(row);
    const to = wantsValue(sheet, column, texts) ? column : (emptyCell(sheet, texts) ?? column);
    const now =
      line === last.line
        ? typedInto(sheet, row, to, typed, above)
        : { text: left(sheet, row, to, typed, above), cursor: 0 };
    cursor = rows.reduce(
      (sum, { length }) => sum + length + lineEndAt(text, row.line.end).length,
      now.cursor,
    );
    rows.push(now.text);
    above.push(sheetRow(now.text, span(0, now.text.length)));
  }
  const eol = lineEndAt(text, first.line.end);
  const end = below[lines.length - 1]?.line.end ?? last.line.end;
  const step: TypingStep = {
    edits: [{ span: span(first.line.start, end), newText: rows.join(eol) }],
    cursor: first.line.start + cursor,
  };
  return afterEdits(tidyRow(sheet, after), step);
}

/** The row of the cursor: as it stands, with what was typed in its cell. */
function typedInto(
  sheet: Sheet,
  row: SheetRow,
  column: number,
  typed: string,
  above: readonly SheetRow[],
): Filled {
  const cell = row.cells[column];
  if (!cell) {
    const { text, ends } = rowText(sheet, cellTexts(row), above, column);
    const at = ends[column] ?? text.length;
    return { text: text.slice(0, at) + typed + text.slice(at), cursor: at + typed.length };
  }
  const { line } = row;
  const own = slice(sheet.view.doc.text, line);
  const at = cell.span.end - line.start;
  const put = typed !== "" && cell.text !== "" ? ` ${typed}` : typed;
  // Blanks make room, so that the columns stay in line.
  const room = Math.max(0, (/^ */.exec(own.slice(at))?.[0].length ?? 0) - 1);
  return {
    text: own.slice(0, at) + put + own.slice(at + Math.min(room, put.length)),
    cursor: at + put.length,
  };
}

/** A row that was left again already, as the keys of the table leave it. */
function left(
  sheet: Sheet,
  row: SheetRow,
  column: number,
  typed: string,
  above: readonly SheetRow[],
): string {
  if (typed === "") return slice(sheet.view.doc.text, row.line);
  const texts = cellTexts(row);
  const there = texts[column] ?? "";
  const value = there === "" ? (pointedIn(sheet, -1, column, typed) ?? typed) : `${there} ${typed}`;
  const wanted = Array.from({ length: Math.max(texts.length, column + 1) }, (_, at) =>
    at === column ? value : (texts[at] ?? ""),
  );
  return rowText(sheet, wanted, above).text;
}
