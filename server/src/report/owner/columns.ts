// Tables without the columns in which nothing is written.

export interface Columns<Cell extends string> {
  readonly headers: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/** The first column always stays. */
export function usedColumns<Cell extends string>(
  headers: readonly string[],
  rows: readonly (readonly Cell[])[],
): Columns<Cell> {
  const used = headers.map((_, at) => at === 0 || rows.some((row) => (row[at] ?? "") !== ""));
  const kept = <T>(cells: readonly T[]): readonly T[] => cells.filter((_, at) => used[at]);
  return { headers: kept(headers), rows: rows.map((row) => kept(row)) };
}
