// Which tables were taken since the board was last worked on: what was proven before that is no longer proven.
import { type LogDocument, tablesOf } from "../../log/document";
import type { LogBlock, LogTable } from "../../log/model";
import { isPlanned } from "../../log/planned";

export interface PlacedTable {
  readonly table: LogTable;
  readonly block: LogBlock;
  /** Offset of the table's block in the document. */
  readonly start: number;
}

export interface LastRepair {
  /** Offset in the document behind which a table is later than the last work; -1 where no work was done. */
  readonly end: number;
  /** The latest ISO 8601 day written beside work. */
  readonly date?: string;
}

const DAY = /^\d{4}-\d{2}-\d{2}$/;

export function lastRepair(doc: LogDocument): LastRepair {
  let end = -1;
  let date: string | undefined;
  for (const { start, table } of tablesOf(doc)) {
    if (table.kind.holds !== "work") continue;
    const done = table.rows.filter(
      ({ cells }) => (cells.action || cells.ref) && !isPlanned(cells.action?.text ?? ""),
    );
    if (done.length === 0) continue;
    end = start + table.span.end;
    for (const { cells } of done) {
      const day = cells.date?.text ?? "";
      if (DAY.test(day) && (date === undefined || day > date)) date = day;
    }
  }
  return { end, ...(date === undefined ? {} : { date }) };
}

/** By its heading where that says before or after, else by standing below the last work. */
export function isSince({ table, start }: PlacedTable, repair: LastRepair): boolean {
  const { repair: said } = table.section.qualifiers;
  return said === undefined ? start + table.span.start > repair.end : said === "after";
}

/** By the row's own day where both have one, else by its table. */
export function isRowSince(placed: PlacedTable, row: number, repair: LastRepair): boolean {
  const day = placed.table.rows.find(({ index }) => index === row)?.cells.date?.text ?? "";
  return repair.date !== undefined && DAY.test(day) ? day >= repair.date : isSince(placed, repair);
}
