// Tables that no kind claims, read by what the board has: a cell holds volts, ohms or a state, and its row, its column, or the two
// together name a place. What is said by neither is left alone.

import type { LogContext } from "../../../judge/context";
import { findRail } from "../../../judge/rail-name";
import { partTestPoint, pinTestPoint } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Procedure } from "../../../knowledge/types";
import type { CellText } from "../../../log/cell-text";
import { isForComparison } from "../../../log/content/look";
import { OHM_WORD, PIN_WORD } from "../../../log/content/table-content";
import { disconnectionsIn } from "../../../log/disconnections";
import { headerWord } from "../../../log/header-word";
import { kindOf, kindOfPlaced } from "../../../log/kinds";
import type { LogTable, Reading, Section, Subject } from "../../../log/model";
import type { CellValue } from "../../../quantity/cell-value";
import { parseCell } from "../../../quantity/parse-cell";
import { unitOfHeader } from "../../../quantity/units";
import type { Cell, Row, Table } from "../../../syntax/tables";
import { boardPinIn } from "./place-words";

/** Rows and columns of what somebody writes without a word for it. */
const MOST = { rows: 60, columns: 12 } as const;
const UNPOWERED = /\b(?:un-?powered|power(?:ed)? (?:is |was )?off|no power|without power|dead board|cold)\b/i;
const DIODE = /\b(?:diode|drops?|junctions?)\b/i;
const RIPPLE = /\b(?:ripple|AC|p-?p|pk-?pk|hum)\b/;
const SCOPE = /\b(?:scope|oscilloscope|traces?|waveforms?|vpp|p-p)\b/i;
const FLAT = /^(?:flat(?: line)?|dead|nothing|none|no signal|still|0)$/i;
/** Volts peak to peak that a signal has at least. */
const SWINGS = 0.05;
const OHMS = /\b(?:ohms?|resistance|megohm)\b/i;

/** Over what says where and not what. */
const NAMES =
  /^(?:ref(?:erence)?|chip|ic|part|device|name|signal|net|line|where|place|point|position|item|no|nr|#|row|column|type)$/;

interface Found {
  readonly kind: string;
  readonly subject: Subject;
  readonly value: CellValue;
  readonly cell: Cell;
  readonly row: number;
  readonly measure?: string;
}

/** One table for each kind of reading that was found in it. */
export function looseTables(
  source: Table,
  section: Section,
  board: Board,
  ctx: LogContext,
): readonly LogTable[] {
  if (source.rows.length > MOST.rows || source.columnCount > MOST.columns) return [];
  const found = source.rows.flatMap((row, i) =>
    row.cells.flatMap((cell, at) => readingAt(source, section, row, i, cell, at, board, ctx) ?? []),
  );
  const ids = [...new Set(found.map(({ kind }) => kind))];
  return ids.flatMap((id) => {
    const procedure = ctx.library.procedure(id);
    return procedure
      ? [
          tableOf(
            source,
            section,
            procedure,
            found.filter(({ kind }) => kind === id),
          ),
        ]
      : [];
  });
}

function tableOf(source: Table, section: Section, procedure: Procedure, all: readonly Found[]): LogTable {
  const readings: Reading[] = [];
  const { id } = procedure;
  const table: LogTable = {
    ...{ source, span: source.span, section, procedure, kind: kindOf(id), shape: "long" },
    ...{ columns: source.header.cells.map((header) => ({ header })), rows: [], readings },
  };
  for (const { subject, value, cell, row, measure } of all) {
    const spec =
      procedure.columns.find((one) => measure !== undefined && one.measure === measure) ??
      procedure.columns.find(({ role, required }) => required && (role === "reading" || role === "state"));
    if (!spec) continue;
    const apart = disconnectionsIn(`${section.heading?.text ?? ""}; ${subject.note?.text ?? ""}`);
    readings.push({
      ...{ table, row, subject, spec, measure: spec.measure ?? spec.role, value, cell },
      ...(apart.length > 0 ? { apart } : {}),
    });
  }
  return table;
}

function readingAt(
  { header }: Table,
  section: Section,
  row: Row,
  number: number,
  cell: Cell,
  at: number,
  board: Board,
  ctx: LogContext,
): Found | undefined {
  const over = header.cells[at];
  const word = headerWord(over?.text ?? "");
  if (!over || cell.text === "" || isForComparison(word) || NAMES.test(word) || PIN_WORD.test(word))
    return undefined;
  const words = `${section.heading?.text ?? ""} ${over.text}`;
  const what = measuredIn(cell.text, over.text, words);
  if (!what) return undefined;
  // A cell that names a place is none that was read there.
  if (boardPinIn(cell.text, board, ctx.library)) return undefined;
  const labels = row.cells.filter((one, i) => i !== at && one.text !== "");
  const where = placeOf(labels, over, section, board, ctx);
  if (!where) return undefined;
  const note = { text: over.text, span: over.span };
  const base = { value: what.value, cell, row: number };
  if ("rail" in where)
    return what.of === "voltage"
      ? {
          ...base,
          kind: kindOfPlaced("rail-volts"),
          subject: { rail: where.rail, note },
          measure: RIPPLE.test(over.text) ? "ripple" : "dc",
        }
      : what.of === "resistance"
        ? { ...base, kind: kindOfPlaced("rail-ohms"), subject: { rail: where.rail, note } }
        : undefined;
  const subject: Subject = { ...where, note };
  if (!where.pin)
    return what.of === "resistance" && /^(?:R|L|F|K)\w*\d/i.test(where.ref.text)
      ? { ...base, kind: kindOfPlaced("part-ohms"), subject }
      : undefined;
  const kind =
    what.of === "state"
      ? "pin-state"
      : what.of === "resistance"
        ? "pin-ohms"
        : DIODE.test(words)
          ? "pin-drop"
          : UNPOWERED.test(words)
            ? undefined
            : "pin-volts";
  return kind === undefined ? undefined : { ...base, kind: kindOfPlaced(kind), subject };
}

function measuredIn(
  text: string,
  over: string,
  words: string,
): { readonly value: CellValue; readonly of: "voltage" | "resistance" | "state" } | undefined {
  const state = parseCell(text, { kind: "state" });
  if (state.kind === "state" && !/^[01]$/.test(text)) return { value: state, of: "state" };
  if (SCOPE.test(words) && FLAT.test(text.trim()))
    return { value: { kind: "state", typed: text, state: "low" }, of: "state" };
  // "flat, 0.1 V" on a screen.
  if (state.kind === "quantity" && state.quantity.dimension === "voltage" && /^[a-z]/i.test(text))
    return { value: state, of: "voltage" };
  const isOhms = OHM_WORD.test(headerWord(over)) || OHMS.test(words);
  const unit = unitOfHeader(over) ?? (isOhms ? "ohm" : "V");
  const value = parseCell(text, { kind: "quantity", unit });
  switch (value.kind) {
    case "open":
    case "short":
      return isOhms ? { value, of: "resistance" } : DIODE.test(words) ? { value, of: "voltage" } : undefined;
    case "quantity":
    case "bound": {
      const { dimension, qualifier, value: size } = value.quantity;
      if (dimension === "frequency" && size > 0)
        return { value: { kind: "state", typed: text, state: "pulsing" }, of: "state" };
      // What swings moves; nothing on a screen where others swing stands still.
      const swings = qualifier === "pp" || (qualifier === undefined && size === 0 && SCOPE.test(words));
      if (dimension === "voltage" && swings)
        return {
          value: { kind: "state", typed: text, state: Math.abs(size) > SWINGS ? "pulsing" : "low" },
          of: "state",
        };
      return dimension === "voltage" || dimension === "resistance" ? { value, of: dimension } : undefined;
    }
    default:
      return undefined;
  }
}

type Where = { readonly rail: CellText } | { readonly ref: CellText; readonly pin?: CellText };

/** By the row and the column together, else by the row, else by the column, else by the heading's part and the row. */
function placeOf(
  labels: readonly Cell[],
  over: Cell,
  { ref }: Section,
  board: Board,
  ctx: LogContext,
): Where | undefined {
  const { library } = ctx;
  const pin = (text: string, { span }: Cell): Where | undefined => {
    const at = boardPinIn(text, board, library);
    return at && asRail({ ref: { text: at.ref, span }, pin: { text: at.pin, span } }, board, ctx);
  };
  for (const label of labels) {
    const both =
      pin(`${label.text} ${over.text}`, label) ??
      pin(`${over.text} ${label.text}`, label) ??
      onNamedNet(label, over, board, ctx);
    if (both) return both;
  }
  for (const label of [...labels, over]) {
    const rail =
      /\d|v/i.test(label.text) && !boardIndex(board).part(label.text)
        ? findRail(board, label.text)
        : undefined;
    if (rail) return { rail: { text: rail.name, span: label.span } };
    const at = pin(label.text, label);
    if (at) return at;
  }
  for (const label of labels) {
    const at = ref && pin(`${ref.text} ${label.text}`, label);
    if (at) return at;
  }
  const part = labels.find(({ text }) => boardIndex(board).part(text));
  return part && { ref: { text: part.text, span: part.span } };
}

/** A test point of a rail stands for the rail. */
function asRail(where: { ref: CellText; pin: CellText }, board: Board, { library }: LogContext): Where {
  const { net } = pinTestPoint(partTestPoint(where.ref.text, board, library), where.pin.text, board);
  const rail = net && boardIndex(board).railOf(net);
  return rail !== undefined && /^TP\d/i.test(where.ref.text)
    ? { rail: { text: rail, span: where.ref.span } }
    : where;
}

const SIDE = /^([A-Za-z]{1,3}\d{1,4})\s+(in|inputs?|out|outputs?)\b/i;

/** "U18 in" over a row "d": the one input of U18 on a net with that word in its name. */
function onNamedNet(label: Cell, over: Cell, board: Board, { library }: LogContext): Where | undefined {
  const [, ref = "", side = ""] = SIDE.exec(over.text) ?? [];
  const at = ref === "" ? undefined : partTestPoint(ref, board, library);
  const word = label.text.trim().toUpperCase().split(/\s+/).at(-1) ?? "";
  if (!at?.part || !at.device || word === "") return undefined;
  const isIn = /^in/i.test(side);
  const fits = [...at.device.pins.values()].filter(({ number, direction }) => {
    const net = boardIndex(board).net(at.ref, number);
    const isSide = isIn ? direction === "input" : /output|open|three|tri/.test(direction);
    return (
      isSide &&
      net?.name
        .toUpperCase()
        .split(/[_\s]+/)
        .includes(word)
    );
  });
  const [only] = fits;
  return only && fits.length === 1
    ? { ref: { text: at.ref, span: over.span }, pin: { text: only.number, span: label.span } }
    : undefined;
}
