// Values of parts by themselves, or of rails, each beside the wrong name: a column of ohms, farads or volts that slid by a row. Each
// figure is then what its neighbour is marked with.

import { CLEAR_MARGIN } from "../../compute/together/explain";
import { rowMeant, shiftsOf } from "../../compute/together/shifts";
import type { RowRead } from "../../compute/together/types";
import type { LogTable, Reading } from "../../log/model";
import type { Dimension } from "../../quantity/units";
import { extentOf } from "../compare";
import type { LogContext } from "../context";
import { expectedPartValue } from "../passive";
import { railAt } from "../rail-name";
import { testPointOf } from "../test-point";
import { siValue } from "../uncertainty";
import { meantByShift, wholePart } from "./part";
import type { Explained, TableCause } from "./types";

/** Of a value: nearer is it, whatever lies across it. Common practice, no source. */
const NEAR = 0.15;
/** Fewer figures that are a neighbour's may be so by chance, and so may figures of fewer values; longer tables are no list of parts. */
const LEAST = 3;
const LEAST_VALUES = 3;
const MOST_ROWS = 80;
const MOST_SPOILT = 0.25;
const LEAST_FITTING = 0.75;

interface Row extends RowRead {
  readonly reading: Reading;
  /** Absent for rails. */
  readonly ref?: string;
  readonly nominal: number;
}

/** One cause for the column of each quantity, or none. */
export function valuesCauses(table: LogTable, ctx: LogContext): TableCause[] {
  if (table.pieces || table.shape === "wide") return [];
  if (table.kind.judgedBy === "supply") {
    const rails = slid(railsOf(table, ctx), table);
    return rails ? [rails] : [];
  }
  if (table.kind.judgedBy !== "passive") return [];
  return (["resistance", "capacitance"] as const).flatMap(
    (measure) => slid(rowsOf(table, measure, ctx), table) ?? [],
  );
}

function rowsOf(table: LogTable, measure: Dimension, ctx: LogContext): readonly Row[] {
  const own = table.readings.filter((reading) => reading.measure === measure);
  return own.flatMap((reading, at): Row[] => {
    const place = testPointOf(reading.subject, ctx);
    const nominal = place && !reading.subject.pin && expectedPartValue(reading, place, measure)?.nominal;
    if (!place || !nominal) return [];
    const extent = extentOf(reading.value);
    const row = { pin: at + 1, reading, ref: place.ref, nominal, blank: reading.value.kind === "empty" };
    return [extent ? { ...row, value: (extent.low + extent.high) / 2 } : row];
  });
}

function railsOf(table: LogTable, { board }: LogContext): readonly Row[] {
  if (!board) return [];
  const own = table.readings.filter(
    ({ spec, measure }) => spec.quantity === "voltage" && measure !== "ripple",
  );
  return own.flatMap((reading, at): Row[] => {
    const rail = railAt(reading.subject, board.value);
    const nominal = rail && siValue(rail.nominal, "V");
    if (!nominal) return [];
    const extent = extentOf(reading.value);
    const row = { pin: at + 1, reading, nominal, blank: reading.value.kind === "empty" };
    return [extent ? { ...row, value: (extent.low + extent.high) / 2 } : row];
  });
}

const fits = ({ value = 0 }: Row, { nominal }: Row): boolean => Math.abs(value / nominal - 1) <= NEAR;

function slid(rows: readonly Row[], table: LogTable): TableCause | undefined {
  const read = rows.flatMap((row, at) => (row.value === undefined ? [] : [{ row, at }]));
  if (read.length < LEAST || rows.length > MOST_ROWS || read.every(({ row }) => fits(row, row)))
    return undefined;
  for (const cause of shiftsOf(rows)) {
    const under = ({ row, at }: (typeof read)[number]): boolean =>
      fits(row, rows[rowMeant(at, rows.length, cause)] ?? row);
    const explained = read.filter((one) => under(one) && !fits(one.row, one.row));
    const spoilt = read.filter((one) => !under(one) && fits(one.row, one.row));
    const values = new Set(explained.map(({ at }) => rows[rowMeant(at, rows.length, cause)]?.nominal));
    if (explained.length < LEAST || values.size < LEAST_VALUES) continue;
    if (spoilt.length > MOST_SPOILT * explained.length) continue;
    if (read.filter(under).length < LEAST_FITTING * read.length) continue;
    const as = ({ reading, ref }: Row): Explained => (ref === undefined ? { reading } : { reading, ref });
    const [first, ...others] = rows;
    if (!first) return undefined;
    const meant = meantByShift(cause, rows);
    // The column goes as a whole, so that the first part stands for what was read of all.
    const whole = wholePart(
      first.ref,
      rows.map(as),
      explained.map(({ row }) => as(row)),
    );
    const parts = [
      meant ? { ...whole, meant } : whole,
      ...others.map(({ ref }) => ({ ...wholePart(ref, []), meant: [] })),
    ];
    return { cause, table, parts, margin: CLEAR_MARGIN, clear: true };
  }
  return undefined;
}
