// The keys of a readings table. What they do is worked out by the server; here it is asked for and put in place.
import {
  commands,
  Disposable,
  type Position,
  type TextDocument,
  type TextEditor,
  window,
  workspace,
} from "vscode";
import {
  type CursorDirection,
  NEXT_CELL,
  START_ROW,
  TAKE_BACK,
} from "../../../server/src/protocol/custom-requests/typing";
import { holdsLog } from "../in-log";
import type { Feature, Mendlog } from "../mendlog";
import { advancing } from "./advance";
import { type Ahead, typedAhead } from "./ahead";
import { placeInEditor } from "./apply";
import { breakLine } from "./break-line";
import { followGrown } from "./grown";
import { heardAtOnce } from "./heard-at-once";
import { followTable } from "./in-table";
import { followTyping } from "./last-typed";
import { pasting } from "./paste";
import { pressInTurn } from "./press";
import { putInOrder } from "./put-in-order";
import { sayVerdicts } from "./say-verdict";
import { followSnippets } from "./snippets";

/** Enter, Tab and Shift+Tab in a readings table. */
export const typing: Feature = (mendlog) => {
  const table = followTable(mendlog);
  const lastTyped = followTyping();
  const grown = followGrown();
  const advance = advancing(mendlog, usual, () => table.look());
  /** The keys that are being worked on: one pressed meanwhile waits for them and is not lost. */
  let running: { readonly editor: TextEditor; readonly ahead: Ahead } | undefined;
  const go = (direction: CursorDirection) => async () => {
    const editor = window.activeTextEditor;
    if (!editor) return;
    if (running?.editor === editor && !running.ahead.lost) return running.ahead.press(direction);
    // What the keys do to a selection or at several cursors is the editor's own.
    if (editor.selections.length > 1 || !editor.selection.isEmpty) return void (await usual(direction));
    if (!running && table.advances) return advance.press(editor, lastTyped.end(editor), direction);
    const ahead = typedAhead(editor, direction);
    running = { editor, ahead };
    const uri = editor.document.uri.toString();
    // Typed faster than the key's meaning follows, it was no table's line any more: the key must not wait for an answer.
    const ask = async ({ line, character }: Position, towards: CursorDirection, behind: number) =>
      line < editor.document.lineCount && editor.document.lineAt(line).text.includes("|")
        ? mendlog.request(NEXT_CELL, { uri, position: { line, character }, direction: towards, behind })
        : null;
    const left = new Set<number>();
    const otherwise = async (keys: Ahead) => {
      if (window.activeTextEditor !== editor) return false;
      const towards = keys.keys[0]?.direction ?? direction;
      if (towards === "row") return breakLine(editor, keys);
      await usual(towards);
      return false;
    };
    try {
      await pressInTurn(editor, ahead, ask, otherwise, left);
    } finally {
      ahead.dispose();
      if (running?.ahead === ahead) running = undefined;
    }
    table.look();
    for (const line of left) await putInOrder(mendlog, editor, line);
  };
  let filling: { readonly document: TextDocument; readonly from: Position | undefined } | undefined;
  const begun =
    ({ fills = false } = {}) =>
    async () => {
      const editor = window.activeTextEditor;
      if (!editor) return;
      const uri = editor.document.uri.toString();
      grown.begun(editor.document, lastTyped.end(editor).line);
      // Until the first of several such keys is answered, those behind it were pressed on its line, and mean what it does.
      if (fills) filling = { document: editor.document, from: lastTyped.cellAbove(editor) };
      const own = filling?.document === editor.document ? filling : undefined;
      const ask = () => {
        const { line, character } = lastTyped.end(editor);
        const from = own?.from && isRightBelow(editor.document, own.from.line, line) ? own.from : undefined;
        const cell = from && { line: from.line, character: from.character };
        return mendlog.request(START_ROW, {
          uri,
          position: { line, character },
          ...(cell && { from: cell }),
        });
      };
      const placed = await placeInEditor(editor, ask, { joinsLast: true });
      if (filling === own) filling = undefined;
      if (placed === "done") grown.begun(editor.document, editor.selection.active.line);
      table.look();
    };
  return Disposable.from(
    table,
    lastTyped,
    grown,
    advance,
    followSnippets(),
    heardAtOnce({
      "mendlog.nextRow": go("row"),
      "mendlog.nextCell": go("next"),
      "mendlog.previousCell": go("previous"),
      // Run right behind the line break, which the editor makes itself: what is typed meanwhile is not lost.
      "mendlog.startRow": begun(),
      "mendlog.fillBelow": begun({ fills: true }),
      "mendlog.undoReading": advance.undo,
    }),
    takeBackRows(mendlog),
    pasting(mendlog),
    sayVerdicts(mendlog),
  );
};

/** No row between a row and a line further down. */
function isRightBelow(document: TextDocument, row: number, line: number): boolean {
  for (let at = row + 1; at <= Math.min(line, document.lineCount - 1); at += 1)
    if (document.lineAt(at).text.includes("|")) return false;
  return row < line;
}

/** What the keys do anywhere else. */
const usual = (direction: CursorDirection): Thenable<unknown> =>
  direction === "row"
    ? commands.executeCommand("type", { text: "\n" })
    : commands.executeCommand(direction === "next" ? "tab" : "outdent");

/** A pipe typed into a row that was only just started: the row is being typed by hand. */
function takeBackRows(mendlog: Mendlog): Disposable {
  return workspace.onDidChangeTextDocument(async ({ document, contentChanges }) => {
    const editor = window.activeTextEditor;
    if (document !== editor?.document || contentChanges.length !== 1) return;
    const [change] = contentChanges;
    if (change?.text !== "|" || !mendlog.started || !holdsLog(document)) return;
    const { line, character } = change.range.start;
    const at = { uri: document.uri.toString(), position: { line, character } };
    await placeInEditor(editor, () => mendlog.request(TAKE_BACK, at), { joinsLast: true });
  });
}
