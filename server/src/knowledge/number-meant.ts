// The part number that was meant by one that the library does not know.
import type { Library } from "./library";
import { as74, normalPart } from "./part-number";

/** What is taken for each other when a number is read off a part or typed. From memory. */
const ALIKE: Readonly<Record<string, string>> = {
  O: "0",
  Q: "0",
  D: "0",
  I: "1",
  L: "1",
  Z: "2",
  S: "5",
  G: "6",
  B: "8",
  "0": "O",
  "1": "L",
  "5": "S",
  "8": "B",
};
/** Of more than these only the first are tried. */
const MOST_SLIPS = 8;

/**
 * A number that the library knows and that differs in nothing but a slip of the eye or the hand: "74O4" is 7404, "74SL00"
 * 74LS00. Undefined where none or more than one was meant: another figure makes it another part, which there may be.
 */
export function numberMeant(typed: string, library: Library): string | undefined {
  const part = normalPart(typed);
  if (part.length > 20 || isKnown(part, library)) return undefined;
  const known = (numbers: Iterable<string>): string | undefined => {
    const found = new Set([...numbers].filter((number) => isKnown(number, library)));
    return found.size === 1 ? [...found][0] : undefined;
  };
  return known(misread(part)) ?? known(swapped(part)) ?? known(misread(part, 2));
}

/** Of the 74 series the family too: the pins of a 74SL04 are known, but no family has these letters. */
function isKnown(number: string, library: Library): boolean {
  const match = library.device(number);
  return match !== undefined && (match.family !== undefined || !as74(number)?.letters);
}

/** The word with one letter read otherwise, or with `slips` of them. */
function* misread(part: string, slips = 1): Generator<string> {
  const places = [...part]
    .flatMap((letter, at) => (ALIKE[letter] === undefined ? [] : [at]))
    .slice(0, MOST_SLIPS);
  for (const [i, at] of places.entries()) {
    const one = put(part, at);
    if (slips === 1) yield one;
    else for (const more of places.slice(i + 1)) yield put(one, more);
  }
}

const put = (part: string, at: number): string =>
  part.slice(0, at) + (ALIKE[part[at] ?? ""] ?? part[at]) + part.slice(at + 1);

/** Two neighbours the wrong way round, one of them a letter: with figures alone it is another number. */
function* swapped(part: string): Generator<string> {
  for (let at = 0; at + 1 < part.length; at++) {
    const [a = "", b = ""] = [part[at], part[at + 1]];
    if (a !== b && /[A-Z]/.test(a + b)) yield part.slice(0, at) + b + a + part.slice(at + 2);
  }
}
