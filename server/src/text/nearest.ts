import { distance } from "fastest-levenshtein";

/** Case and the choice of hyphen, underscore or blank are the commonest slips and must not count as letters. */
const plain = (word: string): string => word.toLowerCase().replace(/[\s_]+/g, "-");

/** True where the two differ by one swap of neighbouring letters: the commonest slip of two hands. */
function swapped(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  const at = [...a].findIndex((letter, i) => letter !== b[i]);
  return at >= 0 && a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2);
}

/** True where the two differ by one letter, or by two neighbours swapped. */
export const oneSlip = (a: string, b: string): boolean => {
  const [one, other] = [plain(a), plain(b)];
  return Math.abs(one.length - other.length) <= 1 && (swapped(one, other) || distance(one, other) <= 1);
};

/**
 * The known word nearest to what was typed, or undefined where none is near: up to a third of its letters
 * may differ, and two neighbours swapped are nearer than any other slip. Of equally near ones the first.
 */
export function nearest(typed: string, known: Iterable<string>): string | undefined {
  if (typed === "" || typed.length > 80) return undefined;
  const wanted = plain(typed);
  const most = Math.max(1, Math.floor(wanted.length / 3));
  let best: string | undefined;
  let least = most + 1;
  for (const word of known) {
    if (Math.abs(word.length - typed.length) >= least) continue;
    const away = swapped(wanted, plain(word)) ? 0.5 : distance(wanted, plain(word));
    if (away < least) [best, least] = [word, away];
  }
  return best;
}

/**
 * As `nearest`, but undefined where several known words are equally near: of U1 to U8 none is meant by U9 more than
 * another.
 */
export function onlyNearest(typed: string, known: Iterable<string>): string | undefined {
  const words = [...known];
  const first = nearest(typed, words);
  if (first === undefined) return undefined;
  const others = words.filter((word) => word !== first);
  // Asked the other way round, the first of equally near ones is another.
  return nearest(typed, [...others, first]) === first ? first : undefined;
}

const digits = (word: string): string => word.replace(/\D+/g, "");

/**
 * As `nearest`, for names of the writer's own, as of parts and nets: U15 is no slip for U14, nor SW_COL_1 for SW_ROW_1,
 * so the digits must agree and only a fifth of the letters may differ.
 */
export function nearestName(typed: string, known: Iterable<string>): string | undefined {
  const wanted = digits(typed);
  const near = nearest(
    typed,
    [...known].filter((word) => digits(word) === wanted),
  );
  if (near === undefined) return undefined;
  return distance(plain(typed), plain(near)) <= Math.max(1, Math.floor(typed.length / 5)) ? near : undefined;
}

/** " Did you mean `x`?", or nothing. */
export const didYouMean = (word: string | undefined): string =>
  word === undefined ? "" : ` Did you mean \`${word}\`?`;
