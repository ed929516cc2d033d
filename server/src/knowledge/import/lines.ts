import type { Importing } from "./imported";

export interface ImportLine {
  readonly text: string;
  /** From 1. */
  readonly number: number;
  /** Whether a line end stands behind it. */
  readonly ended: boolean;
}

const STRIDE = 200_000;

/** The lines of a text one by one, never all at once: `take` false stops. A last line without anything in it is none. */
export function* eachLine(text: string, take: (line: ImportLine) => boolean): Importing<void> {
  let next = STRIDE;
  let number = 0;
  for (let at = 0; at < text.length; ) {
    if (at >= next) {
      next = at + STRIDE;
      yield { done: at, total: text.length };
    }
    let end = at;
    while (end < text.length && text[end] !== "\n" && text[end] !== "\r") end++;
    number++;
    if (!take({ text: text.slice(at, end), number, ended: end < text.length })) return;
    at = end + (text[end] === "\r" && text[end + 1] === "\n" ? 2 : 1);
  }
}
