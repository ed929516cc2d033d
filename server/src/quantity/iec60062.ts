// The letter and digit code for resistors and capacitors, and the colour code, after IEC 60062 (from memory).

/** Letters that stand where the decimal mark would, with their power of ten, the largest first. */
const RESISTOR_LETTERS: readonly [string, number][] = [
  ["G", 9],
  ["M", 6],
  ["K", 3],
  ["R", 0],
];
const CAPACITOR_LETTERS: readonly [string, number][] = [
  ["F", 0],
  ["m", -3],
  ["µ", -6],
  ["n", -9],
  ["p", -12],
];

/** Tolerance letters in percent, symmetrical ones only. */
const TOLERANCE_LETTERS: ReadonlyMap<string, number> = new Map([
  ["B", 0.1],
  ["C", 0.25],
  ["D", 0.5],
  ["F", 1],
  ["G", 2],
  ["J", 5],
  ["K", 10],
  ["M", 20],
]);

export interface CodedValue {
  /** Ohms or farads. */
  readonly value: number;
  /** Half-width in percent of nominal, where a letter or band said so. */
  readonly tolerance?: number;
}

/**
 * Reads "4K7", "R47", "4K7J", "2n2", "µ47K". The kind is needed because K and M are also tolerance letters
 * of a capacitor. Undefined where the text is no such code.
 */
export function readLetterCode(text: string, kind: "resistor" | "capacitor"): CodedValue | undefined {
  const plain = text.trim().replaceAll("\u03BC", "µ");
  const letters = kind === "resistor" ? "RKMGk" : "Fmµunp";
  const match = new RegExp(`^(\\d{0,3})([${letters}])(\\d{0,3})([BCDFGJKM])?$`).exec(plain);
  if (!match) return undefined;
  const [, int = "", letter = "", frac = "", tolerance] = match;
  if (int === "" && frac === "") return undefined;
  const table = kind === "resistor" ? RESISTOR_LETTERS : CAPACITOR_LETTERS;
  const folded = letter === "k" ? "K" : letter === "u" ? "µ" : letter;
  const power = table.find(([name]) => name === folded)?.[1] ?? 0;
  const value = Number(`${int || "0"}.${frac || "0"}e${power}`);
  const percent = tolerance === undefined ? undefined : TOLERANCE_LETTERS.get(tolerance);
  return percent === undefined ? { value } : { value, tolerance: percent };
}

/**
 * Writes a value in the letter code: 4700 ohms is "4K7", 0.47 ohm "R47", 2.2 nF "2n2". At most `digits`
 * significant digits (3). Undefined for zero, negative and out-of-range values.
 */
export function writeLetterCode(
  value: number,
  kind: "resistor" | "capacitor",
  digits = 3,
): string | undefined {
  if (!Number.isFinite(value) || value <= 0) return undefined;
  const table = kind === "resistor" ? RESISTOR_LETTERS : CAPACITOR_LETTERS;
  const rounded = Number(value.toPrecision(digits));
  // The smallest letter also takes what is below one of it: "R47", "p33".
  const [letter, power] = table.find(([, p]) => rounded >= Number(`1e${p}`)) ?? table[table.length - 1]!;
  const [mantissa = "0", exponent = "0"] = rounded.toExponential().split("e");
  const scaled = Number(`${mantissa}e${Number(exponent) - power}`);
  if (scaled >= 1000 || scaled < 0.001) return undefined;
  const [int = "0", frac = ""] = String(scaled).split(".");
  // Three characters at least: "R10", "1K0", "10K".
  if (int === "0") return letter + frac.padEnd(2, "0");
  return int + letter + (frac || (int.length === 1 ? "0" : ""));
}

export const BAND_COLOURS = [
  "black",
  "brown",
  "red",
  "orange",
  "yellow",
  "green",
  "blue",
  "violet",
  "grey",
  "white",
] as const;

/** Powers of ten of the multiplier band beyond the digits' own. */
export const MULTIPLIERS: ReadonlyMap<string, number> = new Map([
  ...BAND_COLOURS.map((name, power): [string, number] => [name, power]),
  ["gold", -1],
  ["silver", -2],
]);

/** Editions of the standard differ on violet; 0.1 % is the long-standing figure. */
export const TOLERANCE_BANDS: ReadonlyMap<string, number> = new Map([
  ["brown", 1],
  ["red", 2],
  ["green", 0.5],
  ["blue", 0.25],
  ["violet", 0.1],
  ["grey", 0.05],
  ["gold", 5],
  ["silver", 10],
]);

/** Other names of the same bands, as people type them. */
const COLOUR_NAMES: ReadonlyMap<string, string> = new Map([
  ["gray", "grey"],
  ["purple", "violet"],
]);

/** A band's colour as the tables here spell it: any case, either spelling of grey and violet. */
export function colourName(typed: string): string {
  const lower = typed.trim().toLowerCase();
  return COLOUR_NAMES.get(lower) ?? lower;
}

/**
 * Reads a resistor's bands in order: three (20 %), four (two digits), five (three digits), six (a temperature
 * band behind the five, which is not kept). Undefined where a band cannot stand where it does.
 */
export function readColourCode(bands: readonly string[]): CodedValue | undefined {
  const named = bands.map(colourName);
  if (named.length < 3 || named.length > 6) return undefined;
  const count = named.length >= 5 ? 3 : 2;
  const digits = named.slice(0, count).map((name) => (BAND_COLOURS as readonly string[]).indexOf(name));
  if (digits.some((digit) => digit < 0)) return undefined;
  const power = MULTIPLIERS.get(named[count] ?? "");
  if (power === undefined) return undefined;
  const value = Number(`${digits.join("")}e${power}`);
  if (named.length === 3) return { value, tolerance: 20 };
  const tolerance = TOLERANCE_BANDS.get(named[count + 1] ?? "");
  return tolerance === undefined ? undefined : { value, tolerance };
}
