// The board file of the logs of one board: a whole new one, or what one that is there lacks.

import { keptReason, mergeIntoBoardFile, writeBoardFile } from "../../knowledge/board-file";
import type { Library } from "../../knowledge/library";
import { loadBoard } from "../../knowledge/load-board";
import type { LogDocument } from "../../log/document";
import { type DraftLog, draftBoard, draftWords } from "../../review/board-draft";
import { missingBoardName } from "../../review/name-board";
import type { TextEdit } from "../../text/edits";

export interface DraftFileQuestion {
  /** All of the board; one at least. */
  readonly logs: readonly DraftLog[];
  readonly library: Library;
  /** The board's id, or its name in words. */
  readonly name: string;
  /** Text of the board file that is added to; without it a new one is made. */
  readonly existing?: string | undefined;
}

export type DraftedFile =
  | {
      readonly ok: true;
      /** Of the whole board file. */
      readonly text: string;
      /** Of the existing text; none where all of it was there. */
      readonly edits: readonly TextEdit[];
      /** "12 parts, 3 rails and 1 net", of all that the logs tell. */
      readonly told: string;
      /** What was not written as the logs have it, as sentences. */
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly reason: string };

/**
 * A whole new file where there is none, else edits that add to the one there. Refused where that one cannot be added
 * to.
 */
export function draftFile({ logs, library, name, existing }: DraftFileQuestion): DraftedFile {
  const base = existing === undefined ? undefined : loadBoard(existing).value;
  const draft = draftBoard({ logs, library, base, name });
  const told = draftWords(draft);
  if (existing === undefined) return { ok: true, text: writeBoardFile(draft), edits: [], told, notes: [] };
  const made = mergeIntoBoardFile(existing, draft);
  if (!made.ok) return made;
  const { text, edits, kept, leftOut } = made;
  return {
    ok: true,
    text,
    edits,
    told,
    notes: [...kept.map(keptReason), ...leftOut.map(({ key, reason }) => `${key} was left out. ${reason}`)],
  };
}

/** The edit that names the board in a log that does not; undefined where it does, or where nothing can be added. */
export const namingEdit = (doc: LogDocument, id: string): TextEdit | undefined =>
  missingBoardName(doc)?.name(id);
