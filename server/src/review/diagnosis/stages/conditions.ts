// A table that has several voltages of one place in a row, one for each thing that was done meanwhile: "Line given 12 V" beside "Line at
// rest". What goes together is what stands in one column.

import type { LogBlock, LogTable, Reading } from "../../../log/model";
import { rowAt } from "../../../syntax/tables";

const isVoltage = ({ spec, measure }: Reading): boolean =>
  spec.quantity === "voltage" && measure !== "ripple";

const columnOf = ({ table, row, cell }: Reading): number =>
  rowAt(table.source, row)?.cells.findIndex(({ span }) => span.start === cell.span.start) ?? -1;

/** Columns of voltages of which one row has several of the same place; none where every place stands once. */
function columnsOf(table: LogTable): readonly number[] {
  // What was read again in a long table stands further down.
  if (table.pieces || table.shape === "wide" || table.kind.observedAs !== "pin-powered") return [];
  const seen = new Map<string, number>();
  const columns = new Set<number>();
  for (const reading of table.readings) {
    if (!isVoltage(reading)) continue;
    const { ref, pin } = reading.subject;
    const key = `${reading.row} ${ref?.text ?? ""} ${pin?.text ?? ""}`;
    const column = columnOf(reading);
    const before = seen.get(key);
    if (before !== undefined && before !== column) columns.add(before).add(column);
    seen.set(key, column);
  }
  return [...columns];
}

/**
 * Which readings go together, one condition after the other: all of them at once, or of such a table one column at a time with
 * all that was read elsewhere.
 */
export function conditionsIn({ tables }: LogBlock): readonly ((reading: Reading) => boolean)[] {
  const columns = new Map(
    tables.flatMap((table) => {
      const own = columnsOf(table);
      return own.length > 0 ? [[table, own] as const] : [];
    }),
  );
  if (columns.size === 0) return [() => true];
  const most = Math.max(...[...columns.values()].map((own) => own.length));
  return Array.from({ length: most }, (_, at) => (reading: Reading): boolean => {
    const own = columns.get(reading.table);
    if (!own) return true;
    const column = columnOf(reading);
    return !own.includes(column) || own[at] === column;
  });
}
