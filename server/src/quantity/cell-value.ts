// One table cell turned into a value: everything a technician writes where a reading, a state or a result
// belongs. What cannot be read comes back as a value too, with the reason and, where there is one, the
// corrected text.
import { defined } from "../base/defined";
import { noBeep, readBeep } from "./beeper";
import { type Drift, driftOf, namesDriftOnly } from "./drift";
import { type DecimalMark, parseQuantity, type Quantity, type QuantityOptions } from "./quantity";
import { slipCandidates } from "./slips";
import { type Dimension, normaliseSymbols, parseUnit, prefixPower } from "./units";
import {
  besideSteady,
  isEmptyWord,
  isOpenWord,
  isResultWord,
  isShortWord,
  isSwitchState,
  type LogicState,
  nearestWord,
  resultOf,
  stateOf,
} from "./words";

export type { Drift } from "./drift";
export type { LogicState } from "./words";

export type Bound = ">" | "<" | ">=" | "<=";

/** What a column holds, and so what a cell of it is read as first. */
export type CellWant =
  | {
      readonly kind: "quantity";
      /** Unit assumed where the cell types none. */
      readonly unit?: string;
      readonly dimension?: Dimension;
      /**
       * False where a reading below zero makes no sense. A sign is read all the same (saying that it is
       * impossible is a check's work); a hyphen in front of a number that could be a list mark is not.
       */
      readonly signed?: boolean;
      readonly decimalMark?: DecimalMark;
      /** The meter beeps where there is a connection: read as a short, and its silence as open. */
      readonly beeps?: boolean;
      /** Two readings may stand in one cell, with the leads one way and the other: "0.55 / OL". */
      readonly pairs?: boolean;
    }
  | { readonly kind: "state" }
  | { readonly kind: "result" }
  | { readonly kind: "text" };

/** `typed` is the cell's text without the blanks around it. */
export type CellValue = { readonly typed: string } & (
  | { readonly kind: "empty" }
  /** `drift` is how it came to stand there: "rising to 1.2". */
  | {
      readonly kind: "quantity";
      readonly quantity: Quantity;
      readonly approx: boolean;
      readonly drift?: Drift;
    }
  /** low <= high in the base unit, in whichever order they were typed. */
  | { readonly kind: "range"; readonly low: Quantity; readonly high: Quantity }
  /** With `drift` it was still moving when it was written ("15k rising"), and where it ends is all that is open. */
  | { readonly kind: "bound"; readonly op: Bound; readonly quantity: Quantity; readonly drift?: Drift }
  /** With the leads one way and the other; neither is a pair itself. */
  | { readonly kind: "pair"; readonly both: readonly [CellValue, CellValue] }
  | { readonly kind: "open" }
  | { readonly kind: "short" }
  | { readonly kind: "state"; readonly state: LogicState }
  /** `ok` is undefined where the word leaves it open ("intermittent"); `word` is that word alone. */
  | { readonly kind: "result"; readonly ok: boolean | undefined; readonly word: string }
  | { readonly kind: "text"; readonly text: string }
  /** The reason quotes what was typed. */
  | { readonly kind: "unreadable"; readonly reason: string; readonly suggestion?: string }
);

/**
 * Reads one cell. A reading column also yields open, short, a state or a result where one is typed, and a
 * quantity of another dimension than wanted: whether that fits the column is for a check to say. Never throws.
 */
export function readCell(text: string, want: CellWant): CellValue {
  const typed = text.trim();
  // Emphasis and code marks around a whole cell are decoration.
  const plain = typed.replace(/^([*_`]{1,3})(.*[^*_`\s])\1$/s, "$2").trim();
  if (isEmptyWord(plain)) return { kind: "empty", typed };
  switch (want.kind) {
    case "text":
      return { kind: "text", typed, text: plain };
    case "quantity": {
      const beep =
        want.beeps && plain.length <= LONGEST_READING
          ? readBeep(plain, (text) => readMeasured(text, typed, want))
          : undefined;
      if (beep) return { ...beep, typed };
      return (want.pairs ? readPair(plain, typed, want) : undefined) ?? readQuantity(plain, typed, want);
    }
    case "state":
      return readState(plain, typed);
    case "result":
      return readResult(plain, typed);
  }
}

/** Two quantities with the words between them; a paragraph pasted into a cell is not searched for a range. */
const LONGEST_READING = 100;

const APPROX = /^(?:[~≈∼≃]|(?:ca|approx|circa|about|around|roughly|c)\b\.?)\s*/i;

/** A remark behind a value: in brackets, or one of the words a technician adds without thinking; the frequency of a ripple. */
const REMARK =
  /(?<=\S)\s*(?:\([^()]*\)|\[[^[\]]*\]|[,;]?\s+(?:tied|strapped|wired|linked|goes|is tied|is strapped)\s+to\s+\S[^|]*|,?\s+(?:at\s+|@\s*)?\d{1,3}\s*Hz|,?\s+(?:both|either) (?:ways?|directions?)(?: round)?|\b(?:in|out of) circuit|\b(?:lifted|cold|warm|hot|steady|stable|ok|as well))$/i;

/** "0.55 / OL", "0.55 fwd, OL rev": two readings, of which none is a sentence. */
function readPair(plain: string, typed: string, options: QuantityOptions): CellValue | undefined {
  if (plain.length > LONGEST_READING) return undefined;
  const named = plain.replace(
    /\b(?:fwd|forwards?|rev|reversed?|backwards?|one way|(?:the )?other(?: way)?)\b\.?:?/gi,
    " ",
  );
  const parts = named.split(/\s*(?:\/|[,;](?=\s)|\bthen\b|\band\b)\s*/i).map((part) => part.trim());
  // "O/L" and "0/L" are one reading.
  if (parts.length !== 2 || isOpenWord(plain)) return undefined;
  const [one, other] = parts.map((part) => readMeasured(part, part, options));
  return one && other ? { kind: "pair", typed, both: [one, other] } : undefined;
}

/** What was still moving is a bound; what it came to is a value. */
function readDrifting(plain: string, typed: string, options: QuantityOptions): CellValue | undefined {
  if (plain.length > LONGEST_READING) return undefined;
  const found = driftOf(plain);
  const value = found && readMeasured(found.figure, typed, options);
  if (!found || value?.kind !== "quantity") return found && value?.kind === "open" ? value : undefined;
  const { drift, settled } = found;
  if (settled) return { ...value, drift };
  return { kind: "bound", typed, op: drift === "rising" ? ">=" : "<=", quantity: value.quantity, drift };
}

function readQuantity(
  plain: string,
  typed: string,
  options: QuantityOptions & { beeps?: boolean },
): CellValue {
  const moving = readDrifting(plain, typed, options);
  if (moving) return moving;
  const bare = plain.length > LONGEST_READING ? plain : plain.replace(REMARK, "");
  const measured =
    readMeasured(plain, typed, options) ?? (bare === plain ? undefined : readMeasured(bare, typed, options));
  if (measured) return measured;
  const state = stateOf(plain);
  if (state) return { kind: "state", typed, state };
  const result = readResultWord(plain, typed);
  if (result) return result;
  return unreadable(plain, typed, options);
}

/** Quantity, range, bound, open or short; undefined where it is none of these. */
function readMeasured(plain: string, typed: string, options: QuantityOptions): CellValue | undefined {
  if (plain.length > LONGEST_READING) return undefined;
  if (isOpenWord(plain)) return { kind: "open", typed };
  if (isShortWord(plain)) return { kind: "short", typed };
  const bound = readBound(plain, typed, options);
  if (bound) return bound;
  const bare = plain.replace(APPROX, "").replace(/(?<=\S)\s*\?+$/, "");
  if (bare !== plain && isOpenWord(bare)) return { kind: "open", typed };
  const single = parseQuantity(bare, options);
  if (single.ok) return { kind: "quantity", typed, quantity: single.quantity, approx: bare !== plain };
  return readRange(bare, typed, options);
}

const BOUNDS: readonly [RegExp, Bound][] = [
  [/^(?:>=|=>|≥|⩾|at least\b)\s*/i, ">="],
  [/^(?:<=|=<|≤|⩽|at most\b)\s*/i, "<="],
  [/^(?:>|(?:over|above|more than|greater than)\b)\s*/i, ">"],
  [/^(?:<|(?:under|below|less than)\b)\s*/i, "<"],
];

function readBound(plain: string, typed: string, options: QuantityOptions): CellValue | undefined {
  // A trailing plus is the same as a bound from below: "20M+".
  const plus = /^(.*[^+\s])\s*\+$/s.exec(plain);
  for (const [pattern, op] of BOUNDS) {
    const rest = plus ? `${plus[1]}` : plain.replace(pattern, "");
    if (!plus && rest === plain) continue;
    if (isOpenWord(rest)) return { kind: "open", typed };
    const result = parseQuantity(rest, options);
    return result.ok ? { kind: "bound", typed, op, quantity: result.quantity } : undefined;
  }
  return undefined;
}

const RANGE_MARK = /\.{2,3}|…|(?<![\s.])\s*[-–—~]\s*|\s+[-–—~]\s*|\s*\bto\b\s*/gi;

function readRange(plain: string, typed: string, options: QuantityOptions): CellValue | undefined {
  for (const match of plain.matchAll(RANGE_MARK)) {
    const left = plain.slice(0, match.index).trim();
    const right = plain.slice(match.index + match[0].length).trim();
    if (left === "" || right === "") continue;
    if (match[0].startsWith(".") && !/[.,]/.test(left + right)) continue; // "0..58" is likelier a slip
    const high = parseQuantity(right, options);
    if (!high.ok) continue;
    const low = parseQuantity(left, withUnitOf(right, options));
    if (!low.ok || low.quantity.dimension !== high.quantity.dimension) continue;
    // "-12.1-12.3" may mean down to -12.3 or up to +12.3.
    const bareHyphen = /^\s*[-–—]\s*$/.test(match[0]);
    if (bareHyphen && low.quantity.value < 0 && high.quantity.value > 0) {
      return {
        kind: "unreadable",
        typed,
        reason: `"${plain}" leaves open whether the second number is below zero: write it with "to"`,
        suggestion: `-${right} to ${left}`,
      };
    }
    const ordered = low.quantity.value <= high.quantity.value;
    return {
      kind: "range",
      typed,
      low: ordered ? low.quantity : high.quantity,
      high: ordered ? high.quantity : low.quantity,
    };
  }
  return undefined;
}

/** In "300-400 mV" the unit behind the second number holds for the first one too. */
function withUnitOf(text: string, options: QuantityOptions): QuantityOptions {
  const token = /^[+-]?[\d.,\s]*(?:e[+-]?\d+)?\s*(\D*)$/i.exec(normaliseSymbols(text))?.[1]?.trim();
  if (!token) return options;
  if (parseUnit(token)) return { ...options, unit: token };
  const base = options.unit === undefined ? undefined : parseUnit(options.unit)?.unit.symbol;
  if (prefixPower(token) === undefined) return options;
  const fallback = /^[kKMG]|^meg/i.test(token) ? "Ω" : "F";
  return { ...options, unit: token + (base || fallback) };
}

function readState(plain: string, typed: string): CellValue {
  if (plain === "1" || plain === "0") return { kind: "state", typed, state: plain === "1" ? "high" : "low" };
  const state = stateOf(plain);
  if (state) return { kind: "state", typed, state };
  if (isSwitchState(plain)) return { kind: "text", typed, text: plain };
  const measured = readMeasured(besideSteady(plain), typed, { unit: "V" });
  if (measured) return measured;
  const result = readResultWord(plain, typed);
  if (result) return result;
  const near = nearestWord(plain, "state");
  return defined({
    kind: "unreadable",
    typed,
    reason: `"${plain}" is not a logic state: write high, low, pulsing or floating`,
    suggestion: near,
  });
}

function readResult(plain: string, typed: string): CellValue {
  const result = readResultWord(plain, typed);
  if (result) return result;
  if (isOpenWord(plain)) return { kind: "open", typed };
  if (isShortWord(plain)) return { kind: "short", typed };
  const near = nearestWord(plain, "result");
  if (near !== undefined) {
    return { kind: "unreadable", typed, reason: `"${plain}" is not a result`, suggestion: near };
  }
  return { kind: "text", typed, text: plain };
}

/** "ok", "dead", and the same with a remark set off behind it: "ok (cleaned)", "dead, cable". */
function readResultWord(plain: string, typed: string): CellValue | undefined {
  const bare = plain.replace(/[.!]+$/, "");
  const head = /^([^,;:(–—]*?)\s*(?:[,;:(–—]|\s-\s)/.exec(plain)?.[1];
  for (const word of [plain, bare, head]) {
    if (word !== undefined && word !== "" && isResultWord(word)) {
      return { kind: "result", typed, ok: resultOf(word), word };
    }
  }
  return undefined;
}

const LONGEST_SLIP = 24;

/** Two readings in one cell, which no verdict could be about. */
function twoValues(plain: string, options: QuantityOptions): string | undefined {
  if (plain.length > LONGEST_READING) return undefined;
  const parts = plain.split(/\s*(?:\/|;|\bvs\b\.?|\band\b|\bthen\b|&)\s*/i);
  if (parts.length !== 2 || !parts.every((part) => parseQuantity(part, options).ok)) return undefined;
  return `"${plain}" holds two values: write one here and the other in a row or a column of its own (a range is written ${parts.join("-")})`;
}

function unreadable(plain: string, typed: string, options: QuantityOptions & { beeps?: boolean }): CellValue {
  const failed = parseQuantity(plain, options);
  if (options.beeps && !/\d/.test(plain)) return { kind: "unreadable", typed, reason: noBeep(plain) };
  if (namesDriftOnly(plain)) {
    const reason = `"${plain}" does not say where it was: write the figure with it, as in "0.5 ${plain.toLowerCase()}", or what it came to`;
    return { kind: "unreadable", typed, reason };
  }
  const reason = failed.ok ? `"${plain}" cannot be read` : (twoValues(plain, options) ?? failed.message);
  const offered = failed.ok ? [] : failed.suggestions;
  const candidates = plain.length > LONGEST_SLIP ? offered : [...offered, ...slipCandidates(plain)];
  const suggestion =
    candidates.find((candidate) => readMeasured(candidate, candidate, options)) ??
    nearestWord(plain, "state") ??
    nearestWord(plain, "result");
  return defined({ kind: "unreadable", typed, reason, suggestion });
}
