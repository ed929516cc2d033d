import { nearest, oneSlip } from "../text/nearest";

const wordsOf = (id: string): readonly string[] =>
  id
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);

/** Shorter beginnings of a word fit too much: `re` is no word for a board. */
const LEAST_LETTERS = 3;

/**
 * The known board id that was meant by one that is not known, or undefined where none or more than one may have been.
 * An id is often typed by the word people say: `halden` is `halden-6809` where no other board is a halden. What agrees
 * word by word is nearer than what agrees letter by letter.
 */
export function boardMeant(id: string, known: Iterable<string>): string | undefined {
  const ids = [...known];
  const typed = wordsOf(id);
  if (typed.length === 0) return undefined;
  for (const fits of [same, begins, among, goesOn, slipped]) {
    const found = ids.filter((one) => fits(typed, wordsOf(one)));
    if (found.length === 1) return found[0];
    // Several boards of one word: which of them it is only the writer knows.
    if (found.length > 1) return undefined;
  }
  return nearest(id, ids);
}

type Words = readonly string[];

/** `Halden 6809`, `halden6809`: only case and what joins the words differ. */
const same = (typed: Words, known: Words): boolean => typed.join("") === known.join("");

/** `halden`, `hald` and `halden-68` begin `halden-6809`. */
const begins = (typed: Words, known: Words): boolean =>
  typed.join("").length >= LEAST_LETTERS && startsWith(known, typed);

/** `6809` is a word of `halden-6809`; of several words all have to be. */
const among = (typed: Words, known: Words): boolean =>
  typed.join("").length >= LEAST_LETTERS && typed.every((word) => known.includes(word));

/** `haldn` and `hadlen 6809`: words of `halden-6809`, one of them with a slip. A word of figures has none: it is another. */
const slipped = (typed: Words, known: Words): boolean =>
  typed.join("").length > LEAST_LETTERS &&
  typed.filter((word) => !known.includes(word)).length === 1 &&
  typed.every((word) => known.includes(word) || (!/\d/.test(word) && isNear(word, known)));

/** Of four letters and more. */
const isNear = (word: string, known: Words): boolean =>
  word.length > LEAST_LETTERS && known.some((other) => oneSlip(word, other));

/** `halden-6809-rev-b` says more than the id `halden-6809`. */
const goesOn = (typed: Words, known: Words): boolean =>
  known.join("").length >= LEAST_LETTERS &&
  typed.length > known.length &&
  known.every((word, at) => word === typed[at]);

/** All words but the last in full, of the last one its beginning. */
const startsWith = (known: Words, typed: Words): boolean =>
  typed.length <= known.length &&
  typed.every((word, at) =>
    at < typed.length - 1 ? word === known[at] : (known[at] as string).startsWith(word),
  );
