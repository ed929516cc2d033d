import type { Part } from "../knowledge/types";
import { parseQuantity } from "../quantity/quantity";
import type { Dimension } from "../quantity/units";

/** What a parts list says of a passive part, SI base units. */
export interface PartValue {
  readonly nominal: number;
  /** As a share: 0.05 for 5 %. */
  readonly tolerance: number;
  /** Whose tolerance it is: the board file's, this log's, or what such parts usually have. */
  readonly toleranceSource: string;
  /** The same with its figure, where nobody has said one. */
  readonly toleranceTold: string;
}

const USUAL = "common practice, no source";
const GIVEN = "the board file";

/** Tolerance where the board file names none: common practice, no source. */
const USUAL_TOLERANCE: { readonly [dimension in Dimension]?: number } = { resistance: 0.1, capacitance: 0.2 };

/**
 * "4k7", "470 0.5 W", "10 uF 16 V", "4k7 5 %": the value in front, with the tolerance behind it where one is
 * given; of a pack, "8 x 1k", that of one of it. Undefined for what is no value.
 */
export function partValue(part: Part | undefined, dimension: Dimension): PartValue | undefined {
  return part?.value === undefined ? undefined : readValue(part.value, dimension);
}

/** How many there are in a pack. */
const PACK = /^\d{1,2}\s*[x\u00d7]\s*(?=\d)/i;

/**
 * As `partValue`, for a text from anywhere.
 * @param whose word a tolerance is that the text gives
 */
export function readValue(text: string, dimension: Dimension, whose = GIVEN): PartValue | undefined {
  // "4700uF/25V" is two words as well.
  const words = text
    .trim()
    .replace(PACK, "")
    .split(/,?\s+|(?<=\p{L})\/(?=\d)/u);
  const unit = dimension === "resistance" ? { unit: "ohm" } : {};
  // "10 uF" is two words, "470 0.5 W" one and two more: the longer reading wins where it is one of the right kind.
  const found = [words.slice(0, 2).join(" "), words[0] ?? ""]
    .map((candidate) => parseQuantity(candidate, unit))
    .find((parsed) => parsed.ok);
  // The volts of a "12 V relay" are no ohms of its coil.
  if (!found?.ok || found.quantity.dimension !== dimension || found.quantity.value <= 0) return undefined;
  const percent = /(\d+(?:[.,]\d+)?)\s*%/.exec(text)?.[1]?.replace(",", ".");
  const given = percent === undefined ? undefined : Number(percent) / 100;
  const tolerance = given ?? USUAL_TOLERANCE[dimension];
  if (tolerance === undefined || tolerance >= 1) return undefined;
  return {
    nominal: found.quantity.value,
    tolerance,
    ...(given === undefined
      ? { toleranceSource: USUAL, toleranceTold: `± ${tolerance * 100} %: ${USUAL}` }
      : { toleranceSource: whose, toleranceTold: whose }),
  };
}
