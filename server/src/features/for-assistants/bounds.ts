/** Readings in one answer; there is a way to ask for those behind. */
export const MOST_READINGS = 200;
/** Characters of one text; a finding's sentences have some three hundred. */
const MOST_CHARACTERS = 600;

/** Cut where it is longer than any text that was meant to be read. */
export const bounded = (text: string): string =>
  text.length <= MOST_CHARACTERS
    ? text
    : `${text.slice(0, MOST_CHARACTERS - 1).replace(/[\ud800-\udbff]$/, "")}…`;
