/** An aside in brackets before the sentence's last full stop: "It is dead (by its label)." */
export const withAside = (sentence: string, aside: string): string =>
  `${sentence.replace(/\.$/, "")} (${aside}).`;

/** The first letter in upper case, as a sentence begins. */
export const upperFirst = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);
