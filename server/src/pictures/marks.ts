// The marks of verdicts and of results at a crossing: a shape and a letter each, so that neither needs colour.
import type { Verdict } from "../compute/verdict";
import { INK } from "./svg";

export interface VerdictMark {
  /** The shape as a character, for text. */
  readonly glyph: string;
  /** Stands beside the shape in pictures: the words' first letter, but no O, which reads as zero or as open. */
  readonly letter: string;
  /** The words beside it. */
  readonly words: string;
}

/** The one list of marks: hovers in words and pictures show the same. */
export const VERDICT_MARKS: Readonly<Record<Verdict, VerdictMark>> = {
  impossible: { glyph: "✗", letter: "C", words: "Cannot be a reading" },
  "out-of-limits": { glyph: "▲", letter: "!", words: "Out of limits" },
  suspect: { glyph: "△", letter: "S", words: "Suspect" },
  "within-limits": { glyph: "○", letter: "W", words: "Within limits" },
  unjudged: { glyph: "–", letter: "N", words: "Not judged" },
  "not-measured": { glyph: "–", letter: "N", words: "Not measured" },
};

/** All verdicts that have a mark, the heaviest first. */
export const VERDICTS = Object.keys(VERDICT_MARKS) as readonly Verdict[];

const SHAPES: Readonly<Record<string, (ink: string) => string>> = {
  "✗": (ink) => `<path d="M-5-5 5 5M-5 5 5-5" stroke="${ink}" stroke-width="2.4"/>`,
  "▲": (ink) => `<path d="M0-6 6.5 5.5h-13z" fill="${ink}"/>`,
  "△": (ink) => `<path d="M0-5 5.5 4.8h-11z" fill="none" stroke="${ink}" stroke-width="1.7"/>`,
  "○": (ink) => `<circle r="4.6" fill="none" stroke="${ink}" stroke-width="1.7"/>`,
  "–": (ink) => `<path d="M-4.5 0h9" stroke="${ink}" stroke-width="2"/>`,
  "■": (ink) => `<path d="M-5-5H5V5H-5z" fill="${ink}"/>`,
  "◇": (ink) => `<path d="M0-6.5 6 0 0 6.5-6 0z" fill="none" stroke="${ink}" stroke-width="1.7"/>`,
  "◐": (ink) =>
    `<circle r="4.8" fill="none" stroke="${ink}" stroke-width="1.6"/><path d="M0-4.8a4.8 4.8 0 0 0 0 9.6z" fill="${ink}"/>`,
};

/** How far right of the shape's middle its letter begins. */
const BESIDE = 9;

const letterAt = (letter: string, ink: string, x: number, y: number, anchor = ""): string =>
  `<text x="${x}" y="${y}" font-size="11" font-weight="700" fill="${ink}"${anchor}>${letter}</text>`;

const VERDICT_INK: Readonly<Record<Verdict, string>> = {
  impossible: INK.bad,
  "out-of-limits": INK.bad,
  suspect: INK.doubt,
  "within-limits": INK.calm,
  unjudged: INK.faint,
  "not-measured": INK.faint,
};

/** The shape by itself, in the colour of the text around it: as large as whoever shows it likes. */
export const verdictShape = (verdict: Verdict): string =>
  `<svg viewBox="-8 -8 16 16" aria-hidden="true">${SHAPES[VERDICT_MARKS[verdict].glyph]?.("currentColor") ?? ""}</svg>`;

/** Room a verdict's mark takes, from the shape's left edge to the letter's right. */
export const MARK_WIDTH = 28;

export const verdictId = (verdict: Verdict): string => `v${VERDICTS.indexOf(verdict)}`;

/** The marks of these verdicts, defined once each; the middle of the shape is the origin. */
export const verdictDefs = (verdicts: Iterable<Verdict>): string =>
  [...new Set(verdicts)]
    .map((verdict) => {
      const { glyph, letter } = VERDICT_MARKS[verdict];
      const ink = VERDICT_INK[verdict];
      return `<g id="${verdictId(verdict)}">${SHAPES[glyph]?.(ink) ?? ""}${letterAt(letter, ink, BESIDE, 4)}</g>`;
    })
    .join("");

/** What the tests say of a crossing. `phantom`: shown although open, or showing others as well. */
export type CellState = "works" | "dead" | "stuck" | "phantom" | "intermittent" | "reserved" | "untested";

export interface CellMark {
  readonly glyph: string;
  readonly letter: string;
  readonly words: string;
  readonly ink: string;
  /** Ground of the whole cell where it is not the panel: what has failed stands out without its colour too. */
  readonly on?: string;
}

export const CELL_MARKS: Readonly<Record<CellState, CellMark>> = {
  dead: { glyph: "✗", letter: "D", words: "dead", ink: INK.onMark, on: INK.bad },
  stuck: { glyph: "■", letter: "S", words: "stuck", ink: INK.onMark, on: INK.stuck },
  phantom: { glyph: "◇", letter: "P", words: "phantom, or shows others too", ink: INK.ghost },
  intermittent: { glyph: "◐", letter: "I", words: "intermittent", ink: INK.doubt },
  reserved: { glyph: "", letter: "R", words: "reserved: do not bridge", ink: INK.text },
  untested: { glyph: "–", letter: "U", words: "untested", ink: INK.faint },
  works: { glyph: "○", letter: "W", words: "works", ink: INK.calm },
};

export const CELL_STATES = Object.keys(CELL_MARKS) as readonly CellState[];

export const cellId = (state: CellState): string => `c${CELL_STATES.indexOf(state)}`;

const HATCH = `<pattern id="h" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 3h6" stroke="${INK.frame}" stroke-width="2"/></pattern>`;

/** Cells of a size with their marks, the middle of the cell the origin; shape and letter one over the other where narrow. */
export function cellDefs(states: Iterable<CellState>, size: { width: number; height: number }): string {
  const { width, height } = size;
  const wide = width >= 30;
  const box = `x="${-width / 2}" y="${-height / 2}" width="${width}" height="${height}"`;
  return [...new Set(states)]
    .map((state) => {
      const { glyph, letter, ink, on } = CELL_MARKS[state];
      const ground = on === undefined ? "" : `<rect ${box} fill="${on}"/>`;
      const id = `<g id="${cellId(state)}">`;
      if (state === "reserved") {
        const backed = `<circle r="8" fill="${INK.panel}"/>${letterAt(letter, ink, 0, 4, ' text-anchor="middle"')}`;
        return `${HATCH}${id}<rect ${box} fill="url(#h)"/>${backed}</g>`;
      }
      const shape = SHAPES[glyph]?.(ink) ?? "";
      const [move, text] = wide
        ? ["translate(-7)", letterAt(letter, ink, 3, 4)]
        : ["translate(0 -6)", letterAt(letter, ink, 0, 12, ' text-anchor="middle"')];
      return `${id}${ground}<g transform="${move}">${shape}</g>${text}</g>`;
    })
    .join("");
}
