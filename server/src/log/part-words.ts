// A part as people name it in one cell or heading: the designator, and beside it the pin or the number printed on the
// part. "U5", "U5 (7404)", "7404 U5", "U5-4", "2C (74LS00)", "Q3-B".
import { defined } from "../base/defined";
import { memo, memoText } from "../base/memo";
import type { Library } from "../knowledge/library";
import { type Span, shift, span } from "../text/span";
import type { CellText } from "./cell-text";

/** A part as a cell or heading names it, with each piece at its place. */
export interface PartWords {
  readonly ref: CellText;
  readonly pin?: CellText;
  /** The number on the part, or what stands in its place. */
  readonly part?: CellText;
}

interface Words {
  readonly text: string;
  readonly span: Span;
}

const DESIGNATOR = "[A-Za-z]{1,4}\\d{1,4}[A-Za-z]?";
/** A place on a board that is numbered like a map: row 2, column C. */
const GRID = "\\d{1,2}[A-Za-z]\\d?";
const PIN = new RegExp(
  `^(${DESIGNATOR}|${GRID})(?:\\s*[-.:]\\s*|\\s+(?=p(?:in)?\\b|leg\\b))(?:p(?:in)?|leg)?\\s*\\.?\\s*(\\d{1,3})$`,
  "i",
);
/** The legs of transistors and diodes have letters; those behind a chip are its gates. */
const LEG = /^((?:Q|T|TR|D|CR|SCR|VT)\d{1,4})\s*[-.:]\s*([A-Za-z]{1,2})$/;
// Bounded: without, each of a thousand joined pieces is tried as the first of all behind it.
const NUMBER = "'?[A-Za-z0-9]{1,40}(?:[-/.][A-Za-z0-9]{1,40}){0,7}";
const FRONT = new RegExp(`^(${DESIGNATOR}|${GRID})(?![\\w])`);
const BEHIND = new RegExp(
  `^\\s*(?:[,:;=/-]|[([]|\\ba\\b|\\bis an?\\b|\\()?\\s*(${NUMBER})(?=$|[\\s)\\],;])`,
  "i",
);
const NUMBER_FIRST = new RegExp(
  `^(${NUMBER})\\s*(?:[,:;=/@-]|[([]|\\bat\\b|\\bin\\b)?\\s*(${DESIGNATOR}|${GRID})[)\\]]?$`,
  "i",
);

/** "IC 3" is IC3: letters that begin designators and are no words. */
const SPACED = /^(IC|U|Z|Q|D|TR|VR|CR|J|P|R|C|L|K)\s(\d{1,3})(?!\d)/i;

/** Undefined for words that begin with no designator; those are a name, and are nobody's device. */
export function partWords({ text, span: at }: Words, library: Library): PartWords | undefined {
  const found = partsReader(library)(text);
  return found && (at.start === 0 ? found : placedAt(found, at.start));
}

/** Spans count from the text's start. */
const partsReader = memo((library: Library) =>
  memoText((text) => readPart({ text, span: span(0, text.length) }, library)),
);

const placedAt = ({ ref, pin, part }: PartWords, by: number): PartWords =>
  defined({ ref: moved(ref, by), pin: pin && moved(pin, by), part: part && moved(part, by) });

const moved = ({ text, span }: CellText, by: number): CellText => ({ text, span: shift(span, by) });

function readPart(words: Words, library: Library): PartWords | undefined {
  const spaced = SPACED.exec(words.text);
  if (!spaced) return readWords(words, library);
  const [front, letters = "", number = ""] = spaced;
  // Read without the blank, and put back where it stands.
  const joined = {
    text: `${letters}${number}${words.text.slice(front.length)}`,
    span: span(words.span.start + 1, words.span.end),
  };
  const found = readWords(joined, library);
  return (
    found && { ...found, ref: { text: found.ref.text, span: span(words.span.start, found.ref.span.end) } }
  );
}

function readWords({ text, span: at }: Words, library: Library): PartWords | undefined {
  const piece = (from: number, length: number): CellText => ({
    text: text.slice(from, from + length),
    span: span(at.start + from, at.start + from + length),
  });
  const known = (number: string): boolean => isPartNumber(number, library);
  const pin = PIN.exec(text) ?? LEG.exec(text);
  if (pin?.[1] !== undefined && pin[2] !== undefined)
    return { ref: piece(0, pin[1].length), pin: piece(text.length - pin[2].length, pin[2].length) };
  const turned = NUMBER_FIRST.exec(text);
  if (turned?.[1] !== undefined && turned[2] !== undefined && known(turned[1]) && !known(turned[2])) {
    const from = text.lastIndexOf(turned[2]);
    return { ref: piece(from, turned[2].length), part: piece(0, turned[1].length) };
  }
  const front = FRONT.exec(text)?.[1];
  if (front === undefined) return undefined;
  const rest = text.slice(front.length);
  const number = BEHIND.exec(rest);
  const word = number?.[1];
  const part =
    word !== undefined &&
    (known(word) || (/^\s*\(/.test(rest) && looksLikeNumber(word)) || isValueOf(front, word))
      ? piece(front.length + (number?.[0].length ?? 0) - word.length, word.length)
      : undefined;
  // A place such as "2C" is one only where a device says so; else it is whatever the cell holds.
  if (!part && !new RegExp(`^${DESIGNATOR}$`).test(front)) return undefined;
  if (!part && /^\.\w/.test(rest)) return undefined;
  return defined({ ref: piece(0, front.length), part });
}

/** One that the library knows, or whose letters a maker uses: then it is not certain what it is, but that it is a number is. */
function isPartNumber(word: string, library: Library): boolean {
  const doubt = library.doubt(word);
  return (
    library.device(word) !== undefined ||
    (doubt !== undefined && doubt.letters.length > 1 && doubt.uses.length > 0)
  );
}

/** "4k7" behind R6 and "100n" behind C3: what is marked on a part that has no number. */
const isValueOf = (ref: string, word: string): boolean =>
  /^[RCL]\d/i.test(ref) && /^\d+(?:[.,]\d+)?(?:[kKMRunp]\d{0,2}|ohms?|[unp][FH])$/.test(word);

/** "74O4" and "MK3870": letters and figures in one word, no value with a unit and no place. */
export const looksLikeNumber = (word: string): boolean =>
  /^'?[A-Za-z0-9][A-Za-z0-9./-]{2,19}$/.test(word) &&
  (word.match(/\d/g)?.length ?? 0) >= 2 &&
  !/^\d{1,2}[.,]\d+[A-Za-z]*$/.test(word) &&
  !/^\d+(?:[kKMRunpm]\d*|V|mV|ohms?|[unp]F)$/.test(word) &&
  !/^(?:DIP|DIL|SIP|TO|SO|PLCC|QFP)-?\d+$/i.test(word) &&
  !/^(?:19|20)\d\d$/.test(word);

/** Designators in running words: capitals in front, or the u and q of people in a hurry. */
const IN_WORDS = /(?<![A-Za-z0-9-])(?:[A-Z]{1,3}|[uq])\d{1,4}(?![A-Za-z0-9-])/g;
const GRID_IN_WORDS = new RegExp(`(?<![A-Za-z0-9-])(\\d{1,2}[A-Z])(?=\\s*[([]\\s*${NUMBER}\\s*[)\\]])`, "g");

/**
 * The parts that a heading names, each once, with their numbers where it tells them. Words that say of a part that it is
 * out are for the caller to leave out.
 */
export function partsInHeading({ text, span: at }: Words, library: Library): PartWords[] {
  const refs = [...text.matchAll(IN_WORDS), ...text.matchAll(GRID_IN_WORDS)].filter(
    (match) => !library.device(match[0]),
  );
  const seen = new Map<string, PartWords>();
  const loose = numbersIn(text, library).filter(
    ({ index, word }) => !refs.some((ref) => ref.index === index && ref[0].length === word.length),
  );
  for (const match of refs.sort((a, b) => a.index - b.index)) {
    const end = match.index + match[0].length;
    const ref: CellText = { text: match[0], span: span(at.start + match.index, at.start + end) };
    const number = BEHIND.exec(text.slice(end));
    const word = number?.[1];
    const isBehind =
      word !== undefined &&
      (isPartNumber(word, library) ||
        (/^\s*[([]/.test(text.slice(end)) && looksLikeNumber(word) && !/^[A-Z]{1,3}\d{1,3}$/.test(word)));
    const from = end + (number?.[0].length ?? 0) - (word?.length ?? 0);
    const part =
      isBehind && word !== undefined
        ? { text: word, span: span(at.start + from, at.start + from + word.length) }
        : undefined;
    const known = seen.get(match[0]);
    if (!known || (!known.part && part)) seen.set(match[0], defined({ ref: known?.ref ?? ref, part }));
  }
  const all = [...seen.values()];
  const [only] = all;
  const [number] = loose;
  // One part and one number somewhere in the heading belong together: "74LS138 at U5, diode check".
  if (all.length === 1 && only && !only.part && loose.length === 1 && number) {
    const from = at.start + number.index;
    return [{ ref: only.ref, part: { text: number.word, span: span(from, from + number.word.length) } }];
  }
  return all;
}

/** "U30 and U31, both 74LS161", "D1 to D4, 1N4004": the one number that all parts of a heading have. */
export function numberOfAll({ text, span: at }: Words, library: Library): CellText | undefined {
  const refs = new Set(
    [...text.matchAll(IN_WORDS)].map(([ref]) => ref).filter((ref) => !library.device(ref)),
  );
  const numbers = numbersIn(text, library).filter(({ word }) => !refs.has(word));
  const [only, another] = numbers;
  if (!only || another) return undefined;
  if (refs.size < 2 && !/\b(?:both|all|each|every)\b/i.test(text)) return undefined;
  return { text: only.word, span: span(at.start + only.index, at.start + only.index + only.word.length) };
}

function numbersIn(text: string, library: Library): { index: number; word: string }[] {
  return [...text.matchAll(new RegExp(`(?<![A-Za-z0-9'.-])${NUMBER}(?![A-Za-z0-9-])`, "g"))]
    .map((match) => ({ index: match.index, word: match[0] }))
    .filter(({ word }) => /\d{2}/.test(word) && isPartNumber(word, library));
}
