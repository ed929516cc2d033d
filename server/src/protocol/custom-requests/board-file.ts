import type { OwnRequest } from "./request";
import type { PlacedEdit } from "./typing";

interface DraftParams {
  /** Uri of a log of the board. */
  readonly uri: string;
  /** What the board is to be called, of a log that names none. */
  readonly name?: string;
}

interface Told {
  readonly id: string;
  /** "12 parts, 3 rails and 1 net". */
  readonly told: string;
  /** How many logs it was learned from. */
  readonly logs: number;
  /** The edit that names the board in the log, of a log that did not. */
  readonly naming?: { readonly version: number; readonly edit: PlacedEdit };
}

/** A whole board file out of the logs, to be looked at before it is saved. */
export interface NewBoardFile extends Told {
  readonly kind: "new";
  readonly text: string;
  /** Uri of the file it is to become, which is not there; absent where no folder is open. */
  readonly place?: string;
}

/** A board file that is there, and what the logs would add to it. */
export interface CompletedBoardFile extends Told {
  readonly kind: "completes";
  readonly uri: string;
  /** The text that the edits are of. */
  readonly before: string;
  readonly edits: readonly PlacedEdit[];
  /** What stayed as the file has it, or was left out, as sentences. */
  readonly notes: readonly string[];
}

/** What the logs of a board can be written into, or what stands in the way. */
export type WireBoardDraft =
  | NewBoardFile
  | CompletedBoardFile
  /** The log names no board, and no name was given. */
  | { readonly kind: "needs-name" }
  /** A sentence that says why there is nothing to write. */
  | { readonly kind: "refused"; readonly reason: string };

/** The board file of all logs of a board, or what the one that is there lacks. Nothing is written by it. */
export const BOARD_DRAFT: OwnRequest<DraftParams, WireBoardDraft> = { method: "mendlog/boardDraft" };
