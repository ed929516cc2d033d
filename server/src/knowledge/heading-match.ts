import type { Procedure } from "./types";

/** What a heading says about the circumstances of its readings. */
export interface HeadingQualifiers {
  readonly repair?: "before" | "after";
  readonly power?: "unpowered" | "powered";
  readonly load?: "unloaded" | "loaded";
}

export interface HeadingMatch {
  readonly procedure: Procedure;
  readonly qualifiers: HeadingQualifiers;
  /** The title or alias that was found, as its procedure writes it. */
  readonly matched: string;
}

/** Headings longer than this are prose. */
const MAX_WORDS = 40;
/** Headings remembered; a workspace has a few dozen different ones. */
const MAX_CACHED = 2_000;

/** Lower-case words; punctuation, numbering and Markdown marks are gone, "&" reads "and". */
export const headingWords = (text: string): string[] =>
  text
    .toLowerCase()
    .replaceAll("&", " and ")
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);

/**
 * Makes the function that finds the procedure a heading names: the longest title or alias whose words stand
 * in the heading one after the other, with or without the qualifiers around and between them. Undefined
 * where none does. Of two procedures with the same name the later wins, so a workspace can replace ours.
 */
export function headingMatcher(
  procedures: readonly Procedure[],
): (heading: string) => HeadingMatch | undefined {
  const names = new Map<string, { procedure: Procedure; name: string }>();
  let longest = 0;
  for (const procedure of procedures) {
    for (const name of [procedure.title, ...procedure.aliases]) {
      const words = headingWords(name);
      if (words.length === 0) continue;
      names.set(words.join(" "), { procedure, name });
      longest = Math.max(longest, words.length);
    }
  }
  const alone = new Map<string, { procedure: Procedure; name: string }>();
  for (const procedure of procedures)
    for (const name of procedure.alone) alone.set(onlyWords(headingWords(name)), { procedure, name });
  const cache = new Map<string, HeadingMatch | undefined>();
  return (heading) => {
    if (cache.has(heading)) return cache.get(heading);
    const found = match(heading);
    if (cache.size >= MAX_CACHED) cache.clear();
    cache.set(heading, found);
    return found;
  };

  function match(heading: string): HeadingMatch | undefined {
    const words = headingWords(heading);
    if (words.length > MAX_WORDS) return undefined;
    const { qualifiers, rest } = takeQualifiers(words);
    // A name may hold a word that is else a qualifier, so the heading is tried whole as well.
    const whole = longestName(words);
    const stripped = rest.length === words.length ? undefined : longestName(rest);
    const best = !whole || (stripped && stripped.key.length > whole.key.length) ? stripped : whole;
    if (best) return { procedure: best.procedure, matched: best.name, qualifiers };
    const bare = alone.get(onlyWords(rest)) ?? beforeComma(heading);
    return bare && { procedure: bare.procedure, matched: bare.name, qualifiers };
  }

  /** "Volts, lift called": the word for what was measured, and behind it how the board stood meanwhile. */
  function beforeComma(heading: string) {
    const [first = "", ...behind] = heading.split(/[,;:]/);
    const found = behind.length > 0 ? alone.get(onlyWords(headingWords(first))) : undefined;
    return found?.procedure.meter ? found : undefined;
  }

  function longestName(words: readonly string[]) {
    let best: { key: string; procedure: Procedure; name: string } | undefined;
    for (let from = 0; from < words.length; from++) {
      for (let count = Math.min(longest, words.length - from); count > 0; count--) {
        const key = words.slice(from, from + count).join(" ");
        const found = names.get(key);
        if (found && (!best || key.length > best.key.length)) best = { key, ...found };
      }
    }
    return best;
  }
}

/** What may stand beside the one word of a short heading: a number, a part and what is printed on it, small words. */
const BESIDES =
  /^(?:\d+[a-z]{0,3}\d*[a-z]*|[a-z]{1,4}\d{1,5}[a-z]{0,2}|of|at|on|the|to|in|again|first|second|board|all|chips?|ics?)$/;

/** The words of a heading that say what it is about: "out of circuit test" says "out circuit test". */
const onlyWords = (words: readonly string[]): string => words.filter((word) => !BESIDES.test(word)).join(" ");

function takeQualifiers(words: readonly string[]): { qualifiers: HeadingQualifiers; rest: string[] } {
  const qualifiers: { -readonly [K in keyof HeadingQualifiers]: HeadingQualifiers[K] } = {};
  const rest: string[] = [];
  for (let i = 0; i < words.length; i++) {
    const word = words[i]!;
    if (word === "before" || word === "after") {
      const article = words[i + 1] === "the" ? 1 : 0;
      if (words[i + 1 + article] === "repair") {
        qualifiers.repair ??= word;
        i += 1 + article;
        continue;
      }
    }
    if (word === "unpowered" || word === "powered") qualifiers.power ??= word;
    else if (word === "unloaded" || word === "loaded") qualifiers.load ??= word;
    else rest.push(word);
  }
  return { qualifiers, rest };
}
