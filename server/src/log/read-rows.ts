// The rows of a table, one after another: what each is about, and what was read there.
import { defined } from "../base/defined";
import type { Library } from "../knowledge/library";
import type { ColumnRole, ColumnSpec, Procedure } from "../knowledge/types";
import type { CellWant } from "../quantity/cell-value";
import type { Cell, Row } from "../syntax/tables";
import { span } from "../text/span";
import { isAlternating, measureNamed, valueIn } from "./cell-meaning";
import { isDitto } from "./cell-text";
import { type Disconnection, disconnectionsIn } from "./disconnections";
import { subjectFromHead } from "./from-head";
import { isMeasured } from "./headers";
import type { TableKind } from "./kinds/kind";
import { COIL_DIODE, CONTINUITY } from "./measures";
import type { CellText, LogRow, LogTable, Reading, Section, Subject, TableColumn } from "./model";
import { partWords } from "./part-words";

type Draft<T> = { -readonly [K in keyof T]: T[K] };

/** What a row without a part of its own takes over from those above it. */
export type Inherited = Draft<Pick<Subject, "ref" | "part" | "pin">>;

/** What every row of a table is read by. */
export interface TableHead {
  readonly library: Library;
  readonly section: Section;
  readonly procedure: Procedure;
  readonly kind: TableKind;
  readonly shape: LogTable["shape"];
  readonly columns: readonly TableColumn[];
  /** What the cells of a wide table are. */
  readonly cellSpec: ColumnSpec | undefined;
  /** Of figures without one, where that is another than the procedure's. */
  readonly unit: string | undefined;
  /** What ripples on a rail beside its voltage. */
  readonly ripple: ColumnSpec | undefined;
  /** What a mark in a grid stands for. */
  readonly meaning: ((text: string) => string) | undefined;
  /** The columns that say what is measured, and in which unit; -1 where none does. */
  readonly measuresAt: number;
  readonly unitsAt: number;
  /** What is to be said of a table that stands otherwise than it was written. */
  readonly turned: Pick<LogTable, "isTurned">;
}

/**
 * The readings and the named cells of rows of a table, in order.
 * @param inherited what the rows above leave to these, written over with what these leave to the next
 * @param table what the readings are said to be of
 */
export function readRows(
  head: TableHead,
  rows: readonly Row[],
  inherited: Inherited,
  table: LogTable,
): { readonly readings: readonly Reading[]; readonly rows: readonly LogRow[] } {
  const { section, procedure, kind, shape, columns, cellSpec, unit, ripple, meaning, unitsAt, measuresAt } =
    head;
  const readings: Reading[] = [];
  const about = subjectReader(head.library);
  const isPiece = table.isPiece === true;
  const ofAll =
    isPiece && section.partOfAll ? subjectFromHead({ part: section.partOfAll }).part : section.partOfAll;
  const overCells = columns.map(({ header, spec }) => {
    if (!cellSpec || !procedure.wide || spec || header.text === "") return {};
    const over = about(procedure.wide.columns, header);
    return isPiece ? subjectFromHead(over) : over;
  });
  const named = (row: Row): ColumnSpec | undefined =>
    measuresAt < 0 ? undefined : measureNamed(procedure, row.cells[measuresAt]?.text ?? "");
  const read = rows.map((row, index): LogRow => {
    const said =
      shape === "wide"
        ? wideSubject(procedure, row, about)
        : longSubject(columns, row, kind.rowsAlone ? {} : inherited, about);
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
        push(cell, cellSpec, { ...subject, ...overCells[at] }, column);
      } else if (column.spec && isMeasured(column.spec.role)) {
        push(cell, named(row) ?? column.spec, subject, column);
      }
    });
    return { index, span: row.span, cells: subject };
  });
  return { readings, rows: read };
}

/** The heading speaks for every row; what a row's note says of a part comes on top. */
function apartOf({ apart: ofAll = [] }: Section, { note }: Subject): readonly Disconnection[] {
  const own = note ? disconnectionsIn(note.text) : [];
  return own.length === 0 ? ofAll : [...ofAll, ...own];
}

/** What one cell says, by its role. */
export type SubjectReader = (role: ColumnRole, cell: Cell) => Subject;

/**
 * What one cell says a row is about. A designator may have its pin or its number beside it, and a pin may have its
 * designator in front.
 */
export const subjectReader =
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
  inherited: Inherited,
  about: SubjectReader,
): Subject {
  const own: Draft<Subject> = {};
  const beside: Draft<Subject> = {};
  columns.forEach(({ spec }, at) => {
    const cell = row.cells[at];
    if (!spec || spec.role === "reading" || !cell || cell.text === "") return;
    // What the row above says of its part stands here too.
    if (spec.role === "ref" && inherited.ref && isDitto(cell.text)) return;
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

export const cellText = (cell: Cell): CellText => ({ text: cell.text, span: cell.span });

/** The designator at the start of a cell: "U14" of "U14 (74LS04)"; the whole cell where there is none. */
export function refText(cell: Cell): CellText {
  const match = /^[A-Za-z]{1,4}\d{1,4}[A-Za-z]?(?![\w.])/.exec(cell.text);
  if (!match) return cellText(cell);
  return { text: match[0], span: span(cell.span.start, cell.span.start + match[0].length) };
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
