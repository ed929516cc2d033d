// Fixes that add to the board file what a log says: edits of the file's own text, which the person sees and can undo.

import { hasBoardFile, type LogContext } from "../judge/context";
import { type BoardChange, type BoardDraft, changesOf, editBoard } from "../knowledge/board-file";
import { draftBoard, draftWords } from "../review/board-draft";
import { boardOfFile } from "../review/said-parts";
import type { TextEdit } from "../text/edits";
import type { Fix, FixInput } from "./check";

/** None where the board file has it already, or is written in a way that cannot be added to. */
export function boardFileFix(
  title: string,
  changes: readonly BoardChange[],
  { board, ...ctx }: LogContext,
  own: readonly TextEdit[] = [],
): Fix[] {
  if (!board || !hasBoardFile({ board, ...ctx })) return [];
  const made = editBoard(board.text, changes);
  if (!made.ok || made.edits.length === 0 || made.leftOut.length > 0) return [];
  return [{ title, edits: own, elsewhere: [{ uri: board.uri, text: board.text, edits: made.edits }] }];
}

/** Everything that this log says and the board file does not; offered where that is more than one thing. */
export function allOfLogFix({ ctx, log }: FixInput): Fix[] {
  const base = ctx && boardOfFile(ctx);
  if (!ctx || !base || !log) return [];
  const news = newsOf(draftBoard({ logs: [log], library: ctx.library, base }), base.parts);
  const changes = changesOf(news);
  if (changes.length < 2) return [];
  return boardFileFix(`Add all that this log knows to the board file: ${draftWords(news)}`, changes, ctx);
}

/** Without the parts of which the board file knows as much: where it says otherwise it stays. */
const newsOf = (draft: BoardDraft, parts: ReadonlyMap<string, { readonly device?: string }>): BoardDraft => ({
  ...draft,
  parts: draft.parts.filter(({ ref, device }) => {
    const known = parts.get(ref);
    return !known || (known.device === undefined && device !== undefined);
  }),
});
