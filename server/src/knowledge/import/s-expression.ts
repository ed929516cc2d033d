// Parenthesised text, read without ever holding all of it as a tree: only the lists that a format asks for are built, one
// after the other, and the nesting is counted instead of walked, so that no depth of it overflows the stack.
import type { Importing } from "./imported";

export type SValue = string | SList;

export interface SList {
  readonly head: string;
  /** What stands behind the head. */
  readonly items: readonly SValue[];
  /** Where it begins, from 1. */
  readonly line: number;
}

export interface Wanted {
  /** Lists handed over, by the heads that lead to them: "export/nets/net". No more than three. */
  readonly records: ReadonlySet<string>;
  /** Heads of what is kept within them, at any depth. */
  readonly keep: ReadonlySet<string>;
}

/** How the text ended. */
export interface SEnd {
  /** Head and line of the list that is still open, innermost; the text is cut off, or a parenthesis is missing. */
  readonly open?: { readonly head: string; readonly line: number };
  /** The last line. */
  readonly line: number;
  /** Where something stands behind the end of the first list. */
  readonly extra?: number;
  /** Where one record came to hold more than is kept; nothing behind it was read. */
  readonly crowded?: number;
}

/** Values kept of one list; a footprint of a thousand pads has some 8,000. */
const MOST_VALUES = 100_000;
const DEEPEST_KEPT = 8;
/** Characters between two steps: some milliseconds. */
const STRIDE = 200_000;

interface Open extends SList {
  readonly items: SValue[];
}

const SPACE = /[^\s]/g;
const WORD_END = /[\s()"]/g;

/**
 * Hands over each record as it is closed. Of a record that the end cuts off, what was whole in it is handed over.
 * @param found is told whether the record is whole; false stops the reading
 */
export function* readLists(
  text: string,
  wanted: Wanted,
  found: (list: SList, whole: boolean) => boolean,
): Importing<SEnd> {
  /** Heads of the open lists, with their lines. */
  const heads: string[] = [];
  const lines: number[] = [];
  /** Of the record being built, outermost first. */
  let built: Open[] = [];
  let values = 0;
  /** How many lists are open within a list that is not kept. */
  let skipped = 0;
  /** The first list is closed. */
  let ended = false;
  let at = 0;
  let line = 1;
  let next = STRIDE;
  /** The next line end that is not counted yet; looked for once each, however far it is. */
  let feed = text.indexOf("\n");
  const countTo = (end: number): void => {
    for (; feed >= 0 && feed < end; feed = text.indexOf("\n", feed + 1)) line++;
  };

  for (;;) {
    if (at >= next) {
      next = at + STRIDE;
      yield { done: at, total: text.length };
    }
    SPACE.lastIndex = at;
    const start = SPACE.test(text) ? SPACE.lastIndex - 1 : text.length;
    countTo(start);
    at = start;
    if (at >= text.length) break;
    const c = text[at];
    if (c === "(") {
      if (ended) return { line, extra: line };
      WORD_END.lastIndex = at + 1;
      const end = WORD_END.test(text) ? WORD_END.lastIndex - 1 : text.length;
      const head = text.slice(at + 1, end);
      heads.push(head);
      lines.push(line);
      at = end;
      const into = built.at(-1);
      if (skipped > 0) skipped++;
      else if (into) {
        if (!wanted.keep.has(head) || built.length >= DEEPEST_KEPT) skipped = 1;
        else if (++values > MOST_VALUES) return { line, crowded: line };
        else built.push({ head, items: [], line });
      } else if (heads.length <= 3 && wanted.records.has(heads.join("/"))) {
        values = 0;
        built = [{ head, items: [], line }];
      }
      continue;
    }
    if (c === ")") {
      if (heads.length === 0) return { line, extra: line };
      at++;
      heads.pop();
      lines.pop();
      if (skipped > 0) {
        skipped--;
        continue;
      }
      const done = built.pop();
      const into = built.at(-1);
      if (done && into) into.items.push(done);
      else if (done && !found(done, true)) return { line };
      ended = heads.length === 0;
      continue;
    }
    if (heads.length === 0) return { line, extra: line };
    const atom = c === '"' ? quoted(text, at) : word(text, at);
    at = atom.end;
    countTo(at);
    // The end may have cut it short.
    if (!atom.whole) break;
    const into = built.at(-1);
    if (!into || skipped > 0) continue;
    if (++values > MOST_VALUES) return { line, crowded: line };
    into.items.push(atom.value());
  }
  if (heads.length === 0) return { line };
  const [record] = built;
  if (record) found(record, false);
  return { line, open: { head: heads.at(-1) ?? "", line: lines.at(-1) ?? line } };
}

interface Atom {
  readonly end: number;
  readonly whole: boolean;
  /** Worked out only where it is wanted. */
  value(): string;
}

function word(text: string, at: number): Atom {
  WORD_END.lastIndex = at;
  const whole = WORD_END.test(text);
  const end = whole ? WORD_END.lastIndex - 1 : text.length;
  return { end, whole, value: () => text.slice(at, end) };
}

function quoted(text: string, at: number): Atom {
  let end = at + 1;
  for (;;) {
    const quote = text.indexOf('"', end);
    if (quote < 0) return { end: text.length, whole: false, value: () => "" };
    let slashes = 0;
    while (text[quote - 1 - slashes] === "\\" && quote - slashes - 1 > at) slashes++;
    end = quote + 1;
    if (slashes % 2 === 0) break;
  }
  return { end, whole: true, value: () => unescaped(text.slice(at + 1, end - 1)) };
}

const ESCAPES: Readonly<Record<string, string>> = { n: "\n", r: "\r", t: "\t" };

const unescaped = (inside: string): string =>
  inside.includes("\\") ? inside.replace(/\\([\s\S])/g, (_, c: string) => ESCAPES[c] ?? c) : inside;

/** The lists directly in `list` that begin with `head`. */
export const listsIn = (list: SList, head: string): SList[] =>
  list.items.filter((item): item is SList => typeof item !== "string" && item.head === head);

/** The plain values directly in `list`. */
export const valuesIn = (list: SList): string[] =>
  list.items.filter((item): item is string => typeof item === "string");

/** The first value of the first list in `list` that begins with `head`: `(name "A")` gives "A"; undefined where it is blank. */
export function firstIn(list: SList, head: string): string | undefined {
  const [first] = listsIn(list, head);
  const value = first && valuesIn(first)[0];
  return value === undefined || value.trim() === "" ? undefined : value;
}
