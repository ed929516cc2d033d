import type { Span } from "../text/span";

/** A piece of a cell with its place: the designator without the "(74LS04)" behind it, say. */
export interface CellText {
  readonly text: string;
  readonly span: Span;
}

/** A mark that says "as in the row above": '"', "do.", "ditto". */
export const isDitto = (text: string): boolean =>
  /^(?:["\u201c\u201d\u2033\u3003]|''|,,|do\.|ditto)$/i.test(text.trim());
