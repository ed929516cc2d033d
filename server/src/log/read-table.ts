import { defined } from "../base/defined";
import type { Library } from "../knowledge/library";
import type { ColumnRole, ColumnSpec, Procedure } from "../knowledge/types";
import type { CellWant } from "../quantity/cell-value";
import type { Cell, Row, Table } from "../syntax/tables";
import { span } from "../text/span";
import { isAlternating, measureColumn, measureNamed, unitColumn, valueIn } from "./cell-meaning";
import { marksOf } from "./content/marks";
import { type Disconnection, disconnectionsIn } from "./disconnections";
import { isMeasured, readHeader } from "./headers";
import { inferred } from "./infer-columns";
import { kindOf } from "./kinds";
import { COIL_DIODE, CONTINUITY, RIPPLE } from "./measures";
import { inMillivolts } from "./millivolts";
import type { CellText, LogRow, LogTable, Reading, Section, Subject, TableColumn } from "./model";
import { partWords } from "./part-words";

type Draft<T> = { -readonly [K in keyof T]: T[K] };

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
  const isAboutOnePart = section.ref !== undefined || refOver(source, without, library) !== undefined;
  const { shape, columns } = given
    ? { shape: "long" as const, columns: given }
    : readHeader(procedure, source.header, {
        rows: source.rows,
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
  const readings: Reading[] = [];
  const rows: LogRow[] = [];
  const kind = kindOf(procedure.id);
  const table: LogTable = {
    source,
    span: source.span,
    section,
    procedure,
    kind,
    shape,
    columns,
    readings,
    rows,
    ...(given ? { isTurned: true as const } : {}),
  };
  const cellSpec = shape === "wide" ? wideSpec(procedure) : undefined;
  const inherited: Draft<Subject> = {};
  if (section.ref) inherited.ref = section.ref;
  if (section.part) inherited.part = section.part;
  const about = subjectReader(library);
  // "U5 (74LS244) pin" over a column says whose pins they are.
  const whose = columns.find(({ spec }) => spec?.role === "pin")?.header;
  const owner = whose && !given ? partWords(whose, library) : undefined;
  if (owner && !columns.some(({ spec }) => spec?.role === "ref")) Object.assign(inherited, owner);
  const unit = unitOf(table, cellSpec);
  // "131 mVAC" beside "5.02 VDC" is what ripples on the rail.
  const ripple = procedure.columns.find(({ measure }) => measure === RIPPLE);
  const meaning = kind.matrix ? marksOf(source.rows) : undefined;
  const measures = given || shape === "wide" ? -1 : measureColumn(table);
  const named = (row: Row): ColumnSpec | undefined =>
    measures < 0 ? undefined : measureNamed(procedure, row.cells[measures]?.text ?? "");
  const unitsAt = given ? -1 : unitColumn(table);

  source.rows.forEach((row, index) => {
    const said =
      shape === "wide"
        ? wideSubject(procedure, row, about)
        : longSubject(columns, row, kind.rowsAlone ? {} : inherited, about);
    const ofAll = section.partOfAll;
    const subject = ofAll && said.ref && !said.part ? { ...said, part: ofAll } : said;
    const push = (cell: Cell, spec: ColumnSpec, about: Subject, column: TableColumn | undefined) => {
      const value = valueIn(cell.text, wanted(spec, column, unit), {
        meaning: spec.role === "result" ? meaning : undefined,
        unit: spec.role === "reading" ? row.cells[unitsAt]?.text : undefined,
      });
      const read = isAlternating(value) ? (ripple ?? spec) : spec;
      const apart = apartOf(section, about);
      readings.push(
        defined({
          table,
          row: index,
          subject: about,
          spec: read,
          measure: read.measure ?? read.role,
          value,
          cell,
          apart: apart.length > 0 ? apart : undefined,
        }),
      );
    };
    row.cells.forEach((cell, at) => {
      const column = columns[at];
      if (!column) return;
      if (cellSpec && procedure.wide) {
        // A column without a header says nothing of what its cells are about.
        if (at === 0 || column.spec || column.header.text === "") return;
        push(cell, cellSpec, { ...subject, ...about(procedure.wide.columns, column.header) }, column);
      } else if (column.spec && isMeasured(column.spec.role)) {
        push(cell, named(row) ?? column.spec, subject, column);
      }
    });
    rows.push({ index, span: row.span, cells: subject });
  });
  return table;
}

/** "U5 (74LS244) left" over a column of pins. */
function refOver(
  { header, rows }: Table,
  without: ReadonlySet<number> | undefined,
  library: Library,
): CellText | undefined {
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

/** The heading speaks for every row; what a row's note says of a part comes on top. */
function apartOf({ apart: ofAll = [] }: Section, { note }: Subject): readonly Disconnection[] {
  const own = note ? disconnectionsIn(note.text) : [];
  return own.length === 0 ? ofAll : [...ofAll, ...own];
}

type SubjectReader = (role: ColumnRole, cell: Cell) => Subject;

/**
 * What one cell says a row is about. A designator may have its pin or its number beside it, and a pin may have its
 * designator in front.
 */
const subjectReader =
  (library: Library): SubjectReader =>
  (role, cell) => {
    const words = role === "ref" || role === "pin" ? partWords(cell, library) : undefined;
    if (role === "pin") return words?.pin ? { ...words } : { pin: cellText(cell) };
    return role === "ref" ? { ref: cellText(cell), ...words } : { [role]: cellText(cell) };
  };

/** What a row leaves blank of its part stands in the rows above it; a part of its own has a number of its own. */
function longSubject(
  columns: readonly TableColumn[],
  row: Row,
  inherited: Draft<Subject>,
  about: SubjectReader,
): Subject {
  const own: Draft<Subject> = {};
  const beside: Draft<Subject> = {};
  columns.forEach(({ spec }, at) => {
    const cell = row.cells[at];
    if (!spec || spec.role === "reading" || !cell || cell.text === "") return;
    const { [spec.role]: text, ...more } = about(spec.role, cell);
    if (text) own[spec.role] = text;
    Object.assign(beside, more);
  });
  // A column of its own says more than what stands beside something else.
  const said = { ...own, ...beside, ...own };
  if (said.ref) {
    inherited.ref = said.ref;
    delete inherited.part;
  }
  if (said.part) inherited.part = said.part;
  return said.ref ? said : { ...inherited, ...said };
}

function wideSubject(procedure: Procedure, row: Row, about: SubjectReader): Subject {
  const first = row.cells[0];
  if (!first || !procedure.wide || first.text === "") return {};
  return about(procedure.wide.rows, first);
}

/** The columns of a wide table that name a part each, with what their headers say of it. */
export function wideParts({ shape, procedure, columns }: LogTable, library: Library): Subject[] {
  if (shape !== "wide" || procedure.wide?.columns !== "ref") return [];
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

export const cellText = (cell: Cell): CellText => ({ text: cell.text, span: cell.span });

/** The designator at the start of a cell: "U14" of "U14 (74LS04)"; the whole cell where there is none. */
export function refText(cell: Cell): CellText {
  const match = /^[A-Za-z]{1,4}\d{1,4}[A-Za-z]?(?![\w.])/.exec(cell.text);
  if (!match) return cellText(cell);
  return { text: match[0], span: span(cell.span.start, cell.span.start + match[0].length) };
}

/** The unit that the figures of a table without one are in, where that is another than its procedure's. */
function unitOf(
  { procedure, shape, columns, source }: LogTable,
  cellSpec: ColumnSpec | undefined,
): string | undefined {
  if (procedure.meter?.function !== "diode") return undefined;
  const at = columns.flatMap(({ spec, header }, i) =>
    (shape === "wide" ? i > 0 && !spec && header.text !== "" : spec?.role === "reading") ? [i] : [],
  );
  const spec = cellSpec ?? columns[at[0] ?? -1]?.spec;
  return inMillivolts(spec, columns, source.rows, at) ? "mV" : undefined;
}

function wanted(spec: ColumnSpec, column: TableColumn | undefined, usual: string | undefined): CellWant {
  if (spec.role === "state") return { kind: "state" };
  if (spec.role === "result") return { kind: "result" };
  if (spec.role === "check") return { kind: "text" };
  const unit = column?.unit ?? usual ?? spec.unit;
  return defined({
    kind: "quantity",
    unit,
    signed: spec.signed,
    beeps: spec.measure === CONTINUITY ? true : undefined,
    pairs: spec.measure === COIL_DIODE ? true : undefined,
  });
}
