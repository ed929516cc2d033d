import type { Reading } from "../../../log/model";
import type { Cell } from "../../../syntax/tables";

/** The header of the column that a reading stands in. */
export function headerOver({ table, cell }: Pick<Reading, "table" | "cell">): Cell | undefined {
  const row = table.source.rows.find(({ cells }) => cells.includes(cell));
  return table.source.header.cells[row?.cells.indexOf(cell) ?? -1];
}
