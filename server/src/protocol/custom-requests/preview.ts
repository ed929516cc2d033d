import type { OfDocument, OwnRequest } from "./request";

/** The verdict beside one reading. Lines and columns count from 0. */
export interface PreviewMark {
  readonly line: number;
  /** The cell's place in its row. */
  readonly column: number;
  /** What stands in the cell, as Markdown; a cell that holds anything else is not to be marked. */
  readonly text: string;
  /** "within-limits", "out-of-limits" ...: part of a style's name. */
  readonly verdict: string;
  /** Its shape, "\u25b2". */
  readonly glyph: string;
  /** Its name, "Out of limits". */
  readonly words: string;
  /** What was read, what was to be expected and what to do: full sentences. */
  readonly sentence: string;
}

export interface PreviewPicture {
  /**
   * A whole `<svg>` element with its words in it: nothing typed stands in it unescaped, nothing in it refers to
   * anything outside, its ids are its own in the page.
   */
  readonly svg: string;
}

/** A table of readings. */
export interface PreviewTable {
  /** Line of the heading that says what was measured. */
  readonly heading?: number;
  /** Line of the header row. */
  readonly line: number;
  readonly marks: readonly PreviewMark[];
  /** To stand below the table. */
  readonly pictures: readonly PreviewPicture[];
}

export interface PreviewFinding {
  readonly line: number;
  readonly severity: "error" | "warning" | "information" | "hint";
  readonly message: string;
}

/** Photographs of the same place before and after the work; lines of the images. */
export interface PreviewPair {
  readonly before: number;
  readonly after: number;
}

/** What the preview shows of a log besides its own text. */
export interface Preview {
  /** Of the document that this is about. */
  readonly version: number;
  readonly tables: readonly PreviewTable[];
  /** Absent where there is none. */
  readonly pairs?: readonly PreviewPair[];
  /** In the order of the log; hints are left out. */
  readonly findings: readonly PreviewFinding[];
}

/** What is shown beside the text of a log where it is rendered. */
export const PREVIEW: OwnRequest<OfDocument, Preview> = { method: "mendlog/preview" };
