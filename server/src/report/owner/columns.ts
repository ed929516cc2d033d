// Tables without the columns in which nothing is written.

export interface Columns {
  readonly headers: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** The first column always stays. */
export function usedColumns(headers: Columns["headers"], rows: Columns["rows"]): Columns {
  const used = headers.map((_, at) => at === 0 || rows.some((row) => (row[at] ?? "") !== ""));
  const kept = (cells: readonly string[]): readonly string[] => cells.filter((_, at) => used[at]);
  return { headers: kept(headers), rows: rows.map(kept) };
}
