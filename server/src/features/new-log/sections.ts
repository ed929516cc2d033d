// The sections of a new log in the order of the job: look, read unpowered, power, find the fault, mend, prove.
import type { Library } from "../../knowledge/library";
import type { Board, Procedure } from "../../knowledge/types";
import { KINDS, kindOf } from "../../log/kinds";
import { boardLayouts, firstRails, type TableLayout, takesRails } from "../shared/tables/layouts";
import type { NamedBoard } from "./board-named";

export interface NewSection {
  readonly heading: string;
  readonly procedure: Procedure;
  /** The one that matters most, where it was not said one section before; the heading's hover has them all. */
  readonly cautions: readonly string[];
  /** Absent where only the work itself can tell which rows there are. */
  readonly table?: TableLayout;
}

/** What this board's procedures call for; of a board that nothing is known of, what every job has. */
export function sectionsFor(named: NamedBoard | undefined, library: Library): NewSection[] {
  const board = named?.known;
  const proven = new Set(board?.proving.map(({ procedure }) => procedure));
  let said: Procedure | undefined;
  const sections = KINDS.flatMap(({ id, newLog }) =>
    newLog ? (newLog.each ?? [undefined]).map((qualifier) => ({ id, newLog, qualifier })) : [],
  );
  return sections
    .filter(({ id, newLog: { fits, untold } }) => {
      if (untold) return !named?.file && !(board && board.parts.size > 0);
      return !fits || (board !== undefined && (fits(board) || proven.has(id)));
    })
    .flatMap(({ id, qualifier }) => {
      const procedure = library.procedure(id);
      if (!procedure) return [];
      const title = qualifier === undefined ? procedure.title : `${procedure.title}, ${qualifier}`;
      const cautions = said === procedure ? [] : procedure.cautions.slice(0, 1);
      said = procedure;
      const tables = tablesFor(procedure, named);
      if (tables.length === 0) return [{ heading: title, procedure, cautions }];
      // Several matrices of a kind are told apart by their headings.
      return tables.map((table, at) => ({
        heading: tables.length > 1 ? `${title}, ${table.name}` : title,
        procedure,
        cautions: [...(at === 0 ? cautions : []), ...reservedIn(board, procedure, table)],
        table,
      }));
    });
}

/** Crossings nobody may bridge stand in words before the table, not only as a dash within it. */
function reservedIn(board: Board | undefined, { id }: Procedure, { name }: TableLayout): string[] {
  if (!kindOf(id).matrix) return [];
  const matrix = [...(board?.matrices.values() ?? [])].find(({ title }) => title === name);
  if (!matrix || matrix.reserved.length === 0) return [];
  const places = matrix.reserved.map(([row, column]) => {
    const called = matrix.cells[row - 1]?.[column - 1];
    return `row ${row} column ${column}${called ? ` (${called})` : ""}`;
  });
  return [`reserved on this board, leave alone: ${places.join(", ")}.`];
}

function tablesFor(procedure: Procedure, named: NamedBoard | undefined): readonly TableLayout[] {
  const board = named?.known;
  const own = board && boardLayouts(procedure, board);
  if (own && own.length > 0) return own;
  if (!named?.file && takesRails(procedure)) return [firstRails(procedure)];
  const { place, newLog } = kindOf(procedure.id);
  if (place === "switch") return board ? [switchLayout(procedure, board)] : [];
  const { columns, rows } = newLog ?? {};
  if (!columns) return [];
  // A workspace may have a procedure of its own by this name, with other columns.
  const found = columns.filter((column) => procedure.columns.some((spec) => holds(spec, column)));
  const header = found.map(
    (column) => procedure.columns.find((spec) => holds(spec, column))?.headers[0] ?? column,
  );
  const filled = (rows?.({ known: board, file: named?.file?.value }) ?? []).map((row) =>
    found.map((column) => row[column]),
  );
  return [{ name: procedure.title, about: "", header, rows: filled }];
}

const holds = ({ role, measure }: Procedure["columns"][number], column: string): boolean =>
  column === role || column === measure;

/** One row a bank and one column a switch, as they are read off the board. */
function switchLayout({ columns }: Procedure, { switchBanks }: Board): TableLayout {
  const count = Math.max(
    1,
    ...[...switchBanks.values()].flatMap(({ settings }) => settings.flatMap(({ switches }) => switches)),
  );
  const bank = columns.find(({ role }) => role === "ref")?.headers[0] ?? "Bank";
  const switches = Array.from({ length: count }, (_, n) => String(n + 1));
  return {
    name: "Settings",
    about: "",
    header: [bank, ...switches],
    rows: [...switchBanks.keys()].map((ref) => [ref, ...switches.map(() => undefined)]),
  };
}
