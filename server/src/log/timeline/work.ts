// The rows of one table of work or of parts fitted, each with all designators it names and with what it says became of
// it: done, planned, or tried and put back.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import type { ColumnRole } from "../../knowledge/types";
import type { CellText, LogRow, LogTable } from "../model";
import { type Action, actionOf } from "./actions";
import { saysLeftIn, saysTakenOut } from "./swaps";
import { besidesPutBack, isPlanned, namesReplacing, namesTrial, saysPutBack } from "./words";

/**
 * - `done`: the board is another than before
 * - `planned`: nothing was done yet, and nothing is settled by it
 * - `put-back`: hands were on the board, and the part that stood there before stands there again
 */
export type WorkState = "done" | "planned" | "put-back";

export interface RowOfWork {
  readonly kind: "work" | "fitted";
  readonly state: WorkState;
  /** Another part stands in the place since. */
  readonly replaced: boolean;
  /** Names a place and nothing that was done there. */
  readonly bare: boolean;
  readonly table: LogTable;
  readonly row: LogRow;
  /** Designators in upper case, ranges written out; empty where the row names none. */
  readonly refs: readonly string[];
  /** Cells as typed; `ref` is the first designator of its cell. */
  readonly ref?: CellText;
  readonly action?: Action;
  readonly actionText?: CellText;
  readonly part?: CellText;
  readonly note?: CellText;
  /** Pieces; absent where the row does not say or what it says is no count. */
  readonly quantity?: number;
  /** ISO 8601. */
  readonly day?: string;
}

/** In the order of the table, by its own words alone; rows with nothing in them are left out. */
export const rowsOfWork = memo((table: LogTable): readonly RowOfWork[] => withPutBack(rowsRead(table)));

/** The same, each row by its own words alone: what a later one puts back is told of the whole log at once. */
export const rowsRead = memo((table: LogTable): readonly RowOfWork[] => {
  const { holds } = table.kind;
  if (holds === "swaps") return table.rows.flatMap((row) => readSwap(table, row));
  if (holds !== "work" && holds !== "fitted") return [];
  return table.rows.flatMap((row) => readRow(table, row, holds));
});

const DAY = /^\d{4}-\d{2}-\d{2}$/;

function readRow(table: LogTable, row: LogRow, kind: RowOfWork["kind"]): RowOfWork[] {
  const { ref, action, part, note, quantity, date } = row.cells;
  if (!ref && !action && !part) return [];
  const known = action && actionOf(action.text);
  const count = quantity && /^\s*(\d{1,5})\b/.exec(quantity.text)?.[1];
  const state = kind === "fitted" ? "done" : stateOf(action?.text ?? "", note?.text ?? "", known);
  return [
    defined({
      kind,
      state,
      replaced: state === "done" && namesReplacing(action?.text ?? ""),
      bare: !action && !part,
      table,
      row,
      refs: ref ? designators(wholeCell(table, row, "ref") ?? ref.text) : [],
      ref,
      action: known,
      actionText: action,
      part: part && !/^\s*[-–]\s*$/.test(part.text) ? part : undefined,
      note,
      quantity: count === undefined ? undefined : Number(count),
      day: date && DAY.test(date.text) ? date.text : undefined,
    }),
  ];
}

/**
 * A row of swaps: the part that was tried is fitted only where the row says that it stayed. Where it does not say, nothing
 * is called fitted that may be back on its shelf.
 */
function readSwap(table: LogTable, row: LogRow): RowOfWork[] {
  const { ref, action, part, result, note, date } = row.cells;
  if (!ref || !(result ?? action ?? note)) return [];
  const left = staysIn(row) === true;
  return [
    defined({
      kind: "work",
      state: left ? "done" : "put-back",
      replaced: left,
      bare: false,
      table,
      row,
      refs: designators(wholeCell(table, row, "ref") ?? ref.text),
      ref,
      action: "replace",
      actionText: action ?? result,
      part: part && !/^\s*[-–]\s*$/.test(part.text) ? part : undefined,
      note,
      day: date && DAY.test(date.text) ? date.text : undefined,
    }),
  ];
}

/** Of a row of swaps: true where the part that was tried stayed, false where it was taken out, undefined where neither is said. */
export function staysIn({ cells: { action, result, note } }: LogRow): boolean | undefined {
  for (const cell of [action, result, note]) {
    if (cell && saysTakenOut(cell.text)) return false;
    if (cell && saysLeftIn(cell.text)) return true;
  }
  return undefined;
}

/** Work on a place itself stays done, whatever was put back into it: a socket, new joints, a program. */
function stateOf(action: string, note: string, known: Action | undefined): WorkState {
  if (isPlanned(action)) return "planned";
  return (known === undefined || movesPart(known)) && saysPutBack(`${action}, ${note}`) ? "put-back" : "done";
}

const movesPart = (action: Action | undefined): boolean =>
  action === "replace" || action === "fit" || action === "remove";

/**
 * The rows with those that a later one puts back: "swapped for a known-good one" above "old one put back". What is
 * put back answers the last removal or exchange at its place, and one of several places where all are answered. A row
 * that tells of a whole trial, "swapped, no change, put back", answers no more than the removals right before it.
 */
export function withPutBack<T extends RowOfWork>(rows: readonly T[]): readonly T[] {
  if (!rows.some(({ state }) => state === "put-back")) return rows;
  const answered = new Map<T, number>();
  const open = new Map<string, readonly T[]>();
  for (const one of rows) {
    if (one.kind !== "work" || one.state === "planned") continue;
    for (const ref of one.refs) {
      const before = open.get(ref) ?? [];
      if (one.state === "put-back") {
        if (isTrial(one) && !before.every(({ action }) => action === "remove")) continue;
        for (const other of before) answered.set(other, (answered.get(other) ?? 0) + 1);
        open.delete(ref);
      } else if (movesPart(one.action)) {
        // Taken out and another put in is one exchange; what follows it is the next.
        const isNext = before.some(({ action }) => action !== "remove");
        open.set(ref, isNext ? [one] : [...before, one]);
      }
    }
  }
  if (answered.size === 0) return rows;
  return rows.map((one) =>
    answered.get(one) === one.refs.length ? { ...one, state: "put-back", replaced: false } : one,
  );
}

function isTrial({ actionText, table }: RowOfWork): boolean {
  if (table.kind.holds === "swaps") return true;
  const rest = besidesPutBack(actionText?.text ?? "");
  return movesPart(actionOf(rest)) || namesTrial(rest);
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
