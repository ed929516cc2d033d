// The lines of a display by the names of the board's nets, "SEG_F", "K_F", "DIGIT_3", with the tubes that stand on them.

import type { Board, Net, PinRef } from "../../../knowledge/types";

const named = ({ nets }: Board, pattern: RegExp): readonly string[] =>
  [...nets.values()].filter(({ name }: Net) => pattern.test(name)).map(({ name }) => name);

/** All stages of the line, whatever it is called behind its drivers. */
export const segmentNets = (board: Board, letter = "(?:[A-H]|DP)"): readonly string[] =>
  named(board, new RegExp(`^(?:(?:[A-Z0-9]+_)?SEG(?:MENT)?_?${letter}(?:_[A-Z]+)?|K_${letter})$`, "i"));

/** Lines of one segment of one digit alone, where each digit has its own: "SEG1_E", "S1E_D", "D2_SEG_A". */
export const ownNets = (board: Board, letter: string, digit: string): readonly string[] =>
  named(
    board,
    new RegExp(
      `^(?:[A-Z]+_)?(?:(?:SEG|S|D|DIG|DIGIT|DISP|K)_?${digit}_?(?:SEG_?|S_?)?${letter}|(?:SEG|S|K)_?${letter}_?${digit})(?:_[A-Z]+)?$`,
      "i",
    ),
  );

/** Digits count from 1: where there is a line of number 0 as well, the lines are the bits of a number. */
export const digitNets = (board: Board, number = "\\d+"): readonly string[] =>
  named(
    board,
    new RegExp(`^(?:[A-Z0-9]+_)?(?:DIGIT|DIG|ANODE|GRID)(?:_[A-Z]+)*_?${number}(?:_[A-Z]+)?$`, "i"),
  ).filter((name) => !board.nets.has(name.replace(/\d+/, "0")));

/** Display parts numbered as the digits are. */
export const tubesOf = ({ parts }: Board, digits: readonly string[]): readonly string[] =>
  digits.flatMap((digit) => parts.get(`DS${digit}`)?.ref ?? []);

const TUBE = /^DS\d/i;

/** Of these nets those that run along several tubes. */
export const tubeNets = ({ nets }: Board, names: readonly string[]): readonly string[] =>
  names.filter((name) => (nets.get(name)?.pins ?? []).filter(({ ref }) => TUBE.test(ref)).length > 1);

/** Pins of the tubes of these digits on these nets, in the order of the digits. */
export function tubePins(board: Board, names: readonly string[], digits: readonly string[]): PinRef[] {
  return digits.flatMap((digit) =>
    names.flatMap((name) =>
      (board.nets.get(name)?.pins ?? []).filter(
        ({ ref }) => ref.toUpperCase() === `DS${digit}`.toUpperCase(),
      ),
    ),
  );
}

/**
 * Where a line that is dark at some digits and lit at others ends: the first dark digit and the lit one beside it. Undefined
 * where the dark ones are one alone, or neither end of the row: tubes may be dark by themselves.
 */
export function endsBetween(
  dark: readonly string[],
  lit: readonly string[],
): readonly [dark: string, lit: string] | undefined {
  const [off, on] = [dark, lit].map((all) => all.map(Number).sort((a, b) => a - b)) as [number[], number[]];
  if (off.length < 2 || on.length === 0) return undefined;
  const [first, last] = [off[0]!, off.at(-1)!];
  if (on.every((digit) => digit < first)) return [String(first), String(on.at(-1)!)];
  if (on.every((digit) => digit > last)) return [String(last), String(on[0]!)];
  return undefined;
}
