// The number an instrument sent, as a technician would have written it into the cell.
import { formatQuantity } from "../../quantity/format";
import { parseScpiNumber } from "../../quantity/scpi-number";
import { parseUnit } from "../../quantity/units";
import type { Question } from "./question";

export type CapturedText =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly reason: string };

/** Significant digits written where nothing else is asked for: those of a bench meter one reads (common practice, no source). */
export const DIGITS = 4;

/**
 * Steps finer than these are noise on a board, whatever the meter sends (common practice, no source), in base units: a
 * pin that reads 3 µV reads "0.0000 V".
 */
const FINEST: Readonly<Record<string, number>> = { V: 1e-4, Ω: 1e-2, F: 1e-12, Hz: 1e-2 };

/** Sizes, in the column's own unit, that are written in it; others get a prefix of their own. */
const PLAIN = { least: 0.1, most: 10_000 };

/**
 * @param answer what the instrument sent for the question
 * @param digits significant digits at most, 1 to 10
 */
export function capturedText(answer: string, question: Question, digits = DIGITS): CapturedText {
  const number = parseScpiNumber(answer);
  if (number.kind === "unusable") return { ok: false, reason: number.reason };
  if (number.kind === "overload") return { ok: true, text: "OL" };
  const scaled = parseUnit(question.unit);
  if (!scaled) return { ok: false, reason: `the column's unit "${question.unit}" is not known` };
  const { value } = number;
  const resolution = Math.max(
    number.resolution,
    FINEST[scaled.unit.symbol] ?? 0,
    value === 0 ? 0 : Number(`1e${Math.floor(Math.log10(Math.abs(value)) + 1e-12) - digits + 1}`),
  );
  const { qualifier, unit } = question;
  const bare = question.unitInHeader && qualifier === undefined;
  const written = inColumnUnit(value, resolution, unit, bare) ?? formatQuantity(value, unit, { resolution });
  return { ok: true, text: qualifier === undefined ? written : `${written} ${qualifier}` };
}

/** In the unit the rest of the column is in, where that reads well; undefined where a prefix is called for. */
function inColumnUnit(value: number, resolution: number, unit: string, bare: boolean): string | undefined {
  const scaled = parseUnit(unit);
  if (!scaled) return undefined;
  const size = Number(`1e${scaled.prefix + scaled.unit.exponent}`) * scaled.unit.factor;
  const shown = Math.abs(value) / size;
  const isVolts = scaled.unit.symbol === "V";
  if (!bare && (shown >= PLAIN.most || (shown < PLAIN.least && shown > 0 && !isVolts))) return undefined;
  const decimals = Math.min(15, Math.max(0, -Math.floor(Math.log10(resolution / size) + 1e-9)));
  const text = (value / size).toFixed(decimals).replace(/^-(?=0(?:\.0*)?$)/, "");
  return bare ? text : `${text} ${unit === "ohm" ? "Ω" : unit}`;
}
