import type { ColumnRole } from "../../knowledge/types";
import { refText } from "../../log/read-rows";
import { wideSpec } from "../../log/read-table";
import { splitHeader } from "../../quantity/units";
import { isEmptyWord } from "../../quantity/words";
import { tableLines } from "../shared/table-layout";
import { wordFor } from "./convert-words";
import type { Converted, WideForm } from "./converted";
import { splitNotes } from "./notes";
import { type TableAt, typedRow } from "./table-at";

/** Columns before the cells and behind them: what a row is of, and what is kept beside a reading. */
interface Made {
  readonly row: string;
  readonly column: string;
  readonly cells: readonly string[];
}

/** Undefined where no column holds readings. */
export function toLong(at: TableAt, wide: WideForm): Converted | undefined {
  const { table } = at;
  const { columns, source, procedure } = table;
  const cellSpec = wideSpec(procedure);
  const headers = typedRow(at, source.header);
  const data = columns.flatMap(({ spec, header }, i) => (i > 0 && !spec && header.text !== "" ? [i] : []));
  if (!cellSpec || data.length === 0) return undefined;
  const beside = columns.flatMap(({ spec }, i) => (i > 0 && spec ? [i] : []));
  const noteAt = columns.findIndex(({ spec }) => spec?.role === "note");

  const units = new Set(data.map((i) => columns[i]?.unit ?? ""));
  if (units.size > 1)
    return no("Its columns are in different units, and a long table has one for all readings.");
  const [unit = ""] = units;
  const label = (i: number): string =>
    unit === "" ? (headers[i] ?? "") : splitHeader(headers[i] ?? "").word;
  const nameOf = (i: number): string => {
    const header = columns[i]?.header;
    if (!header) return "";
    return wide.columns === "ref" ? refText(header).text : header.text;
  };
  const names = data.map(nameOf);

  const texts = source.rows.map((row) => typedRow(at, row));
  for (const [i, cells] of texts.entries()) {
    const stray = cells.findIndex(
      (text, c) => text !== "" && c > 0 && !data.includes(c) && !beside.includes(c),
    );
    if (stray >= columns.length)
      return no(`Row ${i + 1} has more cells than the header, and they would be lost.`);
    if (stray >= 0) return no(`What row ${i + 1} has in a column without a header would be lost.`);
    if ((cells[0] ?? "") === "" && cells.some((text) => text !== ""))
      return no(`Row ${i + 1} does not say which ${wordFor(wide.rows)} it is of.`);
  }

  const isDash = (text = "") => text !== "" && isEmptyWord(text);
  const isBare = (cells: readonly string[]) => data.every((c) => isDash(cells[c]));
  const made: Made[] = data.flatMap((c) => {
    // A dash says that there is nothing to be measured; a column or a row of nothing else is kept all the same.
    const bare = texts.every((cells) => isDash(cells[c]));
    return texts.flatMap((cells): Made[] => {
      const text = cells[c] ?? "";
      const row = cells[0] ?? "";
      const own = splitNotes(cells[noteAt] ?? "", names);
      const note = own ? (own.get(nameOf(c)) ?? "") : (cells[noteAt] ?? "");
      if (row === "" || (isDash(text) && !bare && !isBare(cells) && (!own || note === ""))) return [];
      return [
        {
          row,
          column: label(c),
          cells: [text, ...beside.map((i) => (i === noteAt ? note : (cells[i] ?? "")))],
        },
      ];
    });
  });
  if (made.length === 0) return no("There is no cell to be converted yet.");

  const first = columns[0]?.spec ? (headers[0] ?? "") : wordOf(at, wide.rows);
  const rowsFirst = order(at, wide.rows) < order(at, wide.columns);
  if (rowsFirst) {
    const place = new Map(texts.map((cells, i) => [cells[0] ?? "", i]));
    made.sort((a, b) => (place.get(a.row) ?? 0) - (place.get(b.row) ?? 0));
  }
  const pair = <T>(ofRow: T, ofColumn: T): readonly T[] =>
    rowsFirst ? [ofRow, ofColumn] : [ofColumn, ofRow];
  const align = (i: number) => source.delimiter.cells[i]?.align ?? null;
  const reading = cellSpec.headers[0] ?? "Reading";
  return {
    ok: true,
    lines: tableLines({
      header: [
        ...pair(first, wordOf(at, wide.columns)),
        unit === "" ? reading : `${reading} (${unit})`,
        ...beside.map((i) => headers[i] ?? ""),
      ],
      rows: made.map(({ row, column, cells }) => [...pair(row, column), ...cells]),
      columns: [
        ...pair({ align: align(0), numeric: false }, { align: null, numeric: false }),
        { align: align(data[0] ?? 0), numeric: cellSpec.role === "reading" },
        ...beside.map((i) => ({ align: align(i), numeric: columns[i]?.spec?.role === "expected" })),
      ],
      spaced: at.spaced,
    }),
  };
}

/** The word the procedure has for a column of that role. */
const wordOf = ({ table: { procedure } }: TableAt, role: ColumnRole): string =>
  procedure.columns.find((spec) => spec.role === role)?.headers[0] ?? role;

const order = ({ table: { procedure } }: TableAt, role: ColumnRole): number =>
  procedure.columns.findIndex((spec) => spec.role === role);

const no = (reason: string): Converted => ({ ok: false, reason });
