// What the log itself has named so far in columns of one kind, whether or not anybody knows more of it.
import type { ColumnRole } from "../../knowledge/types";
import { tablesOf } from "../../log/document";
import type { CellPosition } from "../../log/position";
import type { LogView } from "../view";

/** The words of cells of these roles, each once in the order of the log; the row that is being typed does not count. */
export function namedIn({ doc }: LogView, roles: readonly ColumnRole[], at: CellPosition): string[] {
  const found = new Set<string>();
  for (const { table } of tablesOf(doc)) {
    for (const { index, cells } of table.rows) {
      if (table === at.table && index === at.row) continue;
      for (const role of roles) {
        const text = cells[role]?.text.trim() ?? "";
        if (text !== "") found.add(text);
      }
    }
  }
  return [...found];
}
