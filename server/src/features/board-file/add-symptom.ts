// A symptom in the owner's words, taken into the board file: from then on it leads to the jobs that had it too.

import { editBoard } from "../../knowledge/board-file";
import { frontSpan } from "../../log/front";
import { isKnownSymptom, logLineSource, symptomOf } from "../../review/board-draft";
import { boardOfFile } from "../../review/said-parts";
import type { Span } from "../../text/span";
import type { Refactor } from "../types";
import type { LogView } from "../view";

/** Offered on the words themselves; the log then names the symptom by its id. */
export function addSymptomRefactor({ doc, front, ctx }: LogView, selected: Span): readonly Refactor[] {
  const file = boardOfFile(ctx);
  const { board } = ctx;
  if (!file || !board) return [];
  return (front.symptoms ?? []).flatMap((typed, i): Refactor[] => {
    const span = frontSpan(doc, ["symptoms", i]);
    const symptom = symptomOf(typed);
    if (!span || !symptom || selected.start < span.start || selected.end > span.end) return [];
    // What is an id in its form is told of as one that is not there.
    if (isKnownSymptom(typed, file) || !/\s/.test(typed)) return [];
    const entry = { ...symptom, from: logLineSource({ doc, front }, span.start) };
    const made = editBoard(board.text, [{ kind: "symptom", entry }]);
    if (!made.ok || made.edits.length === 0 || made.leftOut.length > 0) return [];
    return [
      {
        title: `Add the symptom "${typed}" to the board file`,
        kind: "rewrite",
        edits: [{ span, newText: symptom.id }],
        elsewhere: [{ uri: board.uri, text: board.text, edits: made.edits }],
      },
    ];
  });
}
