// What new aluminium electrolytic capacitors have at most in series and leak, by value and rated voltage.

import { defined } from "../../base/defined";

/** As a parts list or the part itself has it: "100 uF 25 V", "4700 uF". SI base units. */
export interface Electrolytic {
  readonly capacitance: number;
  /** Rated voltage, where it is said. */
  readonly rated?: number;
}

const VOLTS = [10, 16, 25, 35, 63, 160, 250] as const;
/**
 * Ohms by microfarads and rated voltage at room temperature, standard grade, as of new parts. Peak Electronic Design,
 * ESR60/ESR70 user guide, revision 8, page 9; the guide prints "over 40" for 4.7 uF 10 V, and a copy of it 0.09 for
 * 100 uF 63 V, where 0.93 fits the row. Low-ESR kinds have less.
 */
const TYPICAL: readonly (readonly [microfarads: number, ...ohms: number[]])[] = [
  [4.7, 40, 35, 29, 24, 19, 16, 13],
  [10, 20, 16, 14, 11, 9.3, 7.7, 6.3],
  [22, 9.0, 7.5, 6.2, 5.1, 4.2, 3.5, 2.9],
  [47, 4.2, 3.5, 2.9, 2.4, 2.0, 1.6, 1.4],
  [100, 2.0, 1.6, 1.4, 1.1, 0.93, 0.77, 0.63],
  [220, 0.9, 0.75, 0.62, 0.51, 0.42, 0.35, 0.29],
  [470, 0.42, 0.35, 0.29, 0.24, 0.2, 0.16, 0.13],
  [1000, 0.2, 0.16, 0.14, 0.11, 0.09, 0.08, 0.06],
  [2200, 0.09, 0.07, 0.06, 0.05, 0.04, 0.03, 0.03],
  [4700, 0.04, 0.03, 0.03, 0.02, 0.02, 0.02, 0.01],
  [10_000, 0.02, 0.02, 0.01, 0.01, 0.01, 0.01, 0.01],
];

/** Whose figures `typicalEsr` gives, to be shown beside them. */
export const ESR_SOURCE =
  "typical of new standard parts: ESR60/ESR70 user guide, Peak Electronic Design; a guide, low-ESR kinds have less";

/**
 * Ohms that a new standard part typically has; between two values the line through them on doubly logarithmic paper,
 * of the next lower rated voltage, and the highest where none is said. Undefined outside the published values.
 */
export function typicalEsr({ capacitance, rated }: Electrolytic): number | undefined {
  const microfarads = capacitance * 1e6;
  const column =
    rated === undefined
      ? 0
      : Math.max(
          0,
          VOLTS.findLastIndex((volts) => volts <= rated * 1.001),
        );
  const above = TYPICAL.findIndex(([at]) => at >= microfarads * 0.999);
  const upper = TYPICAL[above];
  const lower = TYPICAL[Math.max(0, above - 1)];
  if (!upper || !lower || microfarads < TYPICAL[0]![0] * 0.999) return undefined;
  const [high, low] = [upper[column + 1] ?? 0, lower[column + 1] ?? 0];
  const span = Math.log(upper[0] / lower[0]);
  const share = span === 0 ? 1 : Math.log(microfarads / lower[0]) / span;
  return low * (high / low) ** share;
}

/** Times the typical figure: up to the first not disproved, above the second worn. Common practice, no source. */
export const ESR_TIMES = { usual: 2, worn: 3 };
/** Ohms that leads, clips and joints add: common practice, no source. */
export const ESR_LEADS = 0.1;

/** Amperes: 0.01 CV or 3 uA, whichever is more, after two minutes at the rated voltage. */
export const LEAKAGE_SOURCE =
  "0.01 CV or 3 µA after 2 minutes at the rated voltage: IEC 60384-4 and makers' sheets, from memory";
/** Wider kinds promise no more than this many times as much: makers' sheets, from memory. */
export const LEAKAGE_WIDER = 3;

/** Amperes that a new part leaks at most, two minutes after its rated voltage was put on; see `LEAKAGE_SOURCE`. */
export function leakageLimit({ capacitance, rated }: Required<Electrolytic>): number {
  return Math.max(3e-6, 0.01 * capacitance * rated);
}

const OTHER_KIND =
  /\b(?:tant(?:alum)?s?|ceramic|cer|mlcc|disc|film|poly\w*|mylar|mica|mk[pts]\d?|x7r|z5u|np0|c0g|paper|oil|super-?\s?cap\w*|gold\s?cap|memory|double[- ]layer|edlc|non-?polar\w*|bi-?polar|np)\b/i;

/** What of the words around a value says that it is another kind than an aluminium electrolytic. */
export const isOtherKind = (words: string): boolean => OTHER_KIND.test(words);

/** "25 V", "/25V" or "16WV" behind a value. */
export function ratedVoltage(text: string): number | undefined {
  const typed = /(?:^|[\s/,(])(\d{1,3}(?:[.,]\d+)?)\s*(?:W\.?)?V(?:DC|olts?)?\b/i.exec(text)?.[1];
  const volts = typed === undefined ? Number.NaN : Number(typed.replace(",", "."));
  return volts > 0 ? volts : undefined;
}

/** A part of so many farads; its rated voltage is read from the parts list's text, where it stands there. */
export const electrolytic = (capacitance: number, text: string): Electrolytic =>
  defined({ capacitance, rated: ratedVoltage(text) });
