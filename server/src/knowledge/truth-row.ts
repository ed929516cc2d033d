// One line of a truth table: "0 0 1 a x | a /a z". Cells stand in the order of the table's pins, inputs before the bar.
//
// Inputs:  0 1   the level
//          x     either
//          a     a letter stands for whatever level is there; the same letter means the same level, /a the other one
// Outputs: 0 1   the level
//          a /a  the level of that letter, or its opposite; a^b^c is high where an odd number of them is
//          q     a letter that no input has: a level held from before, the same wherever the letter stands
//          z     switched off: others decide
//          ?     not judged

/** Letters a cell may use: x and z have meanings of their own. One bit each. */
const LETTER = /^[a-wy]$/;

/**
 * What a row says of one pin. A letter that stands for a level is a bit, so that cells can be reckoned with as
 * parities.
 */
export type TruthCell =
  /** Input x, output "?". */
  | { readonly kind: "any" }
  /** Output z. */
  | { readonly kind: "off" }
  /** The parity of the letters (a bit each, "a" the lowest), turned over where `flip` is 1. "1" has no letter and flip 1. */
  | { readonly kind: "value"; readonly letters: number; readonly flip: 0 | 1 };

export interface TruthRow {
  /** As typed. */
  readonly text: string;
  readonly inputs: readonly TruthCell[];
  readonly outputs: readonly TruthCell[];
}

export interface RowFault {
  /** UTF-16 code units from the row's first. */
  readonly start: number;
  readonly end: number;
  readonly message: string;
}

/** Reads one row; the fault names the first cell that cannot stand where it does. */
export function readTruthRow(
  text: string,
): { readonly ok: true; readonly row: TruthRow } | { readonly ok: false; readonly fault: RowFault } {
  const fault = (start: number, end: number, message: string) => ({
    ok: false as const,
    fault: { start, end, message },
  });
  const bar = text.indexOf("|");
  if (bar < 0) {
    return fault(0, text.length, "A row has inputs, a bar and outputs, like `0 x | 1 z`.");
  }
  const second = text.indexOf("|", bar + 1);
  if (second >= 0) return fault(second, second + 1, "A row has one bar, between its inputs and its outputs.");
  const sides: TruthCell[][] = [[], []];
  for (const word of text.matchAll(/[^\s|]+/g)) {
    const side = word.index < bar ? 0 : 1;
    const cell = side === 0 ? inputCell(word[0]) : outputCell(word[0]);
    if (!cell) {
      const allowed =
        side === 0
          ? "An input is `0`, `1`, `x` for either, or a small letter like `a` or `/a`"
          : "An output is `0`, `1`, `z` for switched off, `?` for not judged, or small letters like `a`, `/a` or `a^b`";
      return fault(
        word.index,
        word.index + word[0].length,
        `\`${word[0]}\` is no level. ${allowed}.${levelWord(word[0])}`,
      );
    }
    sides[side]!.push(cell);
  }
  return { ok: true, row: { text, inputs: sides[0]!, outputs: sides[1]! } };
}

const levelWord = (word: string): string =>
  /^(?:h|hi|high)$/i.test(word)
    ? " Write `1` for high."
    : /^(?:l|lo|low)$/i.test(word)
      ? " Write `0` for low."
      : "";

const level = (flip: 0 | 1): TruthCell => ({ kind: "value", letters: 0, flip });

function inputCell(word: string): TruthCell | undefined {
  if (word === "0" || word === "1") return level(word === "1" ? 1 : 0);
  if (word === "x") return { kind: "any" };
  const bare = word.startsWith("/") ? word.slice(1) : word;
  return LETTER.test(bare) ? letters([bare], bare !== word) : undefined;
}

function outputCell(word: string): TruthCell | undefined {
  if (word === "0" || word === "1") return level(word === "1" ? 1 : 0);
  if (word === "z") return { kind: "off" };
  if (word === "?") return { kind: "any" };
  const bare = word.startsWith("/") ? word.slice(1) : word;
  const names = bare.split("^");
  return names.every((name) => LETTER.test(name)) ? letters(names, bare !== word) : undefined;
}

const letters = (names: readonly string[], flipped: boolean): TruthCell => ({
  kind: "value",
  letters: names.reduce((bits, name) => bits ^ (1 << (name.charCodeAt(0) - 97)), 0),
  flip: flipped ? 1 : 0,
});
