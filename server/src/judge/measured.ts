import { memo } from "../base/memo";
import type { LogTable, Reading } from "../log/model";
import type { CellValue } from "../quantity/cell-value";
import { readingsOfAllRows } from "./all-rows";
import { extentOf } from "./compare";
import type { LogContext } from "./context";
import { findRail, railAt } from "./rail-name";
import { uncertaintyOf } from "./uncertainty";

/** A reading that is one finite number, with what is left open about it, in SI base units. */
export interface MeasuredReading {
  readonly value: number;
  readonly uncertainty: number;
}

export function measuredOf(
  reading: Reading | undefined,
  fn: string,
  ctx: LogContext,
): MeasuredReading | undefined {
  const value = reading && single(reading.value);
  return value === undefined || !Number.isFinite(value)
    ? undefined
    : { value, uncertainty: uncertaintyOf(reading!.value, ctx.meter, fn) };
}

/** The one number that was typed, infinite for an open circuit; undefined for a range, a bound or a word. */
export function single(value: CellValue): number | undefined {
  const extent = extentOf(value);
  return extent && extent.low === extent.high ? extent.low : undefined;
}

/** Why nothing can be computed to a guard band with this meter; undefined where it can. */
export function accuracyGap(ctx: LogContext): string | undefined {
  const { meter } = ctx;
  if (!meter || meter.ranges.some((range) => range.accuracy)) return undefined;
  return `The shop file gives no accuracy of ${meter.title}, so how far this reading may be off is not known. Add \`accuracy\` to its ranges.`;
}

/**
 * The readings of a rail that stand with this one: in its table, else in another under the same heading. A measure
 * that stands there several times is left out, since it is not known which belongs to this reading.
 */
export function readingsOfRail(
  name: string,
  reading: Reading,
  near: readonly LogTable[],
  ctx: LogContext,
): (measure: string) => Reading | undefined {
  const board = ctx.board?.value;
  const isOf = (other: Reading): boolean => {
    const rail = board && railAt(other.subject, board);
    return rail !== undefined && board !== undefined && rail.name === findRail(board, name)?.name;
  };
  const isHere = (table: LogTable): boolean =>
    table !== reading.table &&
    table.section === reading.table.section &&
    table.procedure.id === reading.table.procedure.id;
  return (measure) => {
    const among = (tables: readonly LogTable[]): Reading[] =>
      tables.flatMap((table) =>
        readingsOfAllRows(table).filter(
          (other) => other.measure === measure && other.value.kind !== "empty" && isOf(other),
        ),
      );
    const own = among([reading.table]);
    const found = own.length > 0 ? own : among(near.filter(isHere));
    return found.length === 1 ? found[0] : undefined;
  };
}

/** Another measure in the same row: the ripple or the current beside a voltage. */
export const besides = (reading: Reading, measure: string): Reading | undefined =>
  byRow(reading.table)
    .get(reading.row)
    ?.find((other) => other.measure === measure);

/** A long table is not searched again for each of its rows. */
const byRow = memo((table: LogTable): ReadonlyMap<number, readonly Reading[]> => {
  const rows = new Map<number, Reading[]>();
  for (const reading of table.readings) {
    const row = rows.get(reading.row);
    if (row) row.push(reading);
    else rows.set(reading.row, [reading]);
  }
  return rows;
});
