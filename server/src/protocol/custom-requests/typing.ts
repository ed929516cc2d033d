// What the keys of a readings table ask for.
import type { LinePosition } from "../../text/line-index";
import type { OfDocument, OwnRequest } from "./request";

/** A request about one place of a document. */
export interface AtPosition extends OfDocument {
  readonly position: LinePosition;
}

/** An edit by positions; lines and characters count from 0, characters in UTF-16 code units. */
export interface PlacedEdit {
  readonly range: { readonly start: LinePosition; readonly end: LinePosition };
  readonly newText: string;
}

/** Edits of the document as it stands, in order and apart from each other, and where the cursor belongs after them. */
export interface Typed {
  readonly edits: readonly PlacedEdit[];
  readonly cursor: LinePosition;
}

/**
 * "row" starts a row below this line; "line" does so below a line that is itself still becoming a row; "below" goes from a
 * reading to the row below; "cell" goes to a cell that is there in any other way; "break" is a line break.
 */
export type EnterDoes = "row" | "cell" | "below" | "line" | "break";

/** What Enter does at a place, and what is typed there. */
export interface EnterAnswer {
  readonly does: EnterDoes;
  /** True in a cell for what is measured. */
  readonly measured: boolean;
  /**
   * Present where digits tell by themselves that a reading is over, there or in a table begun there: the volts beyond which
   * the meter shows no reading.
   */
  readonly digits?: { readonly limit: number };
}

/** Null where Enter is a line break and there is nothing to say of digits. */
export const ENTER_AT: OwnRequest<AtPosition, EnterAnswer> = { method: "mendlog/enterAt" };

/** Puts a row in order that the cursor has left by other ways than these keys: edits alone, none where it is in order. */
export const LEAVE_ROW: OwnRequest<AtPosition, readonly PlacedEdit[]> = { method: "mendlog/leaveRow" };

/**
 * Down, as Enter goes; along the cells that want a value, as Tab and Shift+Tab go; to the next empty cell down the column, as
 * a reading that is typed in full may lead by itself.
 */
export type CursorDirection = "row" | "next" | "previous" | "advance";

/**
 * Where the cursor goes from a cell; null where the key means what it always means. `behind` is how many characters were
 * typed behind the position since the key was pressed: they are not the cell's.
 */
export const NEXT_CELL: OwnRequest<
  AtPosition & { readonly direction: CursorDirection; readonly behind?: number },
  Typed
> = { method: "mendlog/nextCell" };

/**
 * Makes a row of the line that was begun below another, or, with the cell that the key was pressed in as `from`, takes the
 * line out again and puts what stands on it into the row below; null where it is to stay as it is.
 */
export const START_ROW: OwnRequest<AtPosition & { readonly from?: LinePosition }, Typed> = {
  method: "mendlog/startRow",
};

/** Takes a row back that was started when a pipe typed into it shows that the row is being typed by hand; else null. */
export const TAKE_BACK: OwnRequest<AtPosition, Typed> = { method: "mendlog/takeBackRow" };

/**
 * Writes a text into the cell at the position, in place of what it holds, and says where the cursor goes next: down
 * unless `then` says along the row, or nowhere where it `stays`. A row is added where there is none. Null outside of a readings table.
 */
export const WRITE_CELL: OwnRequest<
  AtPosition & { readonly text: string; readonly then?: "row" | "next"; readonly stays?: true },
  Typed
> = { method: "mendlog/writeCell" };

/** The values pasted, or why they cannot be; nothing is written then. */
export type PasteAnswer =
  | (Typed & { readonly replaced: number })
  | { readonly problem: "empty" | "rows-of-a-table" | "too-many-rows" }
  | { readonly problem: "too-many-columns"; readonly columns: number; readonly room: number };

/**
 * Fills cells down from the position, and right where the text has tabs, adding rows where there are not enough. Null where
 * the position is in no cell of a readings table.
 */
export const PASTE_CELLS: OwnRequest<AtPosition & { readonly text: string }, PasteAnswer> = {
  method: "mendlog/pasteCells",
};
