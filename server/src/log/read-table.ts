import { withLater } from "../base/later";
import { once } from "../base/once";
import type { Library } from "../knowledge/library";
import type { ColumnSpec, Procedure } from "../knowledge/types";
import type { Table } from "../syntax/tables";
import { wordsInParts, wordsOfRows } from "../syntax/tables";
import { measureColumn, unitColumn } from "./cell-meaning";
import { marksOf } from "./content/marks";
import { readHeader } from "./headers";
import { inferred } from "./infer-columns";
import { kindOf } from "./kinds";
import { RIPPLE } from "./measures";
import { inMillivolts } from "./millivolts";
import type { CellText, LogTable, Section, Subject, TableColumn } from "./model";
import { partWords } from "./part-words";
import { type Inherited, readRows, subjectReader, type TableHead } from "./read-rows";
import { type BareTable, tableInPieces } from "./table-pieces";

/** A table with how it is to be read: by which procedure, and which of its columns. */
export interface TableView {
  readonly table: Table;
  readonly section: Section;
  readonly procedure: Procedure;
  /** Columns that are not of it. */
  readonly without?: ReadonlySet<number>;
  /** What it is by what it holds. */
  readonly byContent?: () => Procedure | undefined;
  /** Its columns, where its cells stand in another order than they are written. */
  readonly columns?: readonly TableColumn[];
}

/** A table under a heading its procedure claims. Never fails: what it cannot name it leaves unnamed. */
export function readTable(
  { table: source, section, procedure, without, columns: given }: TableView,
  library: Library,
): LogTable {
  const words = wordsOfRows(source);
  const isAboutOnePart =
    section.ref !== undefined || (!given && refOver(source, without, library) !== undefined);
  const { shape, columns } = given
    ? { shape: "long" as const, columns: given }
    : readHeader(procedure, source.header, {
        rows: words,
        isDevice: (text) => library.device(text) !== undefined || library.doubt(text) !== undefined,
        isAboutOnePart,
        infer: (columns, rows) =>
          inferred(
            { procedure, heading: section.heading?.text ?? "", isAboutOnePart },
            columns,
            rows,
            library,
          ),
        without,
      });
  const kind = kindOf(procedure.id);
  const inherited: Inherited = {};
  if (section.ref) inherited.ref = section.ref;
  if (section.part) inherited.part = section.part;
  // "U5 (74LS244) pin" over a column says whose pins they are.
  const whose = columns.find(({ spec }) => spec?.role === "pin")?.header;
  const owner = whose && !given ? partWords(whose, library) : undefined;
  if (owner && !columns.some(({ spec }) => spec?.role === "ref")) Object.assign(inherited, owner);
  const cellSpec = shape === "wide" ? wideSpec(procedure) : undefined;
  const named = { procedure, shape, columns, source };
  const head: TableHead = {
    library,
    section,
    procedure,
    kind,
    shape,
    columns,
    cellSpec,
    unit: unitOf(named, cellSpec),
    // "131 mVAC" beside "5.02 VDC" is what ripples on the rail.
    ripple: procedure.columns.find(({ measure }) => measure === RIPPLE),
    meaning: kind.matrix ? marksOf(words) : undefined,
    measuresAt: given || shape === "wide" ? -1 : measureColumn(named),
    unitsAt: given ? -1 : unitColumn(named),
    turned: given ? { isTurned: true } : {},
  };
  const table = { source, span: source.span, section, procedure, kind, shape, columns, ...head.turned };
  const read = tableInPieces(table, head, inherited);
  return read ?? wholeTable(table, head, inherited);
}

function wholeTable(table: BareTable, head: TableHead, inherited: Inherited): LogTable {
  const read = once(() => readRows(head, table.source.rows, inherited, whole));
  const whole: LogTable = withLater(
    { ...table },
    { readings: () => read().readings, rows: () => read().rows },
  );
  return whole;
}

/** "U5 (74LS244) left" over a column of pins. */
function refOver(
  table: Table,
  without: ReadonlySet<number> | undefined,
  library: Library,
): CellText | undefined {
  const { header } = table;
  const rows = wordsOfRows(table);
  const at = header.cells.findIndex(
    (cell, i) =>
      !without?.has(i) &&
      /\d/.test(cell.text) &&
      partWords(cell, library) !== undefined &&
      rows.length > 1 &&
      rows.every(({ cells }) => /^\d{0,2}$/.test(cells[i]?.text ?? "")),
  );
  const over = header.cells[at];
  return over && partWords(over, library)?.ref;
}

/** The columns of a wide table that name a part each, with what their headers say of it; none of a piece, which has no header. */
export function wideParts({ shape, procedure, columns, isPiece }: LogTable, library: Library): Subject[] {
  if (isPiece || shape !== "wide" || procedure.wide?.columns !== "ref") return [];
  const about = subjectReader(library);
  return columns
    .slice(1)
    .flatMap(({ header, spec }) => (spec || header.text === "" ? [] : [about("ref", header)]));
}

/** The column spec that a wide table's cells follow. */
export function wideSpec(procedure: Procedure): ColumnSpec | undefined {
  const cells = procedure.wide?.cells;
  if (cells === undefined) return undefined;
  return (
    procedure.columns.find((spec) => spec.measure === cells) ??
    procedure.columns.find((spec) => spec.role === cells)
  );
}

/** The unit that the figures of a table without one are in, where that is another than its procedure's. */
function unitOf(
  { procedure, shape, columns, source }: Pick<LogTable, "procedure" | "shape" | "columns" | "source">,
  cellSpec: ColumnSpec | undefined,
): string | undefined {
  if (procedure.meter?.function !== "diode") return undefined;
  const at = columns.flatMap(({ spec, header }, i) =>
    (shape === "wide" ? i > 0 && !spec && header.text !== "" : spec?.role === "reading") ? [i] : [],
  );
  const spec = cellSpec ?? columns[at[0] ?? -1]?.spec;
  return inMillivolts(spec, columns, wordsInParts(source), at) ? "mV" : undefined;
}
