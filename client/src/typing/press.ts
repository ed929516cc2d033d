import { Position, Range, SnippetString, type TextEditor } from "vscode";
import type { Typed } from "../../../server/src/protocol/own/typing";
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
    const { text } = ahead;
    const outcome = await (text !== ""
      ? placeTyped(editor, typed, ahead.at, text)
      : typed.edits.length > 0
        ? place(editor, typed, false)
        : moveTo(editor, typed.cursor));
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
  at: Position,
  typed: string,
): Promise<Outcome> {
  const { document } = editor;
  const now = document.getText();
  const key = document.offsetAt(at);
  const before = now.slice(0, key) + now.slice(key + typed.length);
  const changes = edits
    .map(({ range: { start, end }, newText }) => ({
      start: offsetAfter(before, [], start),
      end: offsetAfter(before, [], end),
      newText,
    }))
    .sort((a, b) => a.start - b.start);
  const one = carry(before, changes, offsetAfter(before, changes, cursor), key, typed);
  const range = new Range(document.positionAt(one.start), document.positionAt(one.end));
  const snippet = new SnippetString().appendText(one.before).appendTabstop(0).appendText(one.after);
  return tookEdit(document, () => editor.insertSnippet(snippet, range));
}

/** An empty snippet moves the cursor only where nothing was typed meanwhile; it is no change that could be waited for. */
async function moveTo(editor: TextEditor, { line, character }: Typed["cursor"]): Promise<Outcome> {
  const to = new Position(line, character);
  const stops = { undoStopBefore: false, undoStopAfter: false };
  const nothing = new SnippetString().appendTabstop(0);
  const done = await editor.insertSnippet(nothing, to, stops).then(undefined, () => undefined);
  if (done === undefined) return "gone";
  if (done) editor.revealRange(editor.selection);
  return done ? "taken" : "outrun";
}
