// Readings with their places as the board has them. What a log is read by knows no board: "D5" under "Net", "C1 +", "TP4" under
// "Voltages" and "J3 p5" are names to it. Here they become the pins and rails that they are, before anything is judged for the
// diagnosis.
import { memoBy } from "../../../base/memo";
import type { LogContext } from "../../../judge/context";
import { findRail } from "../../../judge/rail-name";
import { partTestPoint, pinTestPoint } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, PinRef, Procedure } from "../../../knowledge/types";
import type { CellText } from "../../../log/cell-text";
import { kindOf, kindOfPlaced } from "../../../log/kinds";
import type { LogBlock, LogTable, Reading, Subject } from "../../../log/model";
import { headerOver } from "./header-over";
import { looseTables } from "./loose-tables";
import { boardPinIn } from "./place-words";

/** A block whose readings name pins, and the tables that were written, by those that stand for them. */
export interface PlacedBlock {
  readonly block: LogBlock;
  readonly written: ReadonlyMap<LogTable, LogTable>;
}

/** More readings are of a table whose places are pins already. */
const MOST = 2000;

const placed = memoBy<LogBlock, PlacedBlock>();

/** The very same block where all its places are known as they stand. */
export const blockWithPlaces = (block: LogBlock, ctx: LogContext): PlacedBlock =>
  placed(block, () => build(block, ctx), ctx);

const NONE: ReadonlyMap<LogTable, LogTable> = new Map();

function build(block: LogBlock, ctx: LogContext): PlacedBlock {
  const board = ctx.board?.value;
  if (!board) return { block, written: NONE };
  const written = new Map<LogTable, LogTable>();
  const tables = block.tables.flatMap((table): readonly LogTable[] => {
    if (table.pieces || table.readings.length > MOST) return [table];
    const named = looseOf(table, board, ctx) ?? tablesOf(table, board, ctx);
    for (const one of named) if (one !== table) written.set(one, table);
    return named;
  });
  const loose = block.proseTables.flatMap(({ source, section }) => looseTables(source, section, board, ctx));
  return written.size + loose.length === 0
    ? { block, written }
    : { block: { ...block, tables: [...tables, ...loose] }, written };
}

/** A table of which not one reading has a place, by what its rows and columns name together. */
function looseOf(table: LogTable, board: Board, ctx: LogContext): readonly LogTable[] | undefined {
  const { readings, kind, source, section } = table;
  if (!OF_PINS.has(kind.observedAs) || table.isTurned || table.shape === "wide") return undefined;
  const isPlaced = (reading: Reading): boolean => {
    const { subject } = reading;
    // A rail that only the log knows may be a figure in a column that was taken for names.
    const rail = subject.rail && findRail(board, subject.rail.text);
    if (rail && !rail.byName) return true;
    if (placeOf(reading, board, ctx)) return true;
    return subject.ref !== undefined && boardIndex(board).part(subject.ref.text) !== undefined;
  };
  if (readings.some(isPlaced)) return undefined;
  const loose = looseTables(source, section, board, ctx);
  return loose.length > 0 ? loose : undefined;
}

/** The table as it stands, or in its place one for each kind of place among its rows. */
function tablesOf(table: LogTable, board: Board, ctx: LogContext): readonly LogTable[] {
  const places = table.readings.map((reading) => placeOf(reading, board, ctx));
  if (places.every((place) => place === undefined)) return [table];
  const byKind = new Map<string, { reading: Reading; subject: Subject }[]>();
  table.readings.forEach((reading, i) => {
    const { subject = reading.subject, kind = table.procedure.id } = places[i] ?? {};
    byKind.set(kind, [...(byKind.get(kind) ?? []), { reading, subject }]);
  });
  return [...byKind].flatMap(([id, all]): LogTable[] => {
    const procedure = id === table.procedure.id ? table.procedure : ctx.library.procedure(id);
    if (!procedure) return [];
    const readings: Reading[] = [];
    const own: LogTable = { ...bare(table), procedure, kind: kindOf(id), readings };
    for (const { reading, subject } of all) readings.push(taken(reading, subject, own, procedure));
    return [own];
  });
}

/** Without its look-up by number, which is of the table that was written. */
function bare({
  source,
  span,
  section,
  procedure,
  kind,
  shape,
  columns,
  rows,
  isTurned,
}: LogTable): LogTable {
  const table = { source, span, section, procedure, kind, shape, columns, rows, readings: [] };
  return isTurned ? { ...table, isTurned } : table;
}

/** The reading as one of a table of that procedure: of rails as a level, and the other way round. */
function taken(reading: Reading, subject: Subject, table: LogTable, procedure: Procedure): Reading {
  const isOwn = reading.table.procedure === procedure;
  const spec = isOwn
    ? reading.spec
    : (procedure.columns.find(({ role, required, quantity }) => role === "reading" && required && quantity) ??
      reading.spec);
  return { ...reading, table, subject, spec, measure: isOwn ? reading.measure : (spec.measure ?? spec.role) };
}

interface Placed {
  readonly subject: Subject;
  /** Of a procedure, where it is another than the table's. */
  readonly kind?: string;
}

const OF_PINS = new Set(["pin-powered", "pin-unpowered", "rail", "rail-to-ground"]);

/** Undefined where its place stands as it is. */
function placeOf(reading: Reading, board: Board, ctx: LogContext): Placed | undefined {
  const { observedAs } = reading.table.kind;
  if (observedAs === "ends") return endsOf(reading, board, ctx);
  if (observedAs === "part") return ofNet(reading, board, ctx);
  if (!OF_PINS.has(observedAs)) return undefined;
  const { subject } = reading;
  const at = pinMeant(reading, board, ctx);
  if (!at) return undefined;
  const own = pinTestPoint(partTestPoint(at.ref, board, ctx.library), at.pin, board);
  const rail = own.net && boardIndex(board).railOf(own.net);
  const { cell } = at;
  const { rail: _rail, ...rest } = subject;
  if (observedAs === "rail" || observedAs === "pin-powered") {
    const isVolts = reading.spec.quantity === "voltage";
    // At a test point it is the rail that was read.
    if (rail !== undefined && /^TP\d/i.test(at.ref) && isVolts)
      return {
        subject: { ...rest, rail: { text: rail, span: cell.span } },
        kind: kindOfPlaced("rail-volts"),
      };
    if (observedAs === "rail" && isVolts && reading.measure !== "ripple")
      return { subject: { ...rest, ...named(at) }, kind: kindOfPlaced("pin-volts") };
  }
  return { subject: { ...rest, ...named(at) } };
}

interface At extends PinRef {
  readonly cell: CellText;
}

const named = ({ ref, pin, cell: { span } }: At): Subject => ({
  ref: { text: ref, span },
  pin: { text: pin, span },
});

/** The pin that a row means and does not name as one; undefined where it does, and where it means none. */
function pinMeant(reading: Reading, board: Board, ctx: LogContext): At | undefined {
  const { subject } = reading;
  const { ref, pin, rail } = subject;
  const { library } = ctx;
  const find = (cell: CellText | undefined, first: "part" | "net" = "part"): At | undefined => {
    const at = cell && boardPinIn(cell.text, board, library, first);
    return at && cell && { ...at, cell };
  };
  if (rail) return findRail(board, rail.text) || ref ? undefined : find(rail, "net");
  if (ref) {
    const part = boardIndex(board).part(ref.text);
    if (!part) {
      const words = pin ? { text: `${ref.text} ${pin.text}`, span: ref.span } : ref;
      return find(words) ?? (pin ? undefined : find(subject.signal, "net"));
    }
    if (pin) {
      const at = pinTestPoint(partTestPoint(part.ref, board, library), pin.text, board);
      return at.pin || at.net ? undefined : find({ text: `${ref.text} ${pin.text}`, span: pin.span });
    }
    return find(ref) ?? find(wholeCell(reading, ref)) ?? onPart(subject.signal, part.ref, board);
  }
  if (pin) return find(pin);
  return find(subject.signal, "net") ?? find(subject.item, "net") ?? overColumn(reading, board, ctx);
}

/** The cell that a designator stands in, with what stands behind it: "C1 +", "U22 2". */
function wholeCell({ table, cell, row }: Reading, { text, span }: CellText): CellText | undefined {
  const { rows, header } = table.source;
  const own = rows[row]?.cells.includes(cell) ? rows[row] : rows.find(({ cells }) => cells.includes(cell));
  const all = [...(own?.cells ?? []), ...header.cells];
  const found = all.find((one) => one.span.start <= span.start && one.span.end >= span.end);
  return found && found.text !== text ? { text: found.text, span: found.span } : undefined;
}

/** The part's own pin on the net that the row names. */
function onPart(signal: CellText | undefined, ref: string, board: Board): At | undefined {
  const wanted = signal?.text.trim().toUpperCase();
  const net = wanted && [...board.nets.values()].find(({ name }) => name.toUpperCase() === wanted);
  const pins = net ? net.pins.filter((one) => one.ref === ref) : [];
  return signal && pins.length === 1 && pins[0] ? { ...pins[0], cell: signal } : undefined;
}

/** A row that names nothing, under a header that names a place: "Q1 C", "U5.4". */
function overColumn(reading: Reading, board: Board, { library }: LogContext): At | undefined {
  const header = headerOver(reading);
  const at = header && boardPinIn(header.text, board, library);
  return at && header && { ...at, cell: { text: header.text, span: header.span } };
}

/** Two ends as pins of the board, where they are typed another way. */
function endsOf({ subject }: Reading, board: Board, { library }: LogContext): Placed | undefined {
  const end = (cell: CellText | undefined): CellText | undefined => {
    if (!cell || boardIndex(board).part(cell.text)) return cell;
    const isNet = [...board.nets.keys()].some((name) => name.toUpperCase() === cell.text.toUpperCase());
    const at = isNet ? undefined : boardPinIn(cell.text, board, library);
    return at ? { text: `${at.ref}.${at.pin}`, span: cell.span } : cell;
  };
  const [from, to] = [end(subject.from), end(subject.to)];
  if (!from || !to || (from.text === subject.from?.text && to.text === subject.to?.text)) return undefined;
  return { subject: { ...subject, from, to } };
}

/** Ohms of a line among those of parts: they are to ground. */
function ofNet(reading: Reading, board: Board, { library }: LogContext): Placed | undefined {
  const { subject, spec } = reading;
  const { ref, pin } = subject;
  if (spec.quantity !== "resistance" || !ref || pin || boardIndex(board).part(ref.text)) return undefined;
  const at = boardPinIn(ref.text, board, library, "net");
  return at && { subject: { ...subject, ...named({ ...at, cell: ref }) }, kind: kindOfPlaced("pin-ohms") };
}
