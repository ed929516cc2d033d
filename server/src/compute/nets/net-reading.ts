import { type Err, finite, notNegative, readable, refused } from "../result";
import { pinText } from "./net-text";

/** Kinds of reading that several pins of one net must share. */
export type NetReadingKind = "drop" | "resistance" | "level";

export const UNIT_OF: Readonly<Record<NetReadingKind, string>> = { drop: "V", resistance: "ohm", level: "V" };

/** One reading at one pin, in volts or ohms; infinity for open or overload. */
export interface NetReading {
  readonly ref: string;
  readonly pin: string;
  readonly value: number;
  /** Half-width of the meter's uncertainty, same unit. */
  readonly uncertainty: number;
}

/** A refusal where a reading cannot be one: not a number, an open level, a negative drop or resistance. */
export function badReading(kind: NetReadingKind, readings: readonly NetReading[]): Err | undefined {
  return refused(
    ...readings.flatMap((reading) => [
      kind === "level"
        ? finite(`level at ${pinText(reading)}`, reading.value, "V")
        : readable(`reading at ${pinText(reading)}`, reading.value, UNIT_OF[kind]),
      notNegative(`uncertainty at ${pinText(reading)}`, reading.uncertainty, UNIT_OF[kind]),
    ]),
  );
}

/**
 * How far two readings of one node may lie apart beyond the meter's uncertainty, for the leads' contact and for
 * warming parts. Common practice, no source.
 */
export function practiceMargin(kind: NetReadingKind, a: number, b: number): number {
  if (kind === "drop") return 0.02;
  if (kind === "level") return 0.1;
  // Two ohms of leads and contacts, or a meter's creep while capacitors charge, whichever is more.
  return Math.max(2, 0.05 * Math.min(a, b));
}
