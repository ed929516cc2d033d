import { type Position, Range, SnippetString, type TextEditor } from "vscode";
import type { Typed } from "../../../server/src/protocol/own/typing";
import { rangeOf } from "../range";
import { type Outcome, sayReadOnly, tookEdit } from "../took-edit";
import type { Ahead } from "./ahead";
import { type Placed, place, placeInEditor } from "./apply";
import { carry, offsetAfter } from "./carry";

/** Times that more may be typed while the edit is on its way. */
const TRIES = 20;

/**
 * Puts in place what a key does by the text as it was when the key was pressed. What was typed behind it before the
 * answer came goes where the key leads, as it would had the answer been at once.
 * @param ask asks for what the key does at a place
 * @returns as `placeInEditor`
 */
export async function press(
  editor: TextEditor,
  ahead: Ahead,
  ask: (at: Position) => Promise<Typed | null>,
): Promise<Placed> {
  const typed = await ask(ahead.at);
  if (editor.document.isClosed) return "gone";
  for (let tries = 0; tries < TRIES && ahead.text !== undefined; tries += 1) {
    if (!typed) return "nothing";
    const outcome = await (ahead.text === "" && typed.edits.length > 0
      ? place(editor, typed, false)
      : placeTyped(editor, typed, ahead, ahead.text));
    if (outcome === "taken") return "done";
    if (outcome === "gone") return "gone";
    if (outcome === "refused") {
      sayReadOnly();
      return "refused";
    }
  }
  // More was done than typing on: what the key means is asked of the text as it is now.
  return placeInEditor(editor, () => ask(editor.selection.active));
}

async function placeTyped(
  editor: TextEditor,
  { edits, cursor }: Typed,
  ahead: Ahead,
  text: string,
): Promise<Outcome> {
  const { document } = editor;
  const offsetIn = offsetsOf(ahead.before);
  const changes = edits
    .map(({ range, newText }) => {
      const { start, end } = rangeOf(range);
      return { start: offsetIn(start), end: offsetIn(end), newText };
    })
    .sort((a, b) => a.start - b.start);
  const to = offsetAfter(ahead.before, changes, cursor);
  const one = carry(ahead.before, changes, to, offsetIn(ahead.at), text);
  const range = new Range(document.positionAt(one.start), document.positionAt(one.end));
  const snippet = new SnippetString().appendText(one.before).appendTabstop(0).appendText(one.after);
  if (text !== "") return tookEdit(document, () => editor.insertSnippet(snippet, range));
  // Nothing but the cursor moves, which is no change to be waited for.
  const stops = { undoStopBefore: false, undoStopAfter: false };
  const done = await editor.insertSnippet(snippet, range, stops).then(undefined, () => undefined);
  if (done === undefined) return "gone";
  if (done) editor.revealRange(editor.selection);
  return done ? "taken" : "outrun";
}

const offsetsOf = (text: string) => (place: Position) => offsetAfter(text, [], place);
