import type { Span } from "../text/span";

/** A piece of a cell with its place: the designator without the "(74LS04)" behind it, say. */
export interface CellText {
  readonly text: string;
  readonly span: Span;
}
