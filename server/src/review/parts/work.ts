// The rows of work and of parts fitted, each with all designators it names, at their places in the log.

import type { ColumnRole } from "../../knowledge/types";
import { type LogDocument, tablesOf } from "../../log/document";
import type { CellText, LogRow, LogTable } from "../../log/model";
import { isPlanned } from "../../log/planned";
import { type Span, shift } from "../../text/span";
import { type Action, actionOf } from "./actions";

export interface WorkRow {
  readonly kind: "work" | "fitted";
  /** Designators in upper case, ranges written out; empty where the row names none. */
  readonly refs: readonly string[];
  /** Cells as typed. */
  readonly ref?: CellText;
  readonly action?: Action;
  readonly actionText?: CellText;
  readonly part?: CellText;
  readonly note?: CellText;
  /** Pieces; absent where the row does not say or what it says is no count. */
  readonly quantity?: number;
  /** The row says what is to be done, not what was. */
  readonly planned: boolean;
  /** Spans in the cells count from here. */
  readonly start: number;
}

const rowsIn = new WeakMap<LogTable, readonly Omit<WorkRow, "start">[]>();

/** What was done, in the order of the log; rows with nothing in them are left out, and so are plans. */
export const workRows = (doc: LogDocument): WorkRow[] => allRows(doc).filter(({ planned }) => !planned);

/** What is only planned, in the order of the log. */
export const plannedRows = (doc: LogDocument): WorkRow[] => allRows(doc).filter(({ planned }) => planned);

function allRows(doc: LogDocument): WorkRow[] {
  const all: WorkRow[] = [];
  for (const { start, table } of tablesOf(doc)) {
    const { holds } = table.kind;
    if (holds !== "work" && holds !== "fitted") continue;
    let rows = rowsIn.get(table);
    if (!rows) {
      rows = table.rows.flatMap((row) => readRow(table, row, holds));
      rowsIn.set(table, rows);
    }
    for (const row of rows) all.push({ ...row, start });
  }
  return all;
}

/** A span of one of the row's cells, in the file. */
export const placeIn = (row: WorkRow, cell: CellText): Span => shift(cell.span, row.start);

function readRow(table: LogTable, row: LogRow, kind: WorkRow["kind"]): Omit<WorkRow, "start">[] {
  const { ref, action, part, note, quantity } = row.cells;
  if (!action && !part) return [];
  const known = action && actionOf(action.text);
  const count = quantity && /^\s*(\d{1,5})\b/.exec(quantity.text)?.[1];
  return [
    {
      kind,
      planned: kind === "work" && action !== undefined && isPlanned(action.text),
      refs: ref ? designators(wholeCell(table, row, "ref") ?? ref.text) : [],
      ...(ref ? { ref } : {}),
      ...(known ? { action: known } : {}),
      ...(action ? { actionText: action } : {}),
      ...(part && !/^\s*[-–]\s*$/.test(part.text) ? { part } : {}),
      ...(note ? { note } : {}),
      ...(count === undefined ? {} : { quantity: Number(count) }),
    },
  ];
}

/** The model keeps the first designator of a cell; a row of work may name several. */
function wholeCell(table: LogTable, row: LogRow, role: ColumnRole): string | undefined {
  const at = table.columns.findIndex((column) => column.spec?.role === role);
  const text = table.source.rows[row.index]?.cells[at]?.text;
  return text === "" ? undefined : text;
}

/** Most places one range may stand for: more is a slip of the key. */
const WIDEST = 64;

/** "U14 (74LS04)", "U3, U4", "C10-C13" and "Q1 to Q8" with every place named, in upper case. */
export function designators(typed: string): string[] {
  const text = typed.replaceAll(/\([^)]*\)/g, " ").toUpperCase();
  const found = new Set<string>();
  const pattern = /\b([A-Z]{1,4})(\d{1,4})[A-Z]?\b(?:\s*(?:-|–|TO|\.\.\.?)\s*\1?(\d{1,4})\b)?/g;
  for (const [all, letters = "", from = "", to] of text.matchAll(pattern)) {
    const first = Number(from);
    const last = Number(to ?? from);
    if (to === undefined || last <= first || last - first >= WIDEST)
      found.add(to === undefined ? all : `${letters}${from}`);
    else for (let number = first; number <= last; number++) found.add(`${letters}${number}`);
  }
  return [...found];
}
