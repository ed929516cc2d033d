// A resistor's colour bands, both ways, after IEC 60062 (from memory), and the tolerance letters of the same standard.
import { defined } from "../base/defined";
import {
  BAND_COLOURS,
  type CodedValue,
  colourName,
  MULTIPLIERS,
  readColourCode,
  TOLERANCE_BANDS,
} from "./iec60062";

/** Temperature coefficient of the sixth band, in millionths per kelvin (IEC 60062, from memory). */
const TEMPERATURE_BANDS: ReadonlyMap<string, number> = new Map([
  ["black", 250],
  ["brown", 100],
  ["red", 50],
  ["yellow", 25],
  ["green", 20],
  ["orange", 15],
  ["blue", 10],
  ["violet", 5],
  ["grey", 1],
]);

export interface ColourValue extends CodedValue {
  /** Millionths per kelvin, of a sixth band. */
  readonly temperatureCoefficient?: number;
}

export type ColoursRead =
  | {
      readonly ok: true;
      /** Ohms, and half the width in percent. */
      readonly reading: ColourValue;
      /** The bands' own names, in order. */
      readonly bands: readonly string[];
      /** What the same bands say from the other end, where they can be read so: look which end is nearer. */
      readonly fromOtherEnd?: ColourValue;
    }
  | { readonly ok: false; readonly reason: string };

const KNOWN: ReadonlySet<string> = new Set([...BAND_COLOURS, "gold", "silver"]);

/**
 * Reads one black band (a link of 0 ohm) or three to six bands: "brown black orange gold" or a list, any case, words
 * separated by blanks, commas or hyphens. Refuses with a sentence that names the band that cannot stand where it does.
 */
export function readColours(typed: string | readonly string[]): ColoursRead {
  const words = typeof typed === "string" ? typed.split(/[\s,;/-]+/).filter((word) => word !== "") : typed;
  const bands = words.map(colourName);
  const strange = bands.findIndex((band) => !KNOWN.has(band));
  if (strange >= 0) {
    return {
      ok: false,
      reason: `"${words[strange]}" is no band colour: use ${BAND_COLOURS.join(", ")}, gold or silver.`,
    };
  }
  if (bands.length === 1 && bands[0] === "black") return { ok: true, reading: { value: 0 }, bands };
  const reading = read(bands);
  const other = read(bands.toReversed());
  if (!reading)
    return { ok: false, reason: `${whyNot(bands)}${other ? " From the other end they can be read." : ""}` };
  return defined({ ok: true, reading, bands, fromOtherEnd: other });
}

function read(bands: readonly string[]): ColourValue | undefined {
  const coded = readColourCode(bands);
  if (!coded || bands.length < 6) return coded;
  const temperatureCoefficient = TEMPERATURE_BANDS.get(bands[5] ?? "");
  return temperatureCoefficient === undefined ? undefined : { ...coded, temperatureCoefficient };
}

function whyNot(bands: readonly string[]): string {
  if (bands.length < 3 || bands.length > 6) {
    return `A resistor has three to six bands (or one black one), not ${bands.length}.`;
  }
  const digits = bands.length >= 5 ? 3 : 2;
  const digit = bands.findIndex(
    (band, at) => at < digits && !(BAND_COLOURS as readonly string[]).includes(band),
  );
  if (digit >= 0) return `Band ${digit + 1} is a digit and cannot be ${bands[digit]}.`;
  if (bands[digits + 1] !== undefined && !TOLERANCE_BANDS.has(bands[digits + 1]!)) {
    return `Band ${digits + 2} is the tolerance and cannot be ${bands[digits + 1]}.`;
  }
  return `Band 6 is the temperature coefficient and cannot be ${bands[5]}.`;
}

export interface ColoursWanted {
  /** Half the width in percent; 20 has no band of its own. 20 where absent and two digits are enough. */
  readonly tolerance?: number;
  /** Millionths per kelvin, for six bands. */
  readonly temperatureCoefficient?: number;
  /** As few as the value and what is wanted allow, where absent. */
  readonly bands?: 3 | 4 | 5 | 6;
}

export type ColoursWritten =
  | { readonly ok: true; readonly bands: readonly string[] }
  | { readonly ok: false; readonly reason: string };

/**
 * The bands of a value in ohms: 4700 at 5 % is yellow, violet, red, gold. Refuses, with the reason, what the bands
 * cannot say: more digits than there are bands for, a tolerance or coefficient without a colour, a value out of range.
 */
export function writeColours(ohms: number, wanted: ColoursWanted = {}): ColoursWritten {
  const no = (reason: string) => ({ ok: false as const, reason });
  const { tolerance = 20, temperatureCoefficient } = wanted;
  if (ohms === 0) {
    return Object.keys(wanted).length > 0
      ? no("A link of 0 ohm has one black band.")
      : { ok: true, bands: ["black"] };
  }
  if (!Number.isFinite(ohms) || ohms < 0) return no("A resistance to colour is a number of ohms above zero.");
  const least = Number(ohms.toPrecision(2)) === Number(ohms.toPrecision(9)) ? 2 : 3;
  const count = wanted.bands ?? fewest(least, tolerance, temperatureCoefficient);
  const places = count >= 5 ? 3 : 2;
  if (Number(ohms.toPrecision(places)) !== Number(ohms.toPrecision(9))) {
    return no(`${ohms} ohm needs more than ${places} digits, which ${count} bands cannot show.`);
  }
  const [mantissa = "", exponent = ""] = ohms.toExponential(places - 1).split("e");
  const multiplier = [...MULTIPLIERS].find(([, power]) => power === Number(exponent) - places + 1)?.[0];
  if (multiplier === undefined) return no(`${ohms} ohm is outside what ${count} bands can show.`);
  const digits = [...mantissa.replace(".", "")].map((digit) => BAND_COLOURS[Number(digit)]!);
  const bands: string[] = [...digits, multiplier];
  if (count === 3 && tolerance !== 20) return no(`Three bands mean 20 %; ${tolerance} % needs a fourth.`);
  if (count > 3) {
    const colour = nameOf(TOLERANCE_BANDS, tolerance);
    if (colour === undefined) return no(`No band colour means ${tolerance} %.`);
    bands.push(colour);
  }
  if (count === 6) {
    const colour = nameOf(TEMPERATURE_BANDS, temperatureCoefficient);
    if (colour === undefined) {
      return no(
        temperatureCoefficient === undefined
          ? "Six bands need a temperature coefficient."
          : `No band colour means ${temperatureCoefficient} ppm/K.`,
      );
    }
    bands.push(colour);
  } else if (temperatureCoefficient !== undefined) {
    return no(`A temperature coefficient is the sixth band; ${count} were asked for.`);
  }
  return { ok: true, bands };
}

const fewest = (digits: number, tolerance: number, coefficient: number | undefined): 3 | 4 | 5 | 6 =>
  coefficient !== undefined ? 6 : digits > 2 ? 5 : tolerance === 20 ? 3 : 4;

const nameOf = (table: ReadonlyMap<string, number>, value: number | undefined): string | undefined =>
  [...table].find(([, known]) => known === value)?.[0];

/** How far a value may be from nominal, below and above, as positive numbers. */
export interface BandTolerance {
  readonly below: number;
  readonly above: number;
  readonly unit: "%" | "pF";
}

/** IEC 60062, from memory. */
const SYMMETRICAL: ReadonlyMap<string, number> = new Map([
  ["E", 0.005],
  ["L", 0.01],
  ["P", 0.02],
  ["W", 0.05],
  ["B", 0.1],
  ["C", 0.25],
  ["D", 0.5],
  ["F", 1],
  ["G", 2],
  ["H", 3],
  ["J", 5],
  ["K", 10],
  ["M", 20],
  ["N", 30],
]);
const LOPSIDED: ReadonlyMap<string, readonly [below: number, above: number]> = new Map([
  ["Q", [10, 30]],
  ["T", [10, 50]],
  ["S", [20, 50]],
  ["Z", [20, 80]],
]);
/** Below 10 pF a capacitor's letter counts picofarads. */
const PICOFARADS: ReadonlyMap<string, number> = new Map([
  ["B", 0.1],
  ["C", 0.25],
  ["D", 0.5],
  ["F", 1],
  ["G", 2],
]);

/**
 * What a tolerance letter means: J is 5 % either way, Z from 20 % below to 80 % above. Give a capacitor's value in
 * farads where it is known: below 10 pF the letters B, C, D, F and G are picofarads. Undefined for any other letter;
 * small letters are not taken, since k and m stand for powers of ten. Source: IEC 60062, from memory.
 */
export function toleranceOf(letter: string, capacitance?: number): BandTolerance | undefined {
  const even = (width: number | undefined, unit: "%" | "pF"): BandTolerance | undefined =>
    width === undefined ? undefined : { below: width, above: width, unit };
  if (capacitance !== undefined && capacitance < 10e-12) {
    const absolute = even(PICOFARADS.get(letter), "pF");
    if (absolute) return absolute;
  }
  const lopsided = LOPSIDED.get(letter);
  return lopsided
    ? { below: lopsided[0], above: lopsided[1], unit: "%" }
    : even(SYMMETRICAL.get(letter), "%");
}
