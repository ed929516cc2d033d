import { defined } from "../base/defined";
import { memoText } from "../base/memo";
import { readingUncertainty } from "../compute/measurement/accuracy";
import type { Meter, MeterRange } from "../knowledge/types";
import type { CellValue } from "../quantity/cell-value";
import { parseQuantity, type Quantity } from "../quantity/quantity";

/** The smallest range of a function that holds the value; the largest one where none does. */
export function rangeFor(meter: Meter, fn: string, value: number): MeterRange | undefined {
  const ranges = meter.ranges
    .filter((range) => range.function === fn)
    .map((range) => ({ range, top: siValue(range.range) ?? Number.POSITIVE_INFINITY }))
    .sort((a, b) => a.top - b.top);
  return (ranges.find(({ top }) => Math.abs(value) <= top) ?? ranges.at(-1))?.range;
}

/**
 * Expanded uncertainty U of a value in SI base units, k = 2, by `measurement/accuracy` (JCGM 100). With a meter it
 * comes from what its maker allows (percent of reading plus counts of the range's last digit, or of the last digit
 * typed where the range's resolution is not given), and from the rounding where fewer digits were typed than the
 * meter shows. Without a meter it comes from the rounding alone. 0 where nothing finite was typed.
 */
export function uncertaintyOf(value: CellValue, meter: Meter | undefined, fn: string | undefined): number {
  const quantity = measured(value);
  if (!quantity) return 0;
  const { value: at, resolution } = quantity;
  return uncertaintyAt(
    { value: at, resolution, rounding: roundingOf(value), rough: isApprox(value) },
    meter,
    fn,
  );
}

interface Typed {
  readonly value: number;
  /** One step of the last digit typed. */
  readonly resolution: number;
  /** What the digits leave open; half a step where nothing is said. */
  readonly rounding?: number;
  /** "about" stood before it. */
  readonly rough?: boolean;
}

/** As `uncertaintyOf`, for a number whose cell is no longer at hand, as it is remembered of another log. */
export function uncertaintyAt(
  { value, resolution, rounding = resolution / 2, rough = false }: Typed,
  meter: Meter | undefined,
  fn: string | undefined,
): number {
  const typed = 2 * rounding;
  const range = meter && fn !== undefined ? rangeFor(meter, fn, value) : undefined;
  const accuracy = range?.accuracy;
  const shown = range?.resolution === undefined ? undefined : siValue(range.resolution);
  // 1.001: two ways to one decimal number may differ in their last bit.
  const coarse = shown !== undefined && (rough || resolution > shown * 1.001);
  const result = readingUncertainty(
    defined({
      value,
      accuracy: accuracy ? { reading: siValue(accuracy.reading) ?? 0, counts: accuracy.counts } : undefined,
      digit: shown ?? resolution,
      resolutionTyped: accuracy && !coarse ? 0 : typed,
    }),
  );
  return result.ok ? result.value.expanded : 0;
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

/**
 * A typed quantity as a number in base units. `unit` is assumed where none is typed; undefined for what is no quantity.
 */
export function siValue(text: string, unit?: string): number | undefined {
  let known = valuesIn.get(unit);
  if (!known) {
    known = memoText((typed) => {
      const parsed = parseQuantity(typed, unit === undefined ? {} : { unit });
      return parsed.ok ? parsed.quantity.value : undefined;
    });
    valuesIn.set(unit, known);
  }
  return known(text);
}

/** The same few limits are asked for again and again. */
const valuesIn = new Map<string | undefined, (text: string) => number | undefined>();

function measured(value: CellValue): Quantity | undefined {
  if (value.kind === "quantity" || value.kind === "bound") return value.quantity;
  if (value.kind === "range") return value.high;
  return undefined;
}
