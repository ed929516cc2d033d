// A pattern that ends in `[ \t]*$` is tried again at every blank before the end: many of them take the square of their
// number. What stands before an offset is looked for backwards instead.

/** Offset at which the spaces and tabs right before `end` begin, `from` at the lowest. */
export function startOfBlanks(text: string, end: number, from = 0): number {
  let at = end;
  while (at > from && (text[at - 1] === " " || text[at - 1] === "\t")) at--;
  return at;
}

/** Offset behind the line end before `at`, 0 in the first line. A line ends at `\n`, `\r\n` or a lone `\r`. */
export const startOfLine = (text: string, at: number): number =>
  at === 0 ? 0 : Math.max(text.lastIndexOf("\n", at - 1), text.lastIndexOf("\r", at - 1)) + 1;
