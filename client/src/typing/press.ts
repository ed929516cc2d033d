import { Position, Range, SnippetString, type TextEditor } from "vscode";
import type { CursorDirection, Typed } from "../../../server/src/protocol/custom-requests/typing";
import { type EditOutcome, sayReadOnly, tookEdit } from "../took-edit";
import type { Ahead } from "./ahead";
import { placeInEditor } from "./apply";
import { carry, offsetAfter } from "./carry";

/** Times that more may be typed while the edit is on its way. */
const TRIES = 50;

/** `behind`: characters typed behind the place since, which are none of its cell. */
type Ask = (at: Position, direction: CursorDirection, behind: number) => Promise<Typed | null>;

/**
 * Does what keys do, one after the other, by the text as it was when each was pressed. What was typed behind a key before
 * its answer came goes where the key leads, as it would had the answer been at once, and takes the keys behind it along.
 * @param ask asks for what a key does at a place
 * @param left gets the number of each line that a key has led away from
 * @param otherwise does what a key does where it means what it always means; true where the next key's place is known
 */
export async function pressInTurn(
  editor: TextEditor,
  ahead: Ahead,
  ask: Ask,
  otherwise: (ahead: Ahead) => Promise<boolean>,
  left: Set<number>,
): Promise<void> {
  for (let key = ahead.keys[0]; key; key = ahead.keys[0]) {
    const { direction } = key;
    const { at, text } = ahead;
    const answer = await ask(at, direction, text.length);
    const typed = answer && without(answer, at, text.length);
    if (editor.document.isClosed) return;
    if (!typed && !ahead.lost) {
      if (!(await otherwise(ahead))) return;
      continue;
    }
    let outcome: EditOutcome = "outrun";
    for (let tries = 0; tries < TRIES && !ahead.lost && outcome === "outrun" && typed; tries += 1) {
      outcome = await place(editor, typed, ahead);
    }
    if (outcome === "taken" && text !== "") left.add(at.line);
    if (outcome === "refused") return sayReadOnly();
    if (outcome === "gone") return;
    if (outcome === "outrun") {
      // More was done than typing on: what the key means is asked of the text as it is now.
      await placeInEditor(editor, () => ask(editor.selection.active, direction, 0));
      return;
    }
  }
}

/** The answer as it were, had nothing been typed behind the place. */
function without({ edits, cursor }: Typed, at: Position, behind: number): Typed {
  const back = ({ line, character }: Typed["cursor"]): Typed["cursor"] => ({
    line,
    character:
      line === at.line && character > at.character ? Math.max(at.character, character - behind) : character,
  });
  return {
    edits: edits.map(({ range: { start, end }, newText }) => ({
      range: { start: back(start), end: back(end) },
      newText,
    })),
    cursor: back(cursor),
  };
}

/** Where the key behind this one was pressed, once what was typed between them stands at the new place. */
const nextPlace = ({ line, character }: Typed["cursor"], { keys }: Ahead): Position =>
  new Position(line, character + (keys[0]?.text.length ?? 0));

async function place(editor: TextEditor, typed: Typed, ahead: Ahead): Promise<EditOutcome> {
  const { edits, cursor } = typed;
  const { at, text } = ahead;
  if (text === "" && edits.length === 0) {
    const moved = await moveTo(editor, cursor);
    if (moved === "taken") ahead.done(new Position(cursor.line, cursor.character));
    return moved;
  }
  const { document } = editor;
  const now = document.getText();
  const key = document.offsetAt(at);
  const before = now.slice(0, key) + now.slice(key + text.length);
  const changes = edits
    .map(({ range: { start, end }, newText }) => ({
      start: offsetAfter(before, [], start),
      end: offsetAfter(before, [], end),
      newText,
    }))
    .sort((a, b) => a.start - b.start);
  const one = carry(before, changes, offsetAfter(before, changes, cursor), key, text);
  const range = new Range(document.positionAt(one.start), document.positionAt(one.end));
  const snippet = new SnippetString().appendText(one.before).appendTabstop(0).appendText(one.after);
  ahead.expect(one.before + one.after, nextPlace(cursor, ahead));
  return tookEdit(document, () => editor.insertSnippet(snippet, range));
}

/** An empty snippet moves the cursor only where nothing was typed meanwhile; it is no change that could be waited for. */
async function moveTo(editor: TextEditor, { line, character }: Typed["cursor"]): Promise<EditOutcome> {
  const to = new Position(line, character);
  const stops = { undoStopBefore: false, undoStopAfter: false };
  const nothing = new SnippetString().appendTabstop(0);
  const done = await editor.insertSnippet(nothing, to, stops).then(undefined, () => undefined);
  if (done === undefined) return "gone";
  if (done) editor.revealRange(editor.selection);
  return done ? "taken" : "outrun";
}
