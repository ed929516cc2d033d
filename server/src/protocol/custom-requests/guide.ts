import type { LinePosition } from "../../text/line-index";
import type { OwnRequest } from "./request";
import type { AtPosition, PlacedEdit } from "./typing";

/** The next thing to do at the bench, and where in the log it goes. */
export interface Guide {
  /** Of the document that this is about. */
  readonly version: number;
  /** "check": how a table was read is in doubt; "read": what tells suspects apart; "fill": a cell that is still empty. */
  readonly kind: "check" | "read" | "fill";
  readonly ref?: string;
  readonly pin?: string;
  /** What the pin is called, and its net. */
  readonly name?: string;
  readonly net?: string;
  /** What to do. */
  readonly action: string;
  /** What is to be read there: "0.4 V to 0.7 V", and as a sentence with its source. */
  readonly window?: string;
  readonly expect?: string;
  readonly cautions: readonly string[];
  /** Where it is typed; absent for what is no reading of one pin. The cursor is that of the text after the edits. */
  readonly cell?: { readonly edits: readonly PlacedEdit[]; readonly cursor: LinePosition };
  /** The chip with the pin marked: a whole `<svg>` element, its ids its own, and the same in words. */
  readonly picture?: { readonly svg: string; readonly alt: string };
}

/** What to do next on the board of a log, and where it is written down. Nothing is written by it. Null where nothing is left. */
export const GUIDE: OwnRequest<AtPosition, Guide> = { method: "mendlog/guide" };
