// The sections of a new log in the order of the job: look, read unpowered, power, find the fault, mend, prove.
import type { Library } from "../../knowledge/library";
import type { Board, Procedure } from "../../knowledge/types";
import { boardLayouts, firstRails, type TableLayout, takesRails } from "../tables/layouts";
import type { NamedBoard } from "./board-named";

export interface NewSection {
  readonly heading: string;
  readonly procedure: Procedure;
  /** The one that matters most, where it was not said one section before; the heading's hover has them all. */
  readonly cautions: readonly string[];
  /** Absent where only the work itself can tell which rows there are. */
  readonly table?: TableLayout;
}

interface Step {
  readonly id: string;
  readonly qualifier?: string;
  /** Whether a board calls for it besides what its proving list names; every board does without this. */
  readonly fits?: (board: Board) => boolean;
  /** For a board that neither a file nor another log tells the parts of: what the log says of it is then all there is. */
  readonly untold?: true;
}

const ORDER: readonly Step[] = [
  { id: "inspection" },
  { id: "settings", fits: ({ switchBanks }) => switchBanks.size > 0 },
  { id: "parts-on-board", untold: true },
  { id: "resistance-to-ground" },
  { id: "diode-check" },
  { id: "coil-resistance", fits: ({ coils }) => coils.length > 0 },
  { id: "rom-check", fits: ({ romSets }) => romSets.size > 0 },
  { id: "supply-rails", qualifier: "unloaded" },
  { id: "supply-rails", qualifier: "loaded" },
  { id: "frequency", fits: ({ clocks }) => clocks.length > 0 },
  { id: "reset-timing", fits: ({ resets }) => resets.length > 0 },
  { id: "memory-test", fits: ({ memory }) => memory.length > 0 },
  { id: "switch-matrix", fits: hasMatrix("switch") },
  { id: "lamp-matrix", fits: hasMatrix("lamp") },
  { id: "display", fits: ({ circuits }) => circuits.has("display") },
  { id: "work" },
  { id: "parts-fitted" },
  { id: "soak", fits: () => false },
  { id: "proving" },
];

function hasMatrix(kind: string): (board: Board) => boolean {
  return ({ matrices }) => [...matrices.values()].some((matrix) => matrix.kind === kind);
}

/** What this board's procedures call for; of a board that nothing is known of, what every job has. */
export function sectionsFor(named: NamedBoard | undefined, library: Library): NewSection[] {
  const board = named?.known;
  const proven = new Set(board?.proving.map(({ procedure }) => procedure));
  let said: Procedure | undefined;
  return ORDER.filter(({ id, fits, untold }) => {
    if (untold) return !named?.file && !(board && board.parts.size > 0);
    return !fits || (board !== undefined && (fits(board) || proven.has(id)));
  }).flatMap(({ id, qualifier }) => {
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
  if (id !== "switch-matrix" && id !== "lamp-matrix") return [];
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
  const rows = board && ROWS[procedure.id]?.(board);
  const columns = COLUMNS[procedure.id];
  if (procedure.id === "settings") return board ? [switchLayout(procedure, board)] : [];
  if (!columns) return [];
  // A workspace may have a procedure of its own by this name, with other columns.
  const found = columns.filter((column) => procedure.columns.some((spec) => holds(spec, column)));
  const header = found.map(
    (column) => procedure.columns.find((spec) => holds(spec, column))?.headers[0] ?? column,
  );
  const filled = (procedure.id === "inspection" ? inspected(named?.file?.value) : (rows ?? [])).map((row) =>
    found.map((column) => row[column]),
  );
  return [{ name: procedure.title, about: "", header, rows: filled }];
}

const holds = ({ role, measure }: Procedure["columns"][number], column: string): boolean =>
  column === role || column === measure;

type Row = Readonly<Record<string, string | undefined>>;

/** Columns of the tables that are written, by role or measure. */
const COLUMNS: Readonly<Record<string, readonly string[]>> = {
  inspection: ["item", "result", "note"],
  "parts-on-board": ["ref", "part", "circuit", "note"],
  "coil-resistance": ["ref", "item", "resistance", "note"],
  "rom-check": ["ref", "sum16", "crc32", "item", "note"],
  frequency: ["ref", "pin", "frequency", "note"],
  "reset-timing": ["ref", "pin", "delay", "note"],
  "memory-test": ["ref", "result", "note"],
  display: ["item", "result", "note"],
  "resistance-to-ground": ["rail", "resistance", "note"],
  "supply-rails": ["rail", "dc", "ripple", "note"],
  work: ["date", "ref", "action", "part", "note"],
  "parts-fitted": ["part", "quantity", "ref", "note"],
  soak: ["elapsed", "rail", "dc", "result", "note"],
  proving: ["date", "item", "result", "note"],
};

/** Rows the board file names. */
const ROWS: Readonly<Record<string, (board: Board) => readonly Row[]>> = {
  "coil-resistance": ({ coils }) => coils.map(({ driver, title }) => ({ ref: driver, item: title })),
  "rom-check": ({ romSets }) =>
    [...new Set([...romSets.values()].flatMap(({ images }) => images.map(({ ref }) => ref)))].map((ref) => ({
      ref,
    })),
  frequency: ({ clocks }) => clocks.map(({ ref, pin }) => ({ ref, pin })),
  "reset-timing": ({ resets }) => resets.map(({ ref, pin }) => ({ ref, pin })),
  "memory-test": ({ memory }) => memory.map(({ ref }) => ({ ref })),
  proving: ({ proving }) => proving.map(({ title }) => ({ item: title })),
};

/** What to look at first on a board of that age, all of it where no file lists the parts: common practice, no source. */
function inspected(board: Board | undefined): readonly Row[] {
  const refs = [...(board?.parts.keys() ?? [])];
  const battery = board === undefined || board.backups.length > 0 || refs.some((ref) => /^BT?\d/i.test(ref));
  const fuses = board === undefined || refs.some((ref) => /^F\d/i.test(ref));
  return [
    ...(battery ? ["Battery and the board around it"] : []),
    "Headers and their joints",
    "Burnt, bulged or missing parts",
    "Sockets and legs of chips",
    ...(fuses ? ["Fuses, value and wire"] : []),
    "Earlier repairs, cuts and jumpers",
  ].map((item) => ({ item }));
}

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
