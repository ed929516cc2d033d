import type { OwnRequest } from "./request";
import type { PlacedEdit } from "./typing";

export interface ImportParams {
  /** Of one board; the file named first is believed where two disagree. Texts without a byte order mark. */
  readonly files: readonly { readonly name: string; readonly text: string }[];
  /** The text of the board file that is added to; without it a new one is made. */
  readonly existing?: string;
}

/** A board file out of the files that were sent, or the reasons why there is none. */
export type BoardImported =
  | {
      readonly ok: true;
      /** The id of the board. */
      readonly id: string;
      /** Of the whole board file. */
      readonly text: string;
      /** Of the existing text, apart from each other. */
      readonly edits: readonly PlacedEdit[];
      /** Lines for people: what was matched, guessed, left out and not read. */
      readonly report: string;
      readonly parts: number;
      readonly nets: number;
      /** Parts with a number that the library does not know. */
      readonly unmatched: number;
      /** Whether everything in the files was read. */
      readonly complete: boolean;
    }
  /** Sentences that say why there is nothing to write. */
  | { readonly ok: false; readonly reasons: readonly string[] };

/** Makes a board file of netlists, board layouts and parts lists. Nothing is written by it. */
export const IMPORT_BOARD: OwnRequest<ImportParams, BoardImported> = { method: "mendlog/importBoard" };
