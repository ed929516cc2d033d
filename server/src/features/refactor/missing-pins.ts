import { partTestPoint, pinName, pinTestPoint, type TestPoint } from "../../judge/test-point";
import { encodeCell } from "../../syntax/tables";
import { displayWidth } from "../../text/display-width";
import type { TextEdit } from "../../text/edits";
import { type Span, slice } from "../../text/span";
import { byRef, pinLine, pinsInOrder } from "../shared/describe";
import type { Refactor } from "../types";
import type { LogView } from "../view";
import { type TableAt, tableAt, typed } from "./table-at";
import { NOT_MEASURED } from "./to-wide";

/** Pins named in a title; more are counted. */
const NAMED = 6;

/** Rows for the pins that a table lacks of a part it has other pins of, put where they belong. */
export function addMissingPins(view: LogView, selected: Span): readonly Refactor[] {
  const at = tableAt(view, selected);
  if (!at) return [];
  return at.table.shape === "wide" ? inWide(view, at) : inLong(view, at);
}

/** A row of the table with the pin it is of, by its number where the part is known. */
interface PinRow {
  readonly index: number;
  readonly pin: string;
}

/** Of the part in the row at the cursor; in the header, of the only part the table is about. */
function inLong(view: LogView, at: TableAt): readonly Refactor[] {
  const { table, row } = at;
  const columns = table.columns.map(({ spec }) => spec?.role);
  if (!columns.includes("pin")) return [];
  const refs = table.rows.map(({ cells }) => cells.ref?.text);
  const only = new Set(refs.filter((ref) => ref !== undefined));
  const ref = row === undefined ? (only.size === 1 ? [...only][0] : undefined) : refs[row];
  if (ref === undefined) return [];
  const part = partTestPoint(ref, view.ctx.board?.value, view.ctx.library);
  const present = table.rows.flatMap(({ index, cells }): PinRow[] => {
    const pin = cells.ref?.text === ref && cells.pin ? numberOf(part, cells.pin.text, view) : undefined;
    return pin === undefined ? [] : [{ index, pin }];
  });
  const missing = missingOf(part, present);
  if (missing.length === 0) return [];
  const described = notesDescribe(view, at, part, ref);
  const make = (pin: string): string[] =>
    columns.map((role) => {
      if (role === "ref") return ref;
      if (role === "pin") return pin;
      return role === "note" && described
        ? encodeCell(pinLine(pinTestPoint(part, pin, view.ctx.board?.value)))
        : "";
    });
  return [
    {
      title: titleFor(missing, part.ref),
      kind: "rewrite",
      edits: insertions(view, at, present, missing, make),
    },
  ];
}

/** Of every part that has a column; a part that has not the pin gets a dash. */
function inWide(view: LogView, at: TableAt): readonly Refactor[] {
  const { table } = at;
  const { wide } = table.procedure;
  if (wide?.rows !== "pin" || wide.columns !== "ref") return [];
  const parts = table.columns.map(({ header, spec }, i) => {
    const ref = i === 0 || spec ? undefined : /^[A-Za-z]{1,4}\d{1,4}[A-Za-z]?/.exec(header.text)?.[0];
    return ref === undefined ? undefined : partTestPoint(ref, view.ctx.board?.value, view.ctx.library);
  });
  const known = parts.filter((part) => part?.device !== undefined);
  const [widest] = known.toSorted((a, b) => (b?.device?.pins.size ?? 0) - (a?.device?.pins.size ?? 0));
  if (!widest) return [];
  const present = table.rows.flatMap(({ index, cells }): PinRow[] =>
    cells.pin ? [{ index, pin: numberOf(widest, cells.pin.text, view) ?? cells.pin.text }] : [],
  );
  const missing = missingOf(widest, present);
  if (missing.length === 0) return [];
  const make = (pin: string): string[] =>
    parts.map((part, i) => {
      if (i === 0) return pin;
      return part?.device && !part.device.pins.has(pin) ? NOT_MEASURED : "";
    });
  return [{ title: titleFor(missing), kind: "rewrite", edits: insertions(view, at, present, missing, make) }];
}

const numberOf = (part: TestPoint, text: string, view: LogView): string | undefined =>
  pinName(pinTestPoint(part, text, view.ctx.board?.value));

/** Nothing for a part whose pins nobody knows, or for a table that names none of them. */
function missingOf({ device }: TestPoint, present: readonly PinRow[]): readonly string[] {
  if (!device || device.pins.size < 3 || present.length === 0) return [];
  const there = new Set(present.map(({ pin }) => pin));
  return pinsInOrder(device)
    .map(({ number }) => number)
    .filter((number) => !there.has(number));
}

function titleFor(missing: readonly string[], ref?: string): string {
  const which =
    missing.length === 1
      ? `the missing pin ${missing[0]}`
      : missing.length <= NAMED
        ? `the missing pins ${missing.slice(0, -1).join(", ")} and ${missing.at(-1)}`
        : `the ${missing.length} missing pins`;
  return `Add ${which}${ref === undefined ? "" : ` of ${ref}`}`;
}

/** True where the notes of the table are the pins' names, as they are where Mendlog laid it out. */
function notesDescribe(view: LogView, at: TableAt, part: TestPoint, ref: string): boolean {
  const note = at.table.columns.findIndex(({ spec }) => spec?.role === "note");
  if (note < 0) return false;
  return at.table.rows.some(({ index, cells }) => {
    if (cells.ref?.text !== ref || !cells.pin) return false;
    const line = pinLine(pinTestPoint(part, cells.pin.text, view.ctx.board?.value));
    return line !== "" && typed(at, at.table.source.rows[index]?.cells[note]) === encodeCell(line);
  });
}

/** Each row behind the last one with a lower pin, or before the first where there is none. */
function insertions(
  view: LogView,
  at: TableAt,
  present: readonly PinRow[],
  missing: readonly string[],
  make: (pin: string) => readonly string[],
): TextEdit[] {
  const widths = at.table.columns.map((_, i) => columnWidth(at, i));
  const byPlace = new Map<number, string[]>();
  const first = Math.min(...present.map(({ index }) => index));
  for (const pin of missing) {
    const below = present.filter((row) => byRef(row.pin, pin) < 0).map(({ index }) => index);
    // Lines: the header, the one below it, then the rows.
    const behind = below.length > 0 ? Math.max(...below) + 2 : first + 1;
    const cells = make(pin).map(
      (cell, i) => cell + " ".repeat(Math.max(0, (widths[i] ?? 0) - displayWidth(cell))),
    );
    byPlace.set(behind, [...(byPlace.get(behind) ?? []), `${at.indent}| ${cells.join(" | ")} |`]);
  }
  return [...byPlace].map(([line, rows]) => {
    const end = at.lines[line]?.end ?? view.doc.text.length;
    return { span: { start: end, end }, newText: rows.map((row) => at.eol + row).join("") };
  });
}

/** Between the blanks beside the pipes of the header's cell, where a row is to end at the same place. */
function columnWidth(at: TableAt, i: number): number {
  const header = at.table.source.header.cells[i];
  if (!header) return 0;
  return Math.max(0, displayWidth(slice(at.block.source.text, header.outer)) - 2);
}
