import { Position, Range, Selection, SnippetString, type TextDocument, type TextEditor } from "vscode";
import type { Typed } from "../../../server/src/protocol/custom-requests/typing";
import { toEditorRange } from "../range";
import { type EditOutcome, sayReadOnly, tookEdit } from "../took-edit";
import { type Carried, carry, offsetAfter } from "./carry";

/** Milliseconds in which it is asked again where something was typed meanwhile: a person leaves longer gaps than an answer takes. */
const PATIENCE = 5_000;

export type AppliedEdit = "done" | "nothing" | "refused" | "gone";

/**
 * Asks for edits and puts them in place with the cursor where it belongs. Where the text changed in between, it is asked
 * again. One step to undo.
 * @param joinsLast true where the edits belong to what was just typed and are undone with it
 * @returns "nothing" where there is nothing to be done here, "refused" where it was said that the document is read-only,
 *   "gone" where the editor was left meanwhile, or was typed in without a pause
 */
export async function placeInEditor(
  editor: TextEditor,
  ask: () => Promise<Typed | null>,
  { joinsLast = false } = {},
): Promise<AppliedEdit> {
  const began = Date.now();
  while (Date.now() - began < PATIENCE) {
    const { version } = editor.document;
    const typed = await ask();
    if (editor.document.isClosed) return "gone";
    if (editor.document.version !== version) continue;
    if (!typed) return "nothing";
    const outcome = await place(editor, typed, joinsLast);
    if (outcome === "taken") return "done";
    if (outcome === "gone") return "gone";
    if (outcome === "refused") {
      sayReadOnly();
      return "refused";
    }
  }
  return "gone";
}

/** Puts edits in place, the cursor with them. */
export async function place(
  editor: TextEditor,
  { edits, cursor }: Typed,
  joinsLast: boolean,
): Promise<EditOutcome> {
  const stops = { undoStopBefore: !joinsLast, undoStopAfter: true };
  const at = new Position(cursor.line, cursor.character);
  // A snippet brings the cursor along: no key can come between the text and the cursor's move.
  if (edits.length > 0) {
    const { document } = editor;
    const one = asOne(document, { edits, cursor });
    if (one.end - one.start <= MOST) {
      const range = new Range(document.positionAt(one.start), document.positionAt(one.end));
      const snippet = new SnippetString().appendText(one.before).appendTabstop(0).appendText(one.after);
      return tookEdit(document, () => editor.insertSnippet(snippet, range, stops));
    }
  }
  if (edits.length > 0) {
    const outcome = await tookEdit(editor.document, () =>
      editor.edit((builder) => {
        for (const edit of edits) builder.replace(toEditorRange(edit.range), edit.newText);
      }, stops),
    );
    if (outcome !== "taken") return outcome;
  }
  editor.selection = new Selection(at, at);
  editor.revealRange(new Range(at, at));
  return "taken";
}

/** Characters that are written again at most for the cursor's sake. */
const MOST = 20_000;

/** All edits as one, around the place where the cursor belongs. */
export function asOne(document: TextDocument, { edits, cursor }: Typed): Carried {
  const text = document.getText();
  const changes = edits
    .map(({ range, newText }) => {
      const { start, end } = toEditorRange(range);
      return { start: document.offsetAt(start), end: document.offsetAt(end), newText };
    })
    .sort((a, b) => a.start - b.start);
  const to = offsetAfter(text, changes, cursor);
  return carry(text, changes, to, 0, "");
}
