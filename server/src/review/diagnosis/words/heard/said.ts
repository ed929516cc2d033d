// What running words and lists say row by row, before it is made a table of.
import type { Span } from "../../../../text/span";

/** Words of the log with their place in the block. */
export interface Word {
  readonly text: string;
  readonly span: Span;
}

/** A row as a table of that procedure would have it: its cells by the role or the measure of their columns. */
export interface SaidRow {
  readonly procedure: string;
  readonly cells: { readonly [column: string]: Word };
}

export const wordSaid = (text: string, at: number): Word => ({
  text,
  span: { start: at, end: at + text.length },
});

/** It is not what was read on this board, or not as it stands. */
const NOT_READ =
  /\b(?:would|could|must|maybe|perhaps|if|unless|until|order(?:ed)?|(?:other|another|spare|donor|second) board|owner|customer|last (?:shop|time|year|week)|drawing|next (?:I|step)|not read|used to)\b|\?/i;
/** Something was put on the place by hand. */
const FORCED =
  /\b(?:held (?:down|up|high|low)|to ground with|clipp?ed|injected|fed (?:in|from|with|\d)|fed\b|a wire from|bridged|jumper(?:ed)?|forced|I held|held\b[^,;.]{0,30}\b(?:high|low|down|up)|touch of|touch(?:ed|ing) |pull(?:ed)? (?:it |them )?(?:up|down|high|low))\b/i;
/** What it should be stands beside what it is: "3.79, and that should be 0.7", "0.21 (0.2 expected)". */
const COMPARED =
  /\([^()]*\b(?:should|expected|nominal|marked|normal|printed)\b[^()]*\)|(?:,?\s*(?:and|but)?\s*(?:that|it|which)?\s*\b(?:should|ought|instead of|rather than|not the)\b|\b(?:expected|nominal|marked)\b)[^,;()]*/gi;

/** The sentence without what it compares with, each place where it was; undefined where it says nothing that was read. */
export function plainlySaid(text: string): string | undefined {
  if (NOT_READ.test(text) || FORCED.test(text)) return undefined;
  return text.replace(COMPARED, (all) => " ".repeat(all.length));
}

/** "2, 3 and 5", "2-5", "2 to 5": none where it is no list of small numbers. */
export function numbersListed(list: string): number[] {
  return list.split(/\s*(?:,|&|\/|\band\b)\s*/i).flatMap((one) => {
    const [, from = "", to = ""] = /^(\d{1,2})\s*(?:-|\u2013|to)\s*(\d{1,2})$/.exec(one.trim()) ?? [];
    if (to !== "") {
      const length = Number(to) - Number(from) + 1;
      return length > 0 && length < 65 ? Array.from({ length }, (_, i) => Number(from) + i) : [];
    }
    return /^\d{1,2}$/.test(one.trim()) ? [Number(one)] : [];
  });
}

export const LIST =
  "\\d{1,2}(?:\\s*(?:,|&|,?\\s*\\band\\b|-|\\u2013|\\bto\\b)\\s*\\d{1,2}(?![\\d.]\\d|[a-zA-Z]))*";
