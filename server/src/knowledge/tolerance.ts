// How far a rail may be off its nominal voltage: the same either way, "5 %" or "0.25 V", or two figures with their signs.
import { parseQuantity } from "../quantity/quantity";

export interface Tolerance {
  /** Signed and in SI units; with `relative` parts of the nominal value. `low` lies below `high`. */
  readonly low: number;
  readonly high: number;
  readonly relative: boolean;
}

/** "-30 % to +50 %", "-30 % +50 %", "+50/-30 %", "-1 V, +2 V"; undefined for one figure and for anything else. */
export function bothWays(text: string): Tolerance | undefined {
  const [, first = "", second = ""] =
    /^\s*([-+\u2212]\s*\d[^-+\u2212]*?)\s*(?:to|\/|,|\.{2,3}|\u2026)?\s*([-+\u2212]\s*\d[^-+\u2212]*)$/i.exec(
      text,
    ) ?? [];
  if (first === "") return undefined;
  const unit = /[^\d.,\s]+$/.exec(second.trim())?.[0] ?? "";
  const [one, other] = [/\d$/.test(first) ? `${first} ${unit}` : first, second].map(read);
  if (!one || !other || one.relative !== other.relative || one.value === other.value) return undefined;
  const [low, high] = [one.value, other.value].sort((a, b) => a - b) as [number, number];
  return { low, high, relative: one.relative };
}

function read(text: string): { readonly value: number; readonly relative: boolean } | undefined {
  const found = parseQuantity(text.replace(/^([-+\u2212])\s+/, "$1").replace(/^\+/, ""));
  if (!found.ok) return undefined;
  const { dimension, value } = found.quantity;
  return dimension === "ratio" || dimension === "voltage"
    ? { value, relative: dimension === "ratio" }
    : undefined;
}

/** The ends that the tolerance leaves around a nominal voltage, volts. "+10 %" of a negative rail is further from zero. */
export function windowAround(nominal: number, { low, high, relative }: Tolerance): readonly [number, number] {
  const ends = relative ? [nominal * (1 + low), nominal * (1 + high)] : [nominal + low, nominal + high];
  // 12 V less 30 % is 8.4 V, and not what binary fractions make of it.
  return ends.map((end) => Number(end.toPrecision(12))).sort((a, b) => a - b) as [number, number];
}

/** "5 V ± 5 %"; "12 V, -30 % to +50 %" where the two ways differ. */
export const railText = ({
  nominal,
  tolerance,
}: {
  readonly nominal: string;
  readonly tolerance: string;
}): string => [nominal, tolerance].filter((text) => text !== "").join(bothWays(tolerance) ? ", " : " ± ");
