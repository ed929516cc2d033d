// The writer of Parquet files. It is bundled as a file of its own, `dist/parquet.cjs`, and loaded when a Parquet file is
// written: no other command has a use for it.
import { ByteWriter, parquetWrite } from "hyparquet-writer";
import type { ColumnType, ExportColumn, ExportValue } from "../../report/export/schema";

export interface ParquetTable {
  readonly columns: readonly ExportColumn[];
  /** For each column its cells, all of the same length. */
  readonly data: readonly (readonly ExportValue[])[];
  /** Kept in the file beside the table. */
  readonly about: Readonly<Record<string, string>>;
}

/** Makes the bytes of a Parquet file of one table. */
export type ParquetWriter = (table: ParquetTable) => Uint8Array;

/** How Parquet names a column's type: physical, and what it stands for. */
const TYPES = {
  text: { type: "BYTE_ARRAY", converted_type: "UTF8" },
  integer: { type: "INT32" },
  number: { type: "DOUBLE" },
  boolean: { type: "BOOLEAN" },
  date: { type: "INT32", converted_type: "DATE" },
} as const satisfies Readonly<Record<ColumnType, object>>;

/** Columns without a value in every row are optional; days are written as Parquet's own dates. */
export const writeParquet: ParquetWriter = ({ columns, data, about }) => {
  const writer = new ByteWriter();
  parquetWrite({
    writer,
    schema: [
      { name: "root", num_children: columns.length },
      ...columns.map(({ name, type, required }) => ({
        name,
        ...TYPES[type],
        repetition_type: required ? ("REQUIRED" as const) : ("OPTIONAL" as const),
      })),
    ],
    columnData: columns.map(({ name, type }, at) => ({
      name,
      data: type === "date" ? (data[at] ?? []).map(dayOf) : [...(data[at] ?? [])],
    })),
    kvMetadata: Object.entries(about).map(([key, value]) => ({ key, value })),
    createdBy: "mendlog",
  });
  return new Uint8Array(writer.getBuffer());
};

const dayOf = (day: ExportValue): Date | null => (day === null ? null : new Date(`${String(day)}T00:00:00Z`));
