// Tables as the board and the library lay them out, still to be filled in. Completion, actions and the palette all
// offer these.
import { type Place, partPlace, pinPlace } from "../../analysis/place";
import type { Board, ColumnSpec, Device, Matrix, Procedure } from "../../knowledge/types";
import { byRef, pinLine, pinsInOrder } from "../describe";
import type { LogView } from "../view";

export interface TableLayout {
  readonly name: string;
  readonly about: string;
  readonly header: readonly string[];
  /** Undefined stands for a cell to be filled in. */
  readonly rows: readonly (readonly (string | undefined)[])[];
}

/** Stands in a grid where nothing is to be measured. */
const NOTHING = "-";
/** Parts with fewer pins have no table of their own. */
const FEWEST_PINS = 3;

/** Tables whose rows are pins: ref and pin each have a column, and no other kind of place has to be named. */
export const byPins = (procedure: Procedure): boolean =>
  ["ref", "pin"].every((role) => procedure.columns.some((column) => column.role === role)) &&
  !procedure.columns.some((column) => column.role === "rail" && column.required);

export const takesRails = ({ id }: Procedure): boolean =>
  id === "supply-rails" || id === "resistance-to-ground";

/** The kind of matrix a procedure is about. */
export const matrixKind = ({ id }: Procedure): Matrix["kind"] | undefined =>
  id === "switch-matrix" ? "switch" : id === "lamp-matrix" ? "lamp" : undefined;

/** Every part of the board whose pins are known, in the order people count them. */
export function chipsOf({ ctx }: LogView): readonly (Place & { readonly device: Device })[] {
  const board = ctx.board?.value;
  if (!board) return [];
  return [...board.parts.keys()].sort(byRef).flatMap((ref) => {
    const place = partPlace(ref, board, ctx.library);
    const { device } = place;
    return device && device.pins.size >= FEWEST_PINS ? [{ ...place, device }] : [];
  });
}

/** The columns of a table by pins, and its rows: the name and the net of each pin stand in the note. */
export function pinTable(
  procedure: Procedure,
  ref: string,
  device: Device,
  place: Place,
  view: LogView,
): { readonly columns: readonly ColumnSpec[]; readonly rows: readonly (readonly (string | undefined)[])[] } {
  const columns = procedure.columns.filter(
    ({ role, required }) => required || role === "ref" || role === "pin" || role === "note",
  );
  const measured = columns.find((c) => c.role === "reading" || c.role === "state" || c.role === "result");
  const rows = pinsInOrder(device).map((pin) => {
    const at = pinPlace(place, pin.number, view.ctx.board?.value);
    return columns.map((column) => {
      if (column === measured) return undefined;
      if (column.role === "ref") return ref;
      if (column.role === "pin") return pin.number;
      return column.role === "note" ? pinLine(at) : "";
    });
  });
  return { columns, rows };
}

/** One row a pin. */
export function chipLayout(
  procedure: Procedure,
  place: Place & { readonly device: Device },
  view: LogView,
): TableLayout {
  const { columns, rows } = pinTable(procedure, place.ref, place.device, place, view);
  return {
    name: place.ref,
    about: `${procedure.title}, one row for each of the ${place.device.pins.size} pins of ${place.ref}.`,
    header: columns.map((column) => column.headers[0] ?? ""),
    rows,
  };
}

/** One column a chip, one row a pin; a dash where a chip has no such pin. */
export function circuitLayout(
  name: string,
  chips: readonly (Place & { readonly device: Device })[],
): TableLayout {
  const pins = [...new Set(chips.flatMap(({ device }) => [...device.pins.keys()]))].sort(byRef);
  return {
    name,
    about: `One column for each chip of ${name}.`,
    header: ["Pin", ...chips.map(({ ref }) => ref)],
    rows: pins.map((pin) => [
      pin,
      ...chips.map(({ device }) => (device.pins.has(pin) ? undefined : NOTHING)),
    ]),
  };
}

/** One row a rail; none where the board names no rails. */
export function railLayout(procedure: Procedure, board: Board): TableLayout | undefined {
  if (board.rails.size === 0) return undefined;
  const columns = procedure.columns.filter(
    ({ role, required, measure }) =>
      role === "rail" || role === "note" || (role === "reading" && (required || measure === "ripple")),
  );
  const rows = [...board.rails.values()].map((rail) =>
    columns.map(({ role }) =>
      role === "rail" ? rail.name : role === "note" ? (rail.testPoint ?? "") : undefined,
    ),
  );
  const header = columns.map((column) => column.headers[0] ?? "");
  return { name: "Rails", about: `${procedure.title} of ${board.title}, one row a rail.`, header, rows };
}

/** The tables of a procedure as this board lays them out; none where the board file says nothing of them. */
export function boardLayouts(procedure: Procedure, board: Board): readonly TableLayout[] {
  if (takesRails(procedure)) return [railLayout(procedure, board)].filter((layout) => layout !== undefined);
  const kind = matrixKind(procedure);
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
