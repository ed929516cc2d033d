// What a person's keys say one after the other, whenever they are heard of: characters, and the keys that lead on. What
// becomes of them hangs on their order alone and never on when an answer came.
import type { CursorDirection } from "../../../../server/src/protocol/custom-requests/typing";
import { readingLength } from "../../../../server/src/quantity/typed-run";
import type { WholeDigits } from "../../../../server/src/quantity/whole-digits";

export type Keystroke = { readonly char: string } | { readonly leads: CursorDirection };

/** A reading that is over, and what leads on from it. */
export interface Step {
  readonly reading: string;
  readonly direction: CursorDirection;
  /** Tokens that are done with it. */
  readonly length: number;
}

export const asKeystrokes = (text: string): readonly Keystroke[] => [...text].map((char) => ({ char }));

/** All characters, without the keys between them. */
export const typedText = (keys: readonly Keystroke[]): string =>
  keys.map((key) => ("char" in key ? key.char : "")).join("");

/**
 * The first step of what was typed; undefined while the reading may go on.
 * @param digits how digits are read there; undefined where keys alone lead on
 */
export function firstStep(keys: readonly Keystroke[], digits: WholeDigits | undefined): Step | undefined {
  const at = keys.findIndex((key) => "leads" in key);
  const typed = typedText(at < 0 ? keys : keys.slice(0, at));
  const length = digits && readingLength(typed, digits);
  if (length !== undefined) return { reading: typed.slice(0, length), direction: "advance", length };
  const pressed = keys[at];
  return pressed && "leads" in pressed
    ? { reading: typed, direction: pressed.leads, length: at + 1 }
    : undefined;
}

/**
 * What is left once that is taken away which hands do behind a reading out of habit, where it has led on by itself: the
 * unit, and one key that leads on.
 * @returns `waits` is true while nothing else was typed, so that more of it may come
 */
export function withoutHabit(keys: readonly Keystroke[]): {
  readonly keys: readonly Keystroke[];
  readonly waits: boolean;
} {
  let at = 0;
  for (const key of keys) {
    if ("leads" in key) {
      const leadsOn = key.leads === "row" || key.leads === "next";
      return { keys: keys.slice(leadsOn ? at + 1 : at), waits: false };
    }
    if (!/[ V]/i.test(key.char)) return { keys: keys.slice(at), waits: false };
    at += 1;
  }
  return { keys: [], waits: true };
}

/** Without so many of the last characters, and without the keys pressed behind the first of those. */
export function takenBack(keys: readonly Keystroke[], characters: number): readonly Keystroke[] {
  let rest = keys;
  for (let left = characters; left > 0; left -= 1) {
    const last = rest.findLastIndex((key) => "char" in key);
    if (last < 0) return rest;
    rest = rest.slice(0, last);
  }
  return rest;
}
