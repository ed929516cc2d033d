// What the logs of a board read, written into its board file: one step to undo, and what a person typed there stays.

import type { Known } from "../../judge/context";
import { proposeLimits, type ReadBefore } from "../../judge/reference-job/proposal";
import { type BoardChange, editBoard } from "../../knowledge/board-file";
import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import type { TextEdit } from "../../text/edits";

/** The board file with the limits that readings propose, or why there are none to propose, as a sentence. */
export type Proposed =
  | {
      readonly ok: true;
      /** Of the board file's text; empty where all of it stands there. */
      readonly edits: readonly TextEdit[];
      readonly text: string;
      /** What was done, as sentences: by an edit of the open file, which is not saved yet, and by writing the file. */
      readonly told: string;
      readonly toldWritten: string;
    }
  | { readonly ok: false; readonly reason: string };

/**
 * Writes the limits that readings propose into the text of their board's file.
 * @param file as its text is now
 */
export function proposeInto(file: Known<Board>, read: ReadBefore, library: Library): Proposed {
  const { entries, kept } = proposeLimits(read, file.value, library);
  if (entries.length === 0) return { ok: false, reason: nothing(kept, read) };
  const changes = entries.map((entry): BoardChange => ({ kind: "expected", entry, replace: true }));
  const made = editBoard(file.text, changes);
  if (!made.ok) return made;
  const written = made.added.filter(({ section }) => section === "expected").length;
  const first = made.leftOut[0];
  const told = (state: string): string =>
    [
      written === 0
        ? "The board file has these limits already."
        : `${limits(written)} proposed for the board file${state}: check them, because every reading outside them will then be out of limits.`,
      ...(kept === 0
        ? []
        : [`${limits(kept)} typed there by hand ${kept === 1 ? "stays as it is" : "stay as they are"}.`]),
      ...(first
        ? [
            `${made.leftOut.length === 1 ? "One was" : `${made.leftOut.length} were`} left out: ${first.key}. ${first.reason}`,
          ]
        : []),
    ].join(" ");
  const { edits, text } = made;
  return { ok: true, edits, text, told: told(" and not saved yet"), toldWritten: told("") };
}

const limits = (count: number): string => (count === 1 ? "1 limit" : `${count} limits`);

function nothing(kept: number, { references, returned }: ReadBefore): string {
  if (kept > 0) return "The board file already gives an expected reading at every place that was read.";
  if (references.history.jobs.length + returned.jobs.length === 0)
    return 'No log of this board says that its board works: write `reference: true` into the front matter of one ("Take this job as the reference"), or set `stage: returned` in those that left.';
  return "No reading of these boards makes a limit. A place needs a single value, read after the repair or of a part that stayed.";
}
