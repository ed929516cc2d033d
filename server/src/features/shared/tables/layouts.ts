// Tables as the board and the library lay them out, still to be filled in. Completion, actions and the palette all
// offer these.
import { defined } from "../../../base/defined";
import { partAt } from "../../../judge/board-parts";
import { hasBoardFile } from "../../../judge/context";
import { partTestPoint, pinTestPoint, type TestPoint } from "../../../judge/test-point";
import type { Board, ColumnSpec, Device, Matrix, Procedure, Rail } from "../../../knowledge/types";
import { kindOf } from "../../../log/kinds";
import type { WholeDigits } from "../../../quantity/whole-digits";
import type { LogView } from "../../view";
import { byRef, pinLine, pinsInOrder } from "../describe";
import { digitsOf } from "../digits-of";

/** A table before it is text: its headers, and its rows with what is known of each. */
export interface TableLayout {
  readonly name: string;
  readonly about: string;
  readonly header: readonly string[];
  /** Undefined stands for a cell to be filled in. */
  readonly rows: readonly (readonly (string | undefined)[])[];
  /** What stands, in every row alike, for a designator that is still to be typed. */
  readonly unnamed?: string;
  /** How readings typed without their point are read; absent where digits are only digits. */
  readonly digits?: WholeDigits;
}

/** Stands for the designator of a chip that nobody has named. */
export const UNNAMED = "U?";

/** Stands in a grid where nothing is to be measured. */
const NOTHING = "-";
/** Parts with fewer pins have no table of their own. */
export const FEWEST_PINS = 3;

/** Tables whose rows are pins: ref and pin each have a column, and no other kind of place has to be named. */
export const byPins = (procedure: Procedure): boolean =>
  ["ref", "pin"].every((role) => procedure.columns.some((column) => column.role === role)) &&
  !procedure.columns.some((column) => column.role === "rail" && column.required);

/** True for procedures whose rows are read at rails. */
export const takesRails = ({ id }: Procedure): boolean => kindOf(id).place === "rail";

/** Every part of the board whose pins are known, in the order people count them. */
export function chipsOf({ ctx }: LogView): readonly (TestPoint & { readonly device: Device })[] {
  const board = ctx.board?.value;
  if (!board) return [];
  return [...board.parts.keys()].sort(byRef).flatMap((ref) => {
    const place = partTestPoint(ref, board, ctx.library);
    const { device } = place;
    return device && device.pins.size >= FEWEST_PINS ? [{ ...place, device }] : [];
  });
}

/** The number of a part that the log does not say yet, nor a board file: what is typed with its table is then kept. */
export function unsaidNumber(ref: string, { ctx }: LogView): string | undefined {
  const { device } = partAt(ref, ctx) ?? {};
  return device !== undefined && ctx.stated?.parts.get(ref.toUpperCase())?.by === "job" ? device : undefined;
}

/** Beside the designators, where a procedure has no column of its own for the numbers printed on parts. */
const NUMBERS: ColumnSpec = { role: "part", headers: ["Device"], required: false };

/**
 * The columns of a table by pins, and its rows: the name and the net of each pin stand in the note.
 * @param number to be written down; once, in the first row, so that it is changed in one place
 */
function pinTable(
  procedure: Procedure,
  place: TestPoint & { readonly device: Device },
  view: LogView,
  number: string | undefined,
): { readonly columns: readonly ColumnSpec[]; readonly rows: readonly (readonly (string | undefined)[])[] } {
  const numbers = procedure.columns.find(({ role }) => role === "part") ?? NUMBERS;
  const columns = procedure.columns
    .filter(
      (column) =>
        column !== numbers &&
        (column.required || column.role === "ref" || column.role === "pin" || column.role === "note"),
    )
    .flatMap((column) => (column.role === "ref" && number !== undefined ? [column, numbers] : [column]));
  const measured = columns.find((c) => c.role === "reading" || c.role === "state" || c.role === "result");
  const rows = pinsInOrder(place.device).map((pin, row) => {
    const at = pinTestPoint(place, pin.number, view.ctx.board?.value);
    return columns.map((column) => {
      if (column === measured) return undefined;
      if (column === numbers) return row === 0 ? number : "";
      if (column.role === "ref") return place.ref;
      if (column.role === "pin") return pin.number;
      return column.role === "note" ? pinLine(at) : "";
    });
  });
  return { columns, rows };
}

/**
 * One row a pin.
 * @param number of the part, to be written down
 */
export function chipLayout(
  procedure: Procedure,
  place: TestPoint & { readonly device: Device },
  view: LogView,
  number = unsaidNumber(place.ref, view),
): TableLayout {
  const { columns, rows } = pinTable(procedure, place, view, number);
  return defined({
    name: place.ref,
    about: `${procedure.title}, one row for each of the ${place.device.pins.size} pins of ${place.ref}.`,
    header: columns.map((column) => column.headers[0] ?? ""),
    rows,
    unnamed: place.ref === UNNAMED ? UNNAMED : undefined,
    digits: digitsOf(procedure),
  });
}

/** One column a chip, one row a pin; a dash where a chip has no such pin. */
export function circuitLayout(
  name: string,
  chips: readonly (TestPoint & { readonly device: Device })[],
  procedure: Procedure | undefined,
): TableLayout {
  const pins = [...new Set(chips.flatMap(({ device }) => [...device.pins.keys()]))].sort(byRef);
  return defined({
    name,
    about: `One column for each chip of ${name}.`,
    digits: procedure && digitsOf(procedure),
    header: ["Pin", ...chips.map(({ ref }) => ref)],
    rows: pins.map((pin) => [
      pin,
      ...chips.map(({ device }) => (device.pins.has(pin) ? undefined : NOTHING)),
    ]),
  });
}

/** One row a rail; none where the board names no rails. */
export function railLayout(procedure: Procedure, { rails, title }: Board): TableLayout | undefined {
  if (rails.size === 0) return undefined;
  return railRows(procedure, [...rails.values()], `${procedure.title} of ${title}, one row a rail.`);
}

/** The rail that a board with logic on it has, whatever else it has: common practice, no source. */
const FIRST_RAIL = { name: "+5V" };

/** To begin with, where nobody has named a rail yet. */
export const firstRails = (procedure: Procedure): TableLayout =>
  railRows(procedure, [FIRST_RAIL], `${procedure.title}, +5V to begin with. Add a row for each other rail.`);

function railRows(
  procedure: Procedure,
  rails: readonly Pick<Rail, "name" | "testPoint">[],
  about: string,
): TableLayout {
  const columns = procedure.columns.filter(
    ({ role, required, measure }) =>
      role === "rail" || role === "note" || (role === "reading" && (required || measure === "ripple")),
  );
  const rows = rails.map((rail) =>
    columns.map(({ role }) =>
      role === "rail" ? rail.name : role === "note" ? (rail.testPoint ?? "") : undefined,
    ),
  );
  return { name: "Rails", about, header: columns.map((column) => column.headers[0] ?? ""), rows };
}

/**
 * The tables of a procedure as the log's board lays them out, or one with the first rail where no board file tells
 * which there are.
 */
export const tablesToFill = (procedure: Procedure, { ctx }: LogView): readonly TableLayout[] => {
  const own = ctx.board ? boardLayouts(procedure, ctx.board.value) : [];
  return own.length > 0 || !takesRails(procedure) || hasBoardFile(ctx) ? own : [firstRails(procedure)];
};

/** The tables of a procedure as this board lays them out; none where nothing is known of what they are about. */
export function boardLayouts(procedure: Procedure, board: Board): readonly TableLayout[] {
  if (takesRails(procedure)) return [railLayout(procedure, board)].filter((layout) => layout !== undefined);
  const kind = kindOf(procedure.id).matrix;
  return [...board.matrices.values()].filter((matrix) => matrix.kind === kind).map(gridLayout);
}

/** A reserved crossing is marked as not tried, so that nobody fills it in by the way. */
export function gridLayout(matrix: Matrix): TableLayout {
  const reserved = new Set(matrix.reserved.map(([row, column]) => `${row} ${column}`));
  return {
    name: matrix.title,
    about: `${matrix.title}, rows by columns. Reserved crossings are marked with a dash: leave them alone.`,
    header: ["Row \\ Col", ...matrix.columns.map((_, c) => String(c + 1))],
    rows: matrix.rows.map((_, r) => [
      String(r + 1),
      ...matrix.columns.map((__, c) => (reserved.has(`${r + 1} ${c + 1}`) ? NOTHING : undefined)),
    ]),
  };
}
