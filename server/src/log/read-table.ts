import type { ColumnRole, ColumnSpec, Procedure } from "../knowledge/types";
import { type CellWant, parseCell } from "../quantity/cell-value";
import type { Cell, Row, Table } from "../syntax/tables";
import { span } from "../text/span";
import { type Apart, apartIn } from "./apart";
import { isMeasured, readHeader } from "./headers";
import type { CellText, LogRow, LogTable, Reading, Section, Subject, TableColumn } from "./model";

type Draft<T> = { -readonly [K in keyof T]: T[K] };

/** Roles that say what a row is about, and so may be left blank under a cell that said it already. */
const INHERITED: ReadonlySet<ColumnRole> = new Set(["ref"]);

/** A table under a heading its procedure claims. Never fails: what it cannot name it leaves unnamed. */
export function readTable(source: Table, section: Section, procedure: Procedure): LogTable {
  const { shape, columns } = readHeader(procedure, source.header);
  const readings: Reading[] = [];
  const rows: LogRow[] = [];
  const table: LogTable = { source, span: source.span, section, procedure, shape, columns, readings, rows };
  const cellSpec = shape === "wide" ? wideSpec(procedure) : undefined;
  const inherited: Draft<Subject> = {};
  if (section.ref) inherited.ref = section.ref;

  source.rows.forEach((row, index) => {
    const subject = shape === "wide" ? wideSubject(procedure, row) : longSubject(columns, row, inherited);
    const push = (cell: Cell, spec: ColumnSpec, about: Subject, column: TableColumn | undefined) => {
      const value = parseCell(cell.text, wanted(spec, column));
      const apart = apartOf(section, about);
      readings.push({
        table,
        row: index,
        subject: about,
        spec,
        measure: spec.measure ?? spec.role,
        value,
        cell,
        ...(apart.length > 0 ? { apart } : {}),
      });
    };
    row.cells.forEach((cell, at) => {
      const column = columns[at];
      if (!column) return;
      if (cellSpec && procedure.wide) {
        // A column without a header says nothing of what its cells are about.
        if (at === 0 || column.spec || column.header.text === "") return;
        const role = procedure.wide.columns;
        push(cell, cellSpec, { ...subject, [role]: subjectText(role, column.header) }, column);
      } else if (column.spec && isMeasured(column.spec.role)) {
        push(cell, column.spec, subject, column);
      }
    });
    rows.push({ index, span: row.span, cells: subject });
  });
  return table;
}

/** The heading speaks for every row; what a row's note says of a part comes on top. */
function apartOf({ apart: ofAll = [] }: Section, { note }: Subject): readonly Apart[] {
  const own = note ? apartIn(note.text) : [];
  return own.length === 0 ? ofAll : [...ofAll, ...own];
}

function longSubject(columns: readonly TableColumn[], row: Row, inherited: Draft<Subject>): Subject {
  const subject: Draft<Subject> = { ...inherited };
  row.cells.forEach((cell, at) => {
    const role = columns[at]?.spec?.role;
    if (!role || role === "reading" || cell.text === "") return;
    const text = subjectText(role, cell);
    subject[role] = text;
    if (INHERITED.has(role)) inherited[role] = text;
  });
  return subject;
}

function wideSubject(procedure: Procedure, row: Row): Subject {
  const first = row.cells[0];
  if (!first || !procedure.wide || first.text === "") return {};
  const role = procedure.wide.rows;
  return { [role]: subjectText(role, first) };
}

const subjectText = (role: ColumnRole, cell: Cell): CellText =>
  role === "ref" ? refText(cell) : cellText(cell);

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

function wanted(spec: ColumnSpec, column: TableColumn | undefined): CellWant {
  if (spec.role === "state") return { kind: "state" };
  if (spec.role === "result") return { kind: "result" };
  if (spec.role === "check") return { kind: "text" };
  const unit = column?.unit ?? spec.unit;
  return {
    kind: "quantity",
    ...(unit === undefined ? {} : { unit }),
    ...(spec.signed === undefined ? {} : { signed: spec.signed }),
  };
}
