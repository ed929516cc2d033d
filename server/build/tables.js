// The tables of a procedure that are worth starting from: which columns, in long and in wide form.

/** Roles whose optional columns belong in a new table. */
const WORTH = new Set(["reading", "check", "part", "quantity", "date"]);
/** More optional columns than these make a table nobody fills in. */
const MOST_OPTIONAL = 3;
const PLACES = new Set(["ref", "rail", "signal", "item", "row", "cell", "switch"]);

/** The columns of a new table: what is required, what says where, some of what can be noted besides, the note. */
export function longColumns(procedure) {
  const where = placeColumns(procedure);
  let optional = 0;
  return procedure.columns.filter(
    (column) =>
      column.required ||
      column.role === "note" ||
      where.includes(column) ||
      (WORTH.has(column.role) && ++optional <= MOST_OPTIONAL),
  );
}

/**
 * Columns that are not required but say where. The roles of the wide form, where the long one begins with one of
 * them; else, where no place is required, the first column of a place, with the pin where that is a part.
 */
function placeColumns({ columns, wide }) {
  const roles = wide ? [wide.rows, wide.columns] : [];
  if (roles.includes(columns[0].role)) return columns.filter((column) => roles.includes(column.role));
  if (columns.some((column) => column.required && PLACES.has(column.role))) return [];
  const first = columns.find((column) => PLACES.has(column.role));
  return columns.filter(({ role }) => role === first?.role || (first?.role === "ref" && role === "pin"));
}

export const header = (column) => column.headers[0];

/** The column the first cells of a wide table are of, and the one its other headers are of. */
export function wideParts({ columns, wide }) {
  const first = columns.find((column) => column.role === wide.rows);
  const cells = columns.find((column) => (column.measure ?? column.role) === wide.cells);
  return { first, cells };
}
