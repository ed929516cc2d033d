// The tables as SQL, for a server that is to hold what several shops exported.
import { type ColumnType, EXPORT_TABLES, EXPORT_VERSION, exportedColumns, TABLE_NAMES } from "./schema";

const SQL_TYPES: Readonly<Record<ColumnType, string>> = {
  text: "VARCHAR",
  integer: "INTEGER",
  number: "DOUBLE PRECISION",
  boolean: "BOOLEAN",
  date: "DATE",
};

/** `CREATE TABLE` for every table with the columns that were exported. */
export function createTables(withOwner: boolean): string {
  const tables = TABLE_NAMES.map((table) => {
    const columns = exportedColumns(table, withOwner).map(
      ({ name, type, required }) => `  ${name} ${SQL_TYPES[type]}${required ? " NOT NULL" : ""}`,
    );
    return `-- ${EXPORT_TABLES[table].says}\nCREATE TABLE ${table} (\n${columns.join(",\n")}\n);\n`;
  });
  return [
    `-- The tables of a Mendlog export, version ${EXPORT_VERSION} of the schema; docs/export.md says what is in them.\n-- VARCHAR without a length is of SQL:2023 (T081, from memory); DuckDB and PostgreSQL both had it before.\n`,
    ...tables,
  ].join("\n");
}
