// Units and prefixes as they are typed on a bench. The prefix table is the SI Brochure's (9th edition,
// table 7) between pico and giga; spellings beyond the symbols are common practice, no source.

export const DIMENSIONS = [
  "voltage",
  "current",
  "resistance",
  "capacitance",
  "inductance",
  "frequency",
  "time",
  "power",
  "temperature",
  "ratio",
  "count",
] as const;
/** What kind of thing is measured, whatever unit it is typed in: "voltage", "resistance", "time". */
export type Dimension = (typeof DIMENSIONS)[number];

export interface Unit {
  /** As printed: "V", "Ω", "%", "" for a plain number. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** Value in the base unit is typed value * 10^exponent * factor + offset. */
  readonly exponent: number;
  readonly factor: number;
  readonly offset: number;
  /** True where SI prefixes are used with it. */
  readonly prefixable: boolean;
}

/** A unit with its prefix as a power of ten: "mV" is volt and -3. */
export interface ScaledUnit {
  readonly unit: Unit;
  readonly prefix: number;
  /** Set where the symbol says how an alternating quantity was read: "Vpp", "VAC". */
  readonly qualifier?: Qualifier;
}

export type Qualifier = "dc" | "ac" | "pp" | "rms" | "peak";

const unit = (symbol: string, dimension: Dimension, over: Partial<Unit> = {}): Unit => ({
  symbol,
  dimension,
  exponent: 0,
  factor: 1,
  offset: 0,
  prefixable: true,
  ...over,
});

/** Temperatures are kept in degrees Celsius, the scale bench instruments show; everything else in SI. */
const BASE: Readonly<Record<Dimension, Unit>> = {
  voltage: unit("V", "voltage"),
  current: unit("A", "current"),
  resistance: unit("Ω", "resistance"),
  capacitance: unit("F", "capacitance"),
  inductance: unit("H", "inductance"),
  frequency: unit("Hz", "frequency"),
  time: unit("s", "time"),
  power: unit("W", "power"),
  temperature: unit("°C", "temperature", { prefixable: false }),
  ratio: unit("%", "ratio", { prefixable: false, exponent: -2 }),
  count: unit("", "count", { prefixable: false }),
};

const PPM = unit("ppm", "ratio", { prefixable: false, exponent: -6 });
const MINUTE = unit("min", "time", { prefixable: false, factor: 60 });
const HOUR = unit("h", "time", { prefixable: false, factor: 3600 });
const FAHRENHEIT = unit("°F", "temperature", { prefixable: false, factor: 5 / 9, offset: -160 / 9 });

/** Symbols whose letter case carries meaning: "h" is hours and "H" henry. */
const EXACT: ReadonlyMap<string, Unit> = new Map([
  ["V", BASE.voltage],
  ["v", BASE.voltage],
  ["A", BASE.current],
  ["a", BASE.current],
  ["Ω", BASE.resistance],
  ["R", BASE.resistance],
  ["F", BASE.capacitance],
  ["f", BASE.capacitance],
  ["H", BASE.inductance],
  ["s", BASE.time],
  ["W", BASE.power],
  ["w", BASE.power],
  ["C", BASE.temperature],
  ["h", HOUR],
]);

/** Names read in any case. */
const WORDS: ReadonlyMap<string, Unit> = new Map([
  ...names(BASE.voltage, "volt volts"),
  ...names(BASE.current, "amp amps ampere amperes"),
  ...names(BASE.resistance, "ohm ohms"),
  ...names(BASE.capacitance, "farad farads fd"),
  ...names(BASE.inductance, "henry henries henrys"),
  ...names(BASE.frequency, "hz hertz cps"),
  ...names(BASE.time, "sec secs second seconds"),
  ...names(BASE.power, "watt watts"),
  ...names(BASE.temperature, "°c ºc degc celsius"),
  ...names(FAHRENHEIT, "°f ºf degf fahrenheit"),
  ...names(BASE.ratio, "% percent pct"),
  ...names(PPM, "ppm"),
  ...names(MINUTE, "min mins minute minutes"),
  ...names(HOUR, "hr hrs hour hours"),
  ...names(BASE.count, "pcs pc pieces pulses counts"),
]);

function names(target: Unit, words: string): [string, Unit][] {
  return words.split(" ").map((word) => [word, target]);
}

/** `M` is mega and `m` milli, as typed; the capitals U, N, P have no other meaning here and old drawings use them. */
const PREFIXES: ReadonlyMap<string, number> = new Map([
  ["G", 9],
  ["M", 6],
  ["k", 3],
  ["K", 3],
  ["m", -3],
  ["µ", -6],
  ["u", -6],
  ["U", -6],
  ["n", -9],
  ["N", -9],
  ["p", -12],
  ["P", -12],
]);

const PREFIX_WORDS: readonly [string, number][] = [
  ["giga", 9],
  ["mega", 6],
  ["meg", 6],
  ["kilo", 3],
  ["milli", -3],
  ["micro", -6],
  ["nano", -9],
  ["pico", -12],
];

/** Capacitor markings older than the SI habit. Common practice, no source. */
const OLD_CAPACITANCE: ReadonlyMap<string, number> = new Map([
  ["mfd", -6],
  ["mmfd", -12],
]);

const QUALIFIERS: readonly [RegExp, Qualifier][] = [
  [/(?:p-p|p\/p|pk-pk|pkpk|pp|ss)$/i, "pp"],
  [/rms$/i, "rms"],
  [/dc$/i, "dc"],
  [/ac$/i, "ac"],
  [/(?:pk|peak)$/i, "peak"],
];

/** One spelling for the characters that look alike: MICRO SIGN/GREEK MU, OHM SIGN/GREEK OMEGA. */
export const normaliseSymbols = (text: string): string =>
  text.replaceAll("\u03BC", "\u00B5").replaceAll("\u2126", "\u03A9").replaceAll("\u2212", "-");

export const baseUnit = (dimension: Dimension): Unit => BASE[dimension];

/** Power of ten of a bare prefix ("k", "Meg", "µ"), or undefined. */
export function prefixPower(text: string): number | undefined {
  const plain = normaliseSymbols(text);
  const lower = plain.toLowerCase();
  return PREFIXES.get(plain) ?? PREFIX_WORDS.find(([word]) => word === lower)?.[1];
}

/** Reads a unit with or without a prefix: "mV", "kilohms", "k ohm", "mVpp". Undefined where it is none. */
export function parseUnit(text: string): ScaledUnit | undefined {
  const compact = normaliseSymbols(text).replace(/\s+/g, "");
  if (compact === "" || compact.length > 24) return undefined;
  const known = PARSED.get(compact);
  if (known !== undefined) return known ?? undefined;
  const found = readUnit(compact) ?? readQualified(compact);
  if (PARSED.size < 500) PARSED.set(compact, found ?? null);
  return found;
}

/** Units repeat down a column; the bound keeps arbitrary typing from filling memory. */
const PARSED = new Map<string, ScaledUnit | null>();

function readUnit(text: string): ScaledUnit | undefined {
  const plain = plainUnit(text);
  if (plain) return { unit: plain, prefix: 0 };
  const lower = text.toLowerCase();
  const old = OLD_CAPACITANCE.get(lower);
  if (old !== undefined) return { unit: BASE.capacitance, prefix: old };
  for (const [word, power] of PREFIX_WORDS) {
    if (!lower.startsWith(word)) continue;
    const rest = plainUnit(text.slice(word.length));
    if (rest?.prefixable) return { unit: rest, prefix: power };
  }
  // "kilohm" and "megohm" drop a vowel.
  if (/^kilohms?$/.test(lower)) return { unit: BASE.resistance, prefix: 3 };
  const power = PREFIXES.get(text.slice(0, 1));
  // "50 mS" on an old timing drawing is milliseconds; without a prefix a capital S is more likely a mistyped 5.
  const rest = text.slice(1) === "S" ? BASE.time : plainUnit(text.slice(1));
  return rest?.prefixable && power !== undefined ? { unit: rest, prefix: power } : undefined;
}

const plainUnit = (text: string): Unit | undefined => EXACT.get(text) ?? WORDS.get(text.toLowerCase());

function readQualified(text: string): ScaledUnit | undefined {
  for (const [pattern, qualifier] of QUALIFIERS) {
    const bare = text.replace(pattern, "");
    if (bare === text) continue;
    const found = readUnit(bare);
    if (found && (found.unit.dimension === "voltage" || found.unit.dimension === "current")) {
      return { ...found, qualifier };
    }
  }
  return undefined;
}

/** Dimension of a unit as typed, or undefined where the unit is unknown. */
export const dimensionOfUnit = (text: string): Dimension | undefined => parseUnit(text)?.unit.dimension;

export interface HeaderParts {
  /** The header without its unit: "Reading". */
  readonly word: string;
  /** The unit as typed: "mV". */
  readonly unit?: string;
}

/** "Reading (mV)", "Reading [mV]", "Reading, mV", "Reading / mV", "Reading in mV". */
const HEADER_FORMS: readonly RegExp[] = [
  /^(.*?)\s*\(([^()]+)\)$/,
  /^(.*?)\s*\[([^[\]]+)\]$/,
  /^(.+?)\s*,\s*([^,]+)$/,
  /^(.+?)\s+\/\s+([^/]+)$/,
  /^(.+?)\s+in\s+(.+)$/i,
  // "Ripple mV": a prefix and its unit, which no word is.
  /^(.+?)\s+([mµu\u03bckKM](?:V|A|Ω|F|Hz|ohms?)(?:pp|ss|ac|dc|rms)?)$/i,
];

/** Takes the unit off a table header; a bracket that holds no unit stays part of the word. */
export function splitHeader(header: string): HeaderParts {
  const text = header.trim();
  if (text.length > 80) return { word: text };
  for (const form of HEADER_FORMS) {
    const match = form.exec(text);
    const typed = match?.[2]?.trim();
    if (match && typed && parseUnit(typed)) return { word: (match[1] ?? "").trim(), unit: typed };
  }
  return { word: text };
}

export const unitFromHeader = (header: string): string | undefined => splitHeader(header).unit;

/** The unit of a column: "Reading (mV)", and "mV" alone. One letter alone is as likely to be a word in short. */
export function unitOfHeader(header: string): string | undefined {
  const text = header.trim();
  return splitHeader(text).unit ?? (text.length > 1 && parseUnit(text) ? text : undefined);
}
