/** An aside in brackets before the sentence's last full stop: "It is dead (by its label)." */
export const withAside = (sentence: string, aside: string): string =>
  `${sentence.replace(/\.$/, "")} (${aside}).`;
