// Resistors, capacitors and fuses by what is printed in a parts list: value and ratings.

import { defined } from "../../base/defined";
import { readValue } from "../../compute/part-value";
import { E_SERIES, type ESeries, isPreferred, nearestPreferred } from "../../quantity/e-series";
import { formatQuantity } from "../../quantity/format";

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
  const ratings = defined({ volts, watts });
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

/** Series to look in, the commonest first: common practice, no source. */
const STOCKED = {
  resistance: ["E24", "E96", "E192"],
  capacitance: ["E6", "E12", "E24"],
} as const satisfies Record<string, readonly ESeries[]>;

/** Rated voltages of capacitors, V: those of the R5 and R10 steps and the usual ones between (from memory). */
const RATED_VOLTS = [
  2.5, 4, 6.3, 10, 16, 25, 35, 50, 63, 80, 100, 160, 200, 250, 315, 350, 400, 450, 500, 630, 1000, 1600, 2000,
];
/** Rated dissipations of resistors, W: common practice, no source. */
const RATED_WATTS = [0.125, 0.25, 0.5, 1, 2, 3, 5, 7, 10, 15, 20, 25, 50];

/** The lowest rating that is made and is not below this one; the rating itself where it is above all of them. */
const ratingAtLeast = (rating: number, made: readonly number[]): number =>
  made.find((each) => each >= rating * (1 - 1e-9)) ?? rating;

/** True for a resistor's or capacitor's value that is in one of the series of preferred numbers. */
export const isMade = ({ value }: Passive): boolean => E_SERIES.some((series) => isPreferred(value, series));

/**
 * The nearest value that is made, with the lowest ratings that are made and reach the original's: "10 µF (E3), 16 V or
 * more". Where no series has one within the original's tolerance, that is said. Undefined for a fuse, which is replaced
 * by its own value and type only.
 */
export function standardText(part: Passive): string | undefined {
  if (part.dimension === "current") return undefined;
  const found = nearestMade(part, STOCKED[part.dimension]);
  if (!found) return undefined;
  const unit = part.dimension === "resistance" ? "ohm" : "F";
  const ratings = [
    ...(part.volts === undefined
      ? []
      : [`${formatQuantity(ratingAtLeast(part.volts, RATED_VOLTS), "V")} or more`]),
    ...(part.watts === undefined
      ? []
      : [`${formatQuantity(ratingAtLeast(part.watts, RATED_WATTS), "W")} or more`]),
  ];
  const beyond = found.within
    ? []
    : [`outside the original's ${formatQuantity(part.tolerance, "%")}: ask whether it matters there`];
  return [`${formatQuantity(found.value, unit)} (${found.series})`, ...ratings, ...beyond].join(", ");
}

/** Its own value where that is made; else the nearest of the commonest series that has one within its tolerance. */
function nearestMade(
  { value, tolerance }: Passive,
  stocked: readonly ESeries[],
): { readonly value: number; readonly series: ESeries; readonly within: boolean } | undefined {
  const own = E_SERIES.find((series) => isPreferred(value, series));
  if (own) return { value, series: own, within: true };
  const near = stocked.flatMap((series) => {
    const nearest = nearestPreferred(value, series);
    return nearest === undefined ? [] : [{ value: nearest, series }];
  });
  const inside = near.find((each) => Math.abs(each.value - value) <= value * tolerance * (1 + 1e-9));
  if (inside) return { ...inside, within: true };
  const last = near.at(-1);
  return last && { ...last, within: false };
}
