import { isMeasured } from "../../log/headers";
import { wideSpec } from "../../log/read-table";
import { splitHeader } from "../../quantity/units";
import { byRef } from "../shared/describe";
import { tableLines } from "../shared/table-layout";
import { wordFor } from "./convert-words";
import type { Converted, WideForm } from "./converted";
import { joinNotes } from "./notes";
import { type TableAt, typedRow } from "./table-at";

/** Stands where the long table had no row. */
export const NOT_MEASURED = "-";

/** Undefined where the table has not the columns that a wide one is made of. */
export function toWide(at: TableAt, wide: WideForm): Converted | undefined {
  const { table } = at;
  const { columns, source } = table;
  const cellSpec = wideSpec(table.procedure);
  const indexOf = (role: string) => columns.findIndex(({ spec }) => spec?.role === role);
  const measured = columns.flatMap(({ spec }, i) => (spec && isMeasured(spec.role) ? [i] : []));
  const value = measured.find((i) => columns[i]?.spec === cellSpec);
  const [rowAt, columnAt, noteAt] = [indexOf(wide.rows), indexOf(wide.columns), indexOf("note")];
  if (!cellSpec || value === undefined || rowAt < 0) return undefined;

  const texts = source.rows.map((row) => typedRow(at, row));
  // The number on a part goes over its column, behind the designator.
  const numberAt = wide.columns === "ref" ? indexOf("part") : -1;
  const placed = new Set([value, rowAt, columnAt, noteAt, numberAt]);
  const names = columns.map(({ header }) => header.text);
  const grid = new Map<string, Map<string, { value: string; note: string }>>();
  const labels = new Map<string, string>();
  for (const [i, cells] of texts.entries()) {
    if (cells.every((text) => text === "")) continue;
    const number = i + 1;
    const left = cells.findIndex((text, c) => text !== "" && !placed.has(c));
    if (left >= 0) return no(homeless(names[left], number));
    const subject = table.rows[i]?.cells ?? {};
    const column = subject[wide.columns]?.text;
    const row = cells[rowAt] ?? "";
    if (column === undefined || row === "")
      return no(
        `Row ${number} does not say which ${wordFor(column === undefined ? wide.columns : wide.rows)} it is of.`,
      );
    const said = (columnAt >= 0 ? cells[columnAt] : "") || column;
    const printed = numberAt >= 0 ? (cells[numberAt] ?? "") : "";
    const label = printed !== "" && said === column ? `${column} (${printed})` : said;
    const before = labels.get(column) ?? column;
    if (before !== column && label !== column && label !== before)
      return no(
        `${column} is written in two ways, as "${before}" and "${label}", and a column has one header.`,
      );
    labels.set(column, before === column ? label : before);
    const line = grid.get(row) ?? new Map<string, { value: string; note: string }>();
    if (line.has(column))
      return no(`${column} ${wide.rows} ${row} is there twice, and a wide table has one cell for it.`);
    grid.set(
      row,
      line.set(column, { value: cells[value] ?? "", note: noteAt >= 0 ? (cells[noteAt] ?? "") : "" }),
    );
  }
  if (grid.size === 0) return no("There is no row to be converted yet.");

  const unit = columns[value]?.unit;
  const withUnit = (label: string): string =>
    unit === undefined || unit === cellSpec.unit || splitHeader(label).unit !== undefined
      ? label
      : `${label} (${unit})`;
  const rowNames = [...grid.keys()];
  // Pins are counted; the lines of a matrix may have names, whose order is the writer's.
  if (rowNames.every((name) => /^\d/.test(name))) rowNames.sort(byRef);
  const columnNames = [...labels.keys()];
  const notes = rowNames.map((name) =>
    joinNotes(
      [...(grid.get(name) ?? [])].map(([column, { note }]) => [column, note] as const),
      columnNames,
    ),
  );
  const hasNotes = notes.some((note) => note !== "");
  const rowHeader = typedRow(at, source.header)[rowAt] ?? "";
  return {
    ok: true,
    lines: tableLines({
      header: [
        rowHeader,
        ...columnNames.map((name) => withUnit(labels.get(name) ?? name)),
        ...(hasNotes ? [noteHeader(at, noteAt)] : []),
      ],
      rows: rowNames.map((name, i) => [
        name,
        ...columnNames.map((column) => grid.get(name)?.get(column)?.value ?? NOT_MEASURED),
        ...(hasNotes ? [notes[i] ?? ""] : []),
      ]),
      columns: [
        { align: source.delimiter.cells[rowAt]?.align ?? null, numeric: false },
        ...columnNames.map(() => ({
          align: source.delimiter.cells[value]?.align ?? null,
          numeric: cellSpec.role === "reading",
        })),
        ...(hasNotes ? [{ align: source.delimiter.cells[noteAt]?.align ?? null, numeric: false }] : []),
      ],
      spaced: at.spaced,
    }),
  };
}

const noteHeader = (at: TableAt, noteAt: number): string =>
  typedRow(at, at.table.source.header)[noteAt] ?? "Note";

const homeless = (header: string | undefined, row: number): string =>
  header === undefined
    ? `Row ${row} has more cells than the header, and they would be lost.`
    : `A wide table has no place for what row ${row} has ${header === "" ? "in a column without a header" : `under "${header}"`}.`;

const no = (reason: string): Converted => ({ ok: false, reason });
