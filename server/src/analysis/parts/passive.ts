// Resistors, capacitors and fuses by what is printed in a parts list: value and ratings.
import { E_SERIES, isPreferred, nearestPreferred } from "../../quantity/e-series";
import { formatQuantity } from "../../quantity/format";
import { readValue } from "../part-value";

export interface Passive {
  readonly dimension: "resistance" | "capacitance" | "current";
  /** Ohms, farads or, for a fuse, amperes. */
  readonly value: number;
  /** As a share: 0.05 for 5 %. */
  readonly tolerance: number;
  readonly volts?: number;
  readonly watts?: number;
  /** Of a fuse. */
  readonly speed?: "slow" | "fast";
}

/**
 * "4k7 0.5 W", "10 uF 16 V", "fuse 4 A slow". Undefined for anything else and for arrays ("8 x 1k").
 * @param bare what a number without a unit is: of a resistor's place "470" is ohms
 */
export function passiveOf(text: string, bare?: "resistance"): Passive | undefined {
  const volts = rating(text, "V");
  const watts = rating(text, "W");
  const fuse = /\bfuse\b/i.test(text) && !/\bholder|\bclip/i.test(text) ? rating(text, "A") : undefined;
  const ratings = { ...(volts === undefined ? {} : { volts }), ...(watts === undefined ? {} : { watts }) };
  if (fuse !== undefined) {
    const speed = /\b(?:slow|anti-?surge|time[- ]?lag|delay|T)\b/i.test(text)
      ? ({ speed: "slow" } as const)
      : /\b(?:fast|quick|F)\b/i.test(text)
        ? ({ speed: "fast" } as const)
        : {};
    return { dimension: "current", value: fuse, tolerance: 0, ...speed, ...ratings };
  }
  if (/\d\s*[x×]\s*\d|\bSIP\b|\bDIP\b|-way\b|\bzener\b|\bcrystal\b|\brelay\b|\bfuse\b/i.test(text))
    return undefined;
  for (const dimension of ["capacitance", "resistance"] as const) {
    if (
      dimension === "resistance" &&
      bare === undefined &&
      /^\s*\d+(?:[.,]\d+)?(?![\d.,]|\s*[kKMmRΩo])/.test(text)
    )
      continue;
    const read = readValue(text, dimension);
    if (read) return { dimension, value: read.nominal, tolerance: read.tolerance, ...ratings };
  }
  return undefined;
}

function rating(text: string, unit: "V" | "W" | "A"): number | undefined {
  const match = new RegExp(`(?<![\\w.,/])(\\d+)(?:([.,/])(\\d+))?\\s*(m?)${unit}(?![A-Za-z])`).exec(text);
  if (!match) return undefined;
  const [, whole = "", mark, rest = "1", milli] = match;
  const number = mark === "/" ? Number(whole) / Number(rest) : Number(mark ? `${whole}.${rest}` : whole);
  return Number.isFinite(number) && number > 0 ? (milli ? number / 1000 : number) : undefined;
}

const alike = (a: number, b: number): boolean => Math.abs(a - b) <= Math.max(a, b) * 1e-6;

/** How `given` does where `wanted` belongs; "unsaid" where a rating that matters is not written. */
export type PassiveMatch = "same" | "within-tolerance" | "other-value" | "rated-lower" | "unsaid";

/** Both of one dimension. A fuse is replaced by its own value and type only. */
export function comparePassive(wanted: Passive, given: Passive): PassiveMatch {
  const same = alike(wanted.value, given.value);
  if (!same && Math.abs(wanted.value - given.value) > wanted.value * wanted.tolerance * (1 + 1e-9))
    return "other-value";
  if (wanted.dimension === "current" && wanted.speed && given.speed && wanted.speed !== given.speed)
    return "other-value";
  let unsaid = wanted.speed !== undefined && given.speed === undefined;
  for (const key of ["volts", "watts"] as const) {
    const need = wanted[key];
    if (need === undefined) continue;
    const has = given[key];
    if (has === undefined) unsaid = true;
    else if (has < need * (1 - 1e-9)) return "rated-lower";
  }
  return unsaid ? "unsaid" : same ? "same" : "within-tolerance";
}

/** Series in which resistors and capacitors are stocked everywhere: common practice, no source. */
const STOCKED = { resistance: "E24", capacitance: "E6" } as const;

/** The nearest value that is made, with the ratings to look for: "10 µF, 16 V or more". Undefined for a fuse. */
export function standardText(part: Passive): string | undefined {
  if (part.dimension === "current") return undefined;
  const own = E_SERIES.find((series) => isPreferred(part.value, series));
  const value = own ? part.value : nearestPreferred(part.value, STOCKED[part.dimension]);
  if (value === undefined) return undefined;
  const unit = part.dimension === "resistance" ? "ohm" : "F";
  const ratings = [
    ...(part.volts === undefined ? [] : [`${formatQuantity(part.volts, "V")} or more`]),
    ...(part.watts === undefined ? [] : [`${formatQuantity(part.watts, "W")} or more`]),
  ];
  const series = own ?? STOCKED[part.dimension];
  return [`${formatQuantity(value, unit)} (${series})`, ...ratings].join(", ");
}
