// What each column of a table asks of the one who fills it in.

import { shapeOf } from "../../compute/matrix/shape";
import { partAt } from "../../judge/board-parts";
import { partTestPoint, resolvePin } from "../../judge/test-point";
import type { ColumnRole } from "../../knowledge/types";
import { isMeasured } from "../../log/headers";
import { matrixOfTable } from "../../review/matrix/from-log";
import { lineNamed } from "../../review/matrix/from-log-words";
import { hasNumber, refIn } from "../shared/part-name";
import { partWordsIn } from "./row-subject";
import type { Sheet, Texts } from "./sheet";

/** Roles that nobody is waiting for: they are filled in where there is something to say. */
const OPTIONAL: ReadonlySet<ColumnRole> = new Set([
  "note",
  "expected",
  "setting",
  "unit",
  "package",
  "circuit",
]);

/** Roles that say what a row is about. One of them is enough where the procedure asks for none of them. */
const ABOUT: ReadonlySet<ColumnRole> = new Set([
  "ref",
  "pin",
  "rail",
  "signal",
  "row",
  "column",
  "cell",
  "switch",
  "item",
]);

export const columnRole = ({ table }: Sheet, column: number): ColumnRole | undefined =>
  table.shape === "wide" && column === 0 ? table.procedure.wide?.rows : table.columns[column]?.spec?.role;

export const columnWithRole = (sheet: Sheet, role: ColumnRole): number =>
  sheet.table.columns.findIndex((_, column) => columnRole(sheet, column) === role);

/** True where a value measured belongs into the column, not what it is of. */
export function isValueColumn(sheet: Sheet, column: number): boolean {
  const own = sheet.table.columns[column];
  if (!own) return false;
  if (sheet.table.shape === "long") return own.spec !== undefined && isMeasured(own.spec.role);
  return column > 0 && !own.spec && own.header.text !== "";
}

/**
 * True where something has yet to be written into a cell of such a row once it is empty: readings, and what the row
 * is about where that is not said already.
 */
export function wantsValue(sheet: Sheet, column: number, row: Texts): boolean {
  const { table } = sheet;
  if (table.shape === "wide")
    return column === 0 || (isValueColumn(sheet, column) && exists(sheet, column, row));
  const spec = table.columns[column]?.spec;
  if (!spec || OPTIONAL.has(spec.role)) return false;
  const ref = partWordsIn(sheet, row[columnWithRole(sheet, "ref")]);
  if (spec.role === "pin" && ref?.pin) return false;
  if (spec.role === "part" && !table.procedure.columns.includes(spec)) return wantsNumber(sheet, row);
  // Of what is on the board a resistor has a value, a chip a number.
  if (spec.role === "value") return ref !== undefined && !hasNumber(ref.ref.text);
  if (spec.role === "part" && columnWithRole(sheet, "value") >= 0) return !ref || hasNumber(ref.ref.text);
  if (!ABOUT.has(spec.role)) return true;
  if (spec.role === "ref" && isInherited(sheet, row)) return false;
  const said = table.columns.some(
    (other, at) => other.spec && ABOUT.has(other.spec.role) && (row[at] ?? "") !== "",
  );
  return spec.required || !said;
}

/** The number of a chip is asked for where it is named, before its pin, and only where nobody has said it. */
function wantsNumber(sheet: Sheet, row: Texts): boolean {
  const words = partWordsIn(sheet, row[columnWithRole(sheet, "ref")]);
  const pin = words?.pin?.text ?? row[columnWithRole(sheet, "pin")] ?? "";
  if (!words || words.part || pin !== "") return false;
  return hasNumber(words.ref.text) && partAt(words.ref.text, sheet.view.ctx)?.device === undefined;
}

/** A blank designator under one that was named, as the rows of one chip are often written. */
const isInherited = (sheet: Sheet, row: Texts): boolean => {
  const pin = columnWithRole(sheet, "pin");
  return pin >= 0 && (row[pin] ?? "") !== "" && (row[columnWithRole(sheet, "ref")] ?? "") === "";
};

/** False for pin 16 of a chip with 14 and for a crossing that is to be left alone. */
function exists(sheet: Sheet, column: number, row: Texts): boolean {
  const { table, view } = sheet;
  const board = view.ctx.board?.value;
  const header = table.columns[column]?.header;
  const first = row[0] ?? "";
  if (!header || first === "" || !board) return true;
  if (table.procedure.wide?.rows === "pin") {
    const { device } = partTestPoint(refIn(header, view.ctx.library).text, board, view.ctx.library);
    return !device || device.pins.size === 0 || resolvePin(device, first) !== undefined;
  }
  const matrix = matrixOfTable(table, board);
  const shape = matrix && shapeOf(matrix);
  if (!shape) return true;
  const r = lineNamed(first, "row", shape);
  const c = lineNamed(header.text, "column", shape);
  return !matrix?.reserved.some(([a, b]) => a === r && b === c);
}

/** The first empty cell, from a column on, that wants a value. */
export function emptyCell(sheet: Sheet, row: Texts, from = 0): number | undefined {
  for (let column = from; column < sheet.table.columns.length; column++) {
    if ((row[column] ?? "") === "" && wantsValue(sheet, column, row)) return column;
  }
  return undefined;
}

/** The column whose readings are typed one below the other where nothing else tells. */
export function valueColumn(sheet: Sheet): number {
  return Math.max(
    0,
    sheet.table.columns.findIndex((_, column) => isValueColumn(sheet, column)),
  );
}
