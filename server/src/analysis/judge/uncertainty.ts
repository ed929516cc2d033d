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
 * Half-width of what is left open about a value, in SI base units. With a meter it is what its maker allows
 * (percent of reading plus counts of the range's last digit, or of the last digit typed where the range's
 * resolution is not given), and the rounding on top where fewer digits were typed than the meter shows. Without
 * a meter it is the rounding alone.
 */
export function uncertaintyOf(value: CellValue, meter: Meter | undefined, fn: string | undefined): number {
  const quantity = measured(value);
  if (!quantity) return 0;
  const rounding = roundingOf(value);
  const range = meter && fn !== undefined ? rangeFor(meter, fn, quantity.value) : undefined;
  const accuracy = range?.accuracy;
  if (!range || !accuracy) return rounding;
  const share = siValue(accuracy.reading) ?? 0;
  const shown = range.resolution === undefined ? undefined : siValue(range.resolution);
  const digit = shown ?? quantity.resolution;
  // 1.001: two ways to one decimal number may differ in their last bit.
  const coarse = shown !== undefined && (isApprox(value) || quantity.resolution > shown * 1.001);
  return Math.abs(quantity.value) * share + accuracy.counts * digit + (coarse ? rounding : 0);
}

/**
 * What the digits typed leave open: half of the last one, the whole of it behind "about". 0 where none is typed,
 * and for a bare "0", which is how a reading of 0.000 is written.
 */
export function roundingOf(value: CellValue): number {
  const quantity = measured(value);
  if (!quantity || (quantity.value === 0 && quantity.decimals === 0)) return 0;
  const { resolution } = quantity;
  return isApprox(value) ? resolution : resolution / 2;
}

const isApprox = (value: CellValue): boolean => value.kind === "quantity" && value.approx;

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
