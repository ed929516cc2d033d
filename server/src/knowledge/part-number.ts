// How a part number as printed on a part is taken apart. Speed grades, package suffixes and date codes are from memory;
// they serve to find an entry of the library, which names its own source. What letters stand in front of a number is
// in the makers' files.

export interface Part74 {
  /** Library id of the function: "7404". */
  readonly id: string;
  /** The number behind the family letters: "04", "4051". */
  readonly number: string;
  /** Letters of the family: "" for 7404, "LS" for 74LS04. */
  readonly letters: string;
  /** Letters before the 74; of the 54 series none, since only its makers are believed. */
  readonly maker: string;
}

/** Upper case, without blanks: the form in which part numbers are compared. A micro sign is the u that people type. */
export const normalPart = (typed: string): string =>
  typed.replaceAll(/[µμ]/g, "u").toUpperCase().replaceAll(/\s+/g, "");

/**
 * A 74xx or 54xx number, with or without maker and case: "SN74LS04N" is 7404 in family LS. Only makers who
 * made the 54 series are believed before 54: there are transistors and thyristors numbered 54xx.
 */
export function as74(part: string): Part74 | undefined {
  const match =
    /^(?:([A-Z]{0,4})74|((?:SN|DM|MC|MM|JM|CD|N|S|F)?)54)([A-Z]{0,4}?)(\d{2,5})(?:[A-Z]{1,4}\d{0,2})?(?:[-/].*)?$/.exec(
      part,
    );
  if (!match) return undefined;
  const [, maker = "", , letters = "", number = ""] = match;
  return { id: `74${number}`, number, letters, maker };
}

/**
 * The number that "LS139", "HC04" and "'138" are short for; the text itself where it is short for none. Letters that
 * alone are those of a designator (S00, F74) are not believed.
 */
export function inFull(part: string): string {
  if (/^'[A-Z]{0,4}\d{2,5}/.test(part)) return `74${part.slice(1)}`;
  return /^(?:LS|ALS|AHCT?|HCT?|ACT|FCT|BCT)\d{2,5}[A-Z]{0,2}$/.test(part) ? `74${part}` : part;
}

/** Letters that begin a transistor's own number, so that BF324 is not taken for a 324. */
export const isTransistorLetters = (letters: string): boolean =>
  /^(?:A[CF]|B[CDFSU][A-Z]?|TIP|MPS[A-Z]|MJ[DE]?|PN|IRF[A-Z]*|VN|ZTX)$/.test(letters);

/** A year of two figures from 1965 on and a week: 8134. */
const DATE_CODE = /^(?:6[5-9]|[7-9]\d|[0-2]\d)(?:0[1-9]|[1-4]\d|5[0-3])$/;

/**
 * What is printed on a part, with less and less beside the number: all of it, then without the maker's mark and without
 * a date code in front of it or behind. In normal form.
 */
export function* printed(typed: string, isMark: (word: string) => boolean): Generator<string> {
  const whole = normalPart(typed);
  yield whole;
  // Harris puts a figure for the case in front: HM1-7611-5.
  const cased = /^(H[ACDIM])[1-9]-(?=\d)/.exec(whole);
  if (cased) yield `${cased[1]}${whole.slice(cased[0].length)}`;
  // Glued to the case's letter: SN74LS04N8134.
  const glued = /^(.*\d[A-Z]{1,4})(\d{4})$/.exec(whole);
  if (glued?.[1] !== undefined && DATE_CODE.test(glued[2] ?? "")) yield glued[1];
  const words = typed.trim().toUpperCase().split(/\s+/);
  if (words.length < 2) return;
  const last = words.length - 1;
  const isDate = (word: string | undefined): boolean => DATE_CODE.test(word ?? "");
  const without = [
    words.filter((word) => !isMark(word)),
    words.filter((word, at) => !isMark(word) && !(at === last && isDate(word))),
    words.filter((word, at) => !isMark(word) && !(at === 0 && isDate(word))),
  ];
  for (const kept of without) if (kept.length < words.length) yield normalPart(kept.join(""));
}

/** The numbers under which a part may be listed, the one nearest to what was typed first. */
export function* cores(part: string): Generator<string> {
  for (let whole = part; ; ) {
    yield* withoutSuffix(whole);
    const at = Math.max(...["-", "/", "."].map((sign) => whole.lastIndexOf(sign)));
    if (at <= 0) return;
    whole = whole.slice(0, at);
  }
}

/** Letters behind a number that make another part of it and are no case and no grade: Z80DMA is no Z80. */
const A_WORD = /^[AB]?(?:DMA|PIO|SIO|CTC|DART|STI|SCC|CIO|FIO|MMU|UART|KIT)$/;
/** More letters than these behind a number are a word. */
const MOST_LETTERS = 5;

/** The number, then the same with a speed in figures (P20, CP1, SA90P) and letters of case and grade taken off its end. */
function* withoutSuffix(part: string): Generator<string> {
  yield* graded(part);
  yield* withoutLetters(part);
  const slower = /^(.*(?:\d{4}|\dC\d\d)[A-Z]{1,4})(?:\d{1,2}|\d\d[A-Z]{1,2})$/.exec(part)?.[1];
  if (slower === undefined) return;
  yield* graded(slower);
  yield* withoutLetters(slower);
}

function* withoutLetters(part: string): Generator<string> {
  const letters = /[A-Z]*$/.exec(part)?.[0] ?? "";
  if (letters.length > MOST_LETTERS || A_WORD.test(letters)) return;
  for (let cut = 1; cut <= Math.min(letters.length, MOST_LETTERS - 1); cut++) {
    const shorter = part.slice(0, part.length - cut);
    if (!/\d/.test(shorter)) return;
    yield* graded(shorter);
  }
}

/** 68A02 and 68B02 are faster 6802. */
function* graded(part: string): Generator<string> {
  yield part;
  const speed = /^([A-Z]*6[58])[ABC](\d\d[A-Z]{0,2})$/.exec(part);
  if (speed) yield `${speed[1]}${speed[2]}`;
}
