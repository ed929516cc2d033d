import { Position, Range, Selection, SnippetString, type TextEditor } from "vscode";
import type { PlacedEdit, Typed } from "../../../server/src/protocol/own/typing";
import { rangeOf } from "../range";
import { type Outcome, sayReadOnly, tookEdit } from "../took-edit";

/** Milliseconds in which it is asked anew where something was typed meanwhile: a person leaves longer gaps than an answer takes. */
const PATIENCE = 5_000;

export type Placed = "done" | "nothing" | "refused" | "gone";

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
): Promise<Placed> {
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
): Promise<Outcome> {
  const stops = { undoStopBefore: !joinsLast, undoStopAfter: true };
  const at = new Position(cursor.line, cursor.character);
  const [only] = edits;
  const parts = only && edits.length === 1 ? around(only, at) : undefined;
  // A snippet brings the cursor along: no key can come between the text and the cursor's move.
  if (only && parts) {
    const snippet = new SnippetString().appendText(parts.before).appendTabstop(0).appendText(parts.after);
    return tookEdit(editor.document, () => editor.insertSnippet(snippet, rangeOf(only.range), stops));
  }
  if (edits.length > 0) {
    const outcome = await tookEdit(editor.document, () =>
      editor.edit((builder) => {
        for (const edit of edits) builder.replace(rangeOf(edit.range), edit.newText);
      }, stops),
    );
    if (outcome !== "taken") return outcome;
  }
  editor.selection = new Selection(at, at);
  editor.revealRange(new Range(at, at));
  return "taken";
}

/** The text of an edit before and behind a place in the text after it; undefined where the place is not in it. */
function around({ range, newText }: PlacedEdit, at: Position) {
  const lines = newText.split(/\r\n|\r|\n/);
  const line = at.line - range.start.line;
  const own = lines[line];
  if (own === undefined) return undefined;
  const character = at.character - (line === 0 ? range.start.character : 0);
  if (character < 0 || character > own.length) return undefined;
  const before = [...lines.slice(0, line), own.slice(0, character)].join("\n");
  const after = [own.slice(character), ...lines.slice(line + 1)].join("\n");
  return { before, after };
}
