// Gathers rows log by log, column by column, as both kinds of file want them in the end.
import {
  type ExportColumn,
  type ExportValue,
  exportedColumns,
  exportValues,
  type Rows,
  TABLE_NAMES,
  type TableName,
} from "./schema";

/** The cells of one table, column by column as Parquet wants them. */
export interface Gathered {
  readonly columns: readonly ExportColumn[];
  /** A column's cells in the order of the rows. */
  readonly data: readonly ExportValue[][];
}

/** Every table of the export, filled as logs come by. */
export type Tables = ReadonlyMap<TableName, Gathered>;

/** Empty tables with the columns that are to go out. */
export const emptyTables = (withOwner: boolean): Tables =>
  new Map(
    TABLE_NAMES.map((table) => {
      const columns = exportedColumns(table, withOwner);
      return [table, { columns, data: columns.map(() => []) }];
    }),
  );

/** Puts a log's rows behind those that are there; tables that it has no rows for stay as they are. */
export function addRows(tables: Tables, rows: Partial<Rows>): void {
  for (const [table, { columns, data }] of tables)
    for (const row of rows[table] ?? [])
      for (const [at, cell] of exportValues(row, columns).entries()) data[at]?.push(cell);
}

/** How many rows have been gathered so far. */
export const rowCount = ({ data }: Gathered): number => data[0]?.length ?? 0;

/** One JSON object a line (newline-delimited JSON), every column in each. */
export function ndjson(table: Gathered): string {
  const { columns, data } = table;
  const keys = columns.map(({ name }) => `${JSON.stringify(name)}:`);
  const lines: string[] = [];
  for (let row = 0; row < rowCount(table); row++)
    lines.push(`{${keys.map((key, at) => key + JSON.stringify(data[at]?.[row] ?? null)).join(",")}}\n`);
  return lines.join("");
}
