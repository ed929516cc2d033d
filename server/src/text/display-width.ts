import { visible } from "./terminal";

/** Blocks of characters two cells wide in a terminal. Source: UAX #11, width W and F; ranges from memory, emoji by property. */
const WIDE: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f],
  [0x2e80, 0x303e],
  [0x3041, 0x33ff],
  [0x3400, 0x4dbf],
  [0x4e00, 0x9fff],
  [0xa000, 0xa4cf],
  [0xa960, 0xa97f],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe30, 0xfe6f],
  [0xff00, 0xff60],
  [0xffe0, 0xffe6],
  [0x1f300, 0x1f64f],
  [0x1f900, 0x1f9ff],
  [0x20000, 0x3fffd],
];

const graphemes = new Intl.Segmenter("en", { granularity: "grapheme" });

/** One thing a person sees as a character, with its place in the text and the cells it takes. */
export interface DisplayCell {
  readonly text: string;
  /** UTF-16 code units from the start of the text. */
  readonly start: number;
  readonly width: number;
}

/**
 * The text as a terminal lays it out: tabs become spaces up to the next of every `tabSize` cells, and control
 * characters become their pictures, so that a file can never send commands to the terminal it is shown on.
 */
export function displayCells(text: string, tabSize = 4): DisplayCell[] {
  const cells: DisplayCell[] = [];
  let at = 0;
  for (const { segment, index } of graphemes.segment(text)) {
    const shown = segment === "\t" ? " ".repeat(tabSize - (at % tabSize)) : visible(segment);
    const width = segment === "\t" ? shown.length : widthOf(shown);
    cells.push({ text: shown, start: index, width });
    at += width;
  }
  return cells;
}

function widthOf(grapheme: string): number {
  if (/^[\p{Mn}\p{Me}\p{Cf}]+$/u.test(grapheme)) return 0;
  if (/\p{Emoji_Presentation}|\ufe0f/u.test(grapheme)) return 2;
  const code = grapheme.codePointAt(0) ?? 0;
  return WIDE.some(([from, to]) => code >= from && code <= to) ? 2 : 1;
}

/** Text of which every character takes one cell: what nearly all cells of a log are. */
const NARROW = /^[\x20-\x7e\xa1-\xac\xae-\u02ff\u0370-\u03ff\u2010-\u2026\u2126\u2212\u2248\u2264\u2265]*$/;

/** Cells the text takes on one line of a screen of even cells; a tab counts as one, for where it stands is not known. */
export function displayWidth(text: string): number {
  if (NARROW.test(text)) return text.length;
  let width = 0;
  for (const { segment } of graphemes.segment(text)) width += segment === "\t" ? 1 : widthOf(segment);
  return width;
}
