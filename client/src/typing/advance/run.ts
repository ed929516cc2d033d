// What is typed into one cell, as the editor tells of it: what stands there, and what was typed in all.

import type { WholeDigits } from "../../../../server/src/quantity/whole-digits";
import type { LinePosition } from "../../../../server/src/text/line-index";
import { asKeystrokes, type Keystroke, takenBack, typedText } from "./keystrokes";

/** A reading that was left by itself, to come back to. */
export interface LeftReading {
  readonly start: LinePosition;
  readonly reading: string;
  /** Its line as it was typed, before it was put in order. */
  readonly line: string;
}

export interface Run {
  /** Where the cell's characters begin. */
  readonly start: LinePosition;
  /** The line as far as that. */
  readonly lead: string;
  /** What of the characters stands there now. */
  readonly shown: string;
  readonly keys: readonly Keystroke[];
  /** Undefined while that is not known yet, null where keys alone lead on. */
  readonly digits: WholeDigits | null | undefined;
  /** True where the cell was come to by itself and nothing else was done since. */
  readonly habit: boolean;
  /** Characters before the start that Backspace took, to be put back. */
  readonly taken: string;
  /** Characters that are to be taken off the reading that was left. */
  readonly backs: number;
  readonly left?: LeftReading;
}

/** One change of a text, as the editor tells of it. */
export interface HeardChange {
  readonly start: LinePosition;
  readonly end: LinePosition;
  readonly text: string;
}

/** Characters that the editor puts in as they are typed, and nothing beside them. */
const PLAIN = /^[\p{L}\p{N} .,;:+\-~≈<>=/%°µΩ#]+$/u;
export const isPlainTyping = (text: string): boolean => PLAIN.test(text);

/**
 * The run after a change; itself where the change is somewhere else, undefined where it is none of a person who types on.
 */
export function heard(run: Run, { start, end, text }: HeardChange): Run | undefined {
  const { line, character } = run.start;
  if (start.line > line) return run;
  const isOneLine = start.line === end.line && !/[\r\n]/.test(text);
  if (!isOneLine) return undefined;
  if (start.line < line) return run;
  const behind = character + run.shown.length;
  if (end.character !== behind) return undefined;
  const gone = end.character - start.character;
  if (gone === 0) return isPlainTyping(text) ? typedOn(run, text) : undefined;
  if (start.character >= character) {
    const shown = run.shown.slice(0, run.shown.length - gone);
    if (text === "") return { ...run, shown, keys: takenBack(run.keys, gone) };
    // Taken from a list: that is what the cell is to hold.
    const isAll = typedText(run.keys) === run.shown && run.keys.length === run.shown.length;
    if (!isAll || !isPlainTyping(text)) return undefined;
    return { ...run, shown: shown + text, keys: asKeystrokes(shown + text), digits: null };
  }
  // Backspace in a cell that is empty takes a blank of the table.
  if (text !== "" || gone !== 1 || run.shown !== "") return undefined;
  const isAhead = run.keys.some((key) => "char" in key);
  return {
    ...run,
    start: { line, character: character - 1 },
    lead: run.lead.slice(0, -1),
    taken: run.lead.slice(-1) + run.taken,
    habit: false,
    // What was typed ahead goes first.
    keys: isAhead ? takenBack(run.keys, 1) : [],
    backs: run.backs + (isAhead ? 0 : 1),
  };
}

function typedOn(run: Run, text: string): Run {
  return { ...run, shown: run.shown + text, keys: [...run.keys, ...asKeystrokes(text)] };
}

/** A cell that holds nothing but the one character that was just typed into it. */
export function isFirstIn(line: string, character: number): boolean {
  const before = line.slice(0, character);
  const behind = line.slice(character + 1);
  return /\|\s*$/.test(before) && /^\s*(?:\||$)/.test(behind);
}
