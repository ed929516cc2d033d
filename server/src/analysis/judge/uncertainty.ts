import type { Meter, MeterRange } from "../../knowledge/types";
import type { CellValue } from "../../quantity/cell-value";
import { parseQuantity, type Quantity } from "../../quantity/quantity";

/** The smallest range of a function that holds the value; the largest one where none does. */
export function rangeFor(meter: Meter, fn: string, value: number): MeterRange | undefined {
  const ranges = meter.ranges
    .filter((range) => range.function === fn)
    .map((range) => ({ range, top: siValue(range.range) ?? Number.POSITIVE_INFINITY }))
    .sort((a, b) => a.top - b.top);
  return (ranges.find(({ top }) => Math.abs(value) <= top) ?? ranges.at(-1))?.range;
}

/**
 * Half-width of what the meter's maker allows, in SI base units: percent of reading plus counts of the range's
 * last digit, or of the last digit typed where the range's resolution is not given. Without a meter, half the
 * last digit typed: what rounding alone leaves open.
 */
export function uncertaintyOf(value: CellValue, meter: Meter | undefined, fn: string | undefined): number {
  const quantity = measured(value);
  if (!quantity) return 0;
  const range = meter && fn !== undefined ? rangeFor(meter, fn, quantity.value) : undefined;
  const accuracy = range?.accuracy;
  if (!range || !accuracy) return quantity.resolution / 2;
  const share = siValue(accuracy.reading) ?? 0;
  const digit =
    (range.resolution === undefined ? undefined : siValue(range.resolution)) ?? quantity.resolution;
  return Math.abs(quantity.value) * share + accuracy.counts * digit;
}

/** The meter's open-circuit test voltage on a function, in volts, where the shop file gives it. */
export function testVoltage(meter: Meter | undefined, fn: string): number | undefined {
  const range = meter?.ranges.find((r) => r.function === fn && r.testVoltage !== undefined);
  return range?.testVoltage === undefined ? undefined : siValue(range.testVoltage);
}

export function siValue(text: string, unit?: string): number | undefined {
  const parsed = parseQuantity(text, unit === undefined ? {} : { unit });
  return parsed.ok ? parsed.quantity.value : undefined;
}

function measured(value: CellValue): Quantity | undefined {
  if (value.kind === "quantity" || value.kind === "bound") return value.quantity;
  if (value.kind === "range") return value.high;
  return undefined;
}
