import { formatQuantity } from "./format";

/**
 * A value as it is said at the bench: engineering notation, but tenths of a volt stay volts (0.58 V, as the
 * meter shows a drop) and big capacitors stay in microfarads. `value` is in the unit given, without a prefix.
 */
export function formatValue(value: number, unit: string): string {
  const size = Math.abs(value);
  if (unit === "V" && size >= 0.1 && size < 1) return `${trimmed(value, 4)} V`;
  // Frequencies are told apart by their last digits: 100 ppm of 894886.25 Hz is 89 Hz.
  if (unit === "Hz") return formatQuantity(value, unit, { digits: 7 });
  if (unit === "F" && size >= 1e-3 && size < 1) return `${trimmed(value * 1e6, 4)} µF`;
  return formatQuantity(value, unit);
}

/** Two significant digits: more would claim to know the uncertainty itself better than it is (common practice, no source). */
export const sayUncertainty = (value: number, unit: string): string =>
  formatValue(Number(value.toPrecision(2)), unit);

const trimmed = (value: number, digits: number): string => String(Number(value.toPrecision(digits)));
