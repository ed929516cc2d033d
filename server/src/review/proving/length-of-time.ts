// How long a soak is to be, from the words of its title: "One hour on the bench", "Soak, 30 min".

const WORDS: Readonly<Record<string, number>> = {
  a: 1,
  an: 1,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  eight: 8,
  ten: 10,
  twelve: 12,
  twenty: 20,
  thirty: 30,
  half: 0.5,
};

const LENGTH =
  /(?<![\w.])(\d+(?:[.,]\d+)?|half(?: an?)?|[a-z]+)[\s-]*(hours?|hrs?|h|minutes?|mins?|min|days?)(?!\w)/gi;

/** In seconds; undefined where the words name no length. */
export function lengthOfTime(title: string): number | undefined {
  for (const [, count = "", unit = ""] of title.matchAll(LENGTH)) {
    const word = count.toLowerCase().replace(/ an?$/, "");
    const number = /^\d/.test(word) ? Number(word.replace(",", ".")) : WORDS[word];
    if (number === undefined) continue;
    return number * (/^h/i.test(unit) ? 3600 : /^d/i.test(unit) ? 86400 : 60);
  }
  return undefined;
}

/** "1 h", "1.5 h", "20 min"; of seconds. */
export const sayLength = (seconds: number): string =>
  seconds >= 3600 ? `${Math.round(seconds / 360) / 10} h` : `${Math.round(seconds / 6) / 10} min`;
