// Readings and their limits as text.
import type { Judgement } from "../../judge";
import type { Reading } from "../../log/model";
import { formatQuantity, formatTyped } from "../../quantity/format";

/** "0.4 V to 0.7 V", "at most 50 mV"; undefined where the verdict had no limits. */
export function limitsText({ reference }: Pick<Judgement, "reference">): string | undefined {
  if (!reference) return undefined;
  const { low, high, unit } = reference;
  const text = (value: number): string => formatQuantity(value, unit);
  if (low !== undefined && high !== undefined) return `${text(low)} to ${text(high)}`;
  if (high !== undefined) return `at most ${text(high)}`;
  return low === undefined ? undefined : `at least ${text(low)}`;
}

/** "0.4 V" and "0.7 V", where both are known. */
export function endsOf({ reference }: Pick<Judgement, "reference">): readonly [string, string] | undefined {
  if (reference?.low === undefined || reference.high === undefined) return undefined;
  return [formatQuantity(reference.low, reference.unit), formatQuantity(reference.high, reference.unit)];
}

/** "ripple ", "B-E ": which of a procedure's readings it is, where there are several and this is not the first. */
export function measureWords({ spec, table: { procedure } }: Reading): string {
  const all = procedure.columns.filter(({ role }) => role === "reading");
  const alike = all.filter(({ quantity }) => quantity === spec.quantity);
  // A rail's volts and a chip's drop need no name; of a transistor's junctions each does.
  const named = alike.length > 2 || (all.length > 1 && spec !== all[0]);
  const word = spec.headers[0] ?? "";
  return named ? `${/^[A-Z][a-z]/.test(word) ? word.toLowerCase() : word} ` : "";
}

/** What was typed, with the unit its column supplied where the cell has none. */
export function readingText({ value }: Reading): string {
  return value.kind === "quantity" && !value.approx ? formatTyped(value.quantity) : value.typed;
}
