// What the next row of a table will be about: the next pin of the chip, the next rail of the board.

import {
  allCells,
  crossingKey,
  keysOf,
  type MatrixShape,
  nameOfCell,
  shapeOf,
} from "../../compute/matrix/shape";
import { findRail } from "../../judge/rail-name";
import { partTestPoint, pinNumber, resolvePin } from "../../judge/test-point";
import { boardIndex } from "../../knowledge/board-index";
import { matrixOfTable } from "../../review/matrix/from-log";
import { cellNamed, lineNamed } from "../../review/matrix/from-log-words";
import { pinsInOrder } from "../shared/describe";
import { refsOver } from "../shared/occurrences/tables";
import { columnRole, columnWithRole } from "./columns";
import { partWordsIn, type RowSubject, rowSubjects } from "./row-subject";
import type { Sheet, Texts } from "./sheet";

/** Digits of a number counted on; what has more is no pin and no row. */
const MAX_DIGITS = 3;

/**
 * The cells that can be told before anything is measured, empty where nothing can.
 * @param above the rows above the new one
 * @param below those under it, whose pins are taken as well
 * @param given what already stands in the new row: a chip named there is the one whose next pin is told
 */
export function predictRow(
  sheet: Sheet,
  above: readonly Texts[],
  below: readonly Texts[],
  given: Texts = [],
) {
  const cells: string[] = sheet.table.columns.map((_, column) => given[column] ?? "");
  const put = (column: number, text: string | undefined) => {
    if (column >= 0 && cells[column] === "" && text !== undefined) cells[column] = text;
  };
  const last = above.at(-1);
  put(columnWithRole(sheet, "date"), last?.[columnWithRole(sheet, "date")]);
  if (sheet.table.shape === "wide") {
    put(0, nextInWide(sheet, above, below));
    return cells;
  }
  const pin = columnWithRole(sheet, "pin");
  const walked = sheet.table.procedure.wide?.rows === "pin" || sheet.table.columns[pin]?.spec?.required;
  const bySwitch = columnWithRole(sheet, "switch");
  const inRef = pin < 0 && sheet.table.procedure.columns.some(({ role }) => role === "pin");
  if (pin >= 0 && walked) nextOfChip(sheet, above, below, pin, cells, put);
  else if (inRef) nextOfChip(sheet, above, below, -1, cells, put);
  else if (bySwitch >= 0) nextOfChip(sheet, above, below, bySwitch, cells, put);
  if (cells[pin] === "" || pin < 0) {
    put(columnWithRole(sheet, "rail"), nextRail(sheet, above, below));
    nextCrossing(sheet, above, below, put);
    put(columnWithRole(sheet, "item"), nextItem(sheet, above, below));
  }
  return cells;
}

type Put = (column: number, text: string | undefined) => void;

/**
 * The chip of the row above goes on with its next pin, or with its next switch where it is a switch bank.
 * @param column of the pins, -1 where they stand behind the designators: "U5-4"
 */
function nextOfChip(
  sheet: Sheet,
  above: readonly Texts[],
  below: readonly Texts[],
  column: number,
  cells: Texts,
  put: Put,
): void {
  const refColumn = columnWithRole(sheet, "ref");
  const rows = rowSubjects(sheet, [...above, ...below], refColumn, column);
  const before = rows.slice(0, above.length);
  const last = before.at(-1);
  const own = partWordsIn(sheet, cells[refColumn])?.ref.text ?? cells[refColumn] ?? "";
  const ref = own !== "" ? own : (last?.ref ?? sheet.table.section.ref?.text);
  if (ref === undefined) return;
  const same = (row: RowSubject) => row.ref?.toUpperCase() === ref.toUpperCase();
  const previous = before.findLast(same);
  // A chip noted without a pin, as for a reading of the whole part: nothing is being counted.
  if (previous?.pin === "" || (column < 0 && !previous?.both)) return;
  const taken = rows.filter(same).map(({ pin }) => pin);
  const next =
    column < 0 || columnRole(sheet, column) === "pin"
      ? nextPin(sheet, [ref], previous?.pin, taken)
      : nextNumber(previous?.pin ?? "0", taken, switchesOf(sheet, ref));
  if (next === undefined) return;
  const { both } = previous ?? {};
  if (both) {
    if (own === "") put(both.column, both.before + next + both.behind);
    return;
  }
  put(column, next);
  // A chip named once for all its rows stays named once, and its number is not said again.
  const named = above.at(-1)?.[refColumn] ?? "";
  put(refColumn, above.length === 0 || (named !== "" && last?.own) ? ref : named);
}

function nextInWide(sheet: Sheet, above: readonly Texts[], below: readonly Texts[]): string | undefined {
  const { table, view } = sheet;
  const taken = [...above, ...below].map((row) => row[0] ?? "");
  const previous = above.at(-1)?.[0];
  const board = view.ctx.board?.value;
  switch (table.procedure.wide?.rows) {
    case "pin": {
      const refs = refsOver(table, view.ctx.library);
      return nextPin(sheet, refs, previous, taken);
    }
    case "row": {
      const matrix = board && matrixOfTable(table, board);
      return nextNumber(previous ?? "0", taken, matrix?.rows.length);
    }
    case "ref":
      return [...(board?.switchBanks.keys() ?? [])].find((ref) => !taken.includes(ref));
    default:
      return nextItem(sheet, above, below);
  }
}

/**
 * The pin behind the previous one that has no row yet, beginning again at the first; undefined where all have. The
 * chips' own pins are counted where one of them is known, plain numbers where none is.
 */
function nextPin(
  sheet: Sheet,
  refs: readonly string[],
  previous: string | undefined,
  taken: readonly string[],
): string | undefined {
  const { ctx } = sheet.view;
  const board = ctx.board?.value;
  const devices = refs.flatMap((ref) => partTestPoint(ref, board, ctx.library).device ?? []);
  const device = devices.sort((a, b) => b.pins.size - a.pins.size)[0];
  if (!device || device.pins.size === 0) {
    const parts = refs.flatMap((ref) => (board && boardIndex(board).part(ref)) ?? []);
    const pins = parts.map((part) => Number(/(\d+)\s*$/.exec(part.package ?? "")?.[1] ?? Number.NaN));
    const most = pins.length > 0 && pins.every((n) => n > 0) ? Math.max(...pins) : undefined;
    return nextNumber(previous ?? "0", taken, most);
  }
  const pins = pinsInOrder(device).map(({ number }) => number);
  const numberOf = (typed: string) => resolvePin(device, typed)?.number ?? pinNumber(typed);
  const done = new Set(taken.map(numberOf));
  const from = pins.indexOf((previous !== undefined && numberOf(previous)) || "") + 1;
  return [...pins.slice(from), ...pins.slice(0, from)].find((pin) => !done.has(pin));
}

/** Counts on from a number, past those taken; undefined behind the last there is, and where no number stands. */
function nextNumber(previous: string, taken: readonly string[], most = Number.POSITIVE_INFINITY) {
  const from = /^\D{0,8}?(\d+)$/.exec(previous.trim())?.[1];
  if (from === undefined || from.length > MAX_DIGITS) return undefined;
  const done = new Set(taken.map((typed) => Number(/(\d+)$/.exec(typed.trim())?.[1])));
  let next = Number(from) + 1;
  while (done.has(next)) next++;
  if (next > most) for (next = 1; next <= most && done.has(next); ) next++;
  return next > most ? undefined : previous.trim().slice(0, -from.length) + String(next);
}

function switchesOf(sheet: Sheet, ref: string): number | undefined {
  const bank = sheet.view.ctx.board?.value.switchBanks.get(ref);
  const numbers = bank?.settings.flatMap(({ switches }) => switches) ?? [];
  return numbers.length > 0 ? Math.max(...numbers) : undefined;
}

/** The board's next rail; in a soak, where one rail is read again and again, that one. */
function nextRail(sheet: Sheet, above: readonly Texts[], below: readonly Texts[]): string | undefined {
  const board = sheet.view.ctx.board?.value;
  const column = columnWithRole(sheet, "rail");
  if (column < 0) return undefined;
  const previous = above.at(-1)?.[column];
  if (sheet.table.kind.place === "time") return previous;
  if (!board || previous === "") return undefined;
  const names = [...board.rails.keys()];
  const done = new Set([...above, ...below].map((row) => findRail(board, row[column] ?? "")?.name));
  const from = names.indexOf(findRail(board, previous ?? "")?.name ?? "") + 1;
  return [...names.slice(from), ...names.slice(0, from)].find((name) => !done.has(name));
}

/** The next crossing of a matrix that is tested one row a crossing, by row and column or by name. */
function nextCrossing(sheet: Sheet, above: readonly Texts[], below: readonly Texts[], put: Put): void {
  const board = sheet.view.ctx.board?.value;
  const matrix = board && matrixOfTable(sheet.table, board);
  if (!matrix) return;
  const shape = shapeOf(matrix);
  const columns = {
    row: columnWithRole(sheet, "row"),
    column: columnWithRole(sheet, "column"),
    cell: columnWithRole(sheet, "cell"),
  };
  const byLines = columns.row >= 0 && columns.column >= 0;
  if (!byLines && columns.cell < 0) return;
  const read = (texts: Texts) => crossing(texts, shape, columns, byLines);
  const previous = above.at(-1);
  const last = previous && read(previous);
  if (previous && !last) return;
  const done = keysOf([...above, ...below].flatMap((texts) => read(texts) ?? []));
  const barred = keysOf(shape.reserved);
  const all = allCells(shape);
  const from = last ? all.findIndex((cell) => crossingKey(cell) === crossingKey(last)) + 1 : 0;
  const next = [...all.slice(from), ...all.slice(0, from)].find(
    (cell) =>
      !done.has(crossingKey(cell)) &&
      !barred.has(crossingKey(cell)) &&
      (byLines || nameOfCell(shape, cell) !== undefined),
  );
  if (!next) return;
  if (byLines) {
    put(columns.row, String(next.row));
    put(columns.column, String(next.column));
  }
  put(columns.cell, nameOfCell(shape, next));
}

function crossing(
  texts: Texts,
  shape: MatrixShape,
  columns: { readonly row: number; readonly column: number; readonly cell: number },
  byLines: boolean,
) {
  if (!byLines) return cellNamed(texts[columns.cell] ?? "", shape);
  const row = lineNamed(texts[columns.row] ?? "", "row", shape);
  const column = lineNamed(texts[columns.column] ?? "", "column", shape);
  return row !== undefined && column !== undefined ? { row, column } : undefined;
}

/** The next thing the board is proven by; "Digit 3" below "Digit 1" and "Digit 2". */
function nextItem(sheet: Sheet, above: readonly Texts[], below: readonly Texts[]): string | undefined {
  const column = columnWithRole(sheet, "item");
  if (column < 0) return undefined;
  const texts = [...above, ...below].map((row) => row[column] ?? "");
  if (sheet.table.kind.holds === "proving") {
    const items = sheet.view.ctx.board?.value.proving ?? [];
    return items.map(({ title }) => title).find((title) => !texts.includes(title));
  }
  const [one, two] = above.slice(-2).map((row) => row[column] ?? "");
  if (one === undefined || two === undefined || nextNumber(one, []) !== two) return undefined;
  return nextNumber(two, texts);
}
