import type { TextEditor } from "vscode";
import { LEAVE_ROW } from "../../../server/src/protocol/custom-requests/typing";
import type { Mendlog } from "../mendlog";
import { toEditorRange } from "../range";

/** Times it is asked again where something was typed meanwhile. */
const TRIES = 3;

/**
 * A row that was left otherwise than by its keys, with a click or an arrow key, is put in order as they would have left
 * it. The row the cursor is in stays as it is.
 */
export async function putInOrder(mendlog: Mendlog, editor: TextEditor, line: number): Promise<void> {
  const { document } = editor;
  const uri = document.uri.toString();
  for (let tries = 0; tries < TRIES && !document.isClosed && line < document.lineCount; tries += 1) {
    const { version } = document;
    const character = Math.max(0, document.lineAt(line).text.indexOf("|"));
    const edits = await mendlog.request(LEAVE_ROW, { uri, position: { line, character } });
    if (!edits || edits.length === 0 || editor.selection.active.line === line) return;
    if (document.version !== version) continue;
    const stops = { undoStopBefore: false, undoStopAfter: true };
    const done = await editor
      .edit((builder) => {
        for (const { range, newText } of edits) builder.replace(toEditorRange(range), newText);
      }, stops)
      .then(undefined, () => true);
    if (done) return;
  }
}
