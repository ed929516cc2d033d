// The keys of a readings table. What they do is worked out by the server; here it is asked for and put in place.
import { commands, Disposable, type Position, window, workspace } from "vscode";
import { type Direction, NEXT_CELL, START_ROW, TAKE_BACK } from "../../../server/src/protocol/own/typing";
import { holdsLog } from "../in-log";
import type { Feature, Mendlog } from "../mendlog";
import { typedAhead } from "./ahead";
import { placeInEditor } from "./apply";
import { breakLine } from "./break-line";
import { followTable } from "./in-table";
import { followTyping } from "./last-typed";
import { pasting } from "./paste";
import { press } from "./press";
import { sayVerdicts } from "./say-verdict";

/** Enter, Tab and Shift+Tab in a readings table. */
export const typing: Feature = (mendlog) => {
  const table = followTable(mendlog);
  const lastTyped = followTyping();
  const go = (direction: Direction) => async () => {
    const editor = window.activeTextEditor;
    if (!editor) return;
    // What the keys do to a selection or at several cursors is the editor's own.
    if (editor.selections.length > 1 || !editor.selection.isEmpty) return void (await usual(direction));
    // Typed faster than the key's meaning follows, it was no table's line any more: the key must not wait for an answer.
    const ahead = typedAhead(editor);
    try {
      const inRow = editor.document.lineAt(ahead.at.line).text.includes("|");
      const uri = editor.document.uri.toString();
      const ask = ({ line, character }: Position) =>
        mendlog.request(NEXT_CELL, { uri, position: { line, character }, direction });
      const done = inRow ? await press(editor, ahead, ask) : "nothing";
      if (done === "nothing" && window.activeTextEditor === editor)
        await (direction === "row" ? breakLine(editor, ahead) : usual(direction));
    } finally {
      ahead.dispose();
    }
    table.look();
  };
  return Disposable.from(
    table,
    lastTyped,
    commands.registerCommand("mendlog.nextRow", go("row")),
    commands.registerCommand("mendlog.nextCell", go("next")),
    commands.registerCommand("mendlog.previousCell", go("previous")),
    // Runs right behind the line break, which the editor makes itself: what is typed meanwhile is not lost.
    commands.registerCommand("mendlog.startRow", async () => {
      const editor = window.activeTextEditor;
      if (!editor) return;
      const uri = editor.document.uri.toString();
      const behind = () => {
        const { line, character } = lastTyped.end(editor);
        return { line, character };
      };
      await placeInEditor(editor, () => mendlog.request(START_ROW, { uri, position: behind() }), {
        joinsLast: true,
      });
      table.look();
    }),
    // A reading was taken from the list of suggestions: the same key that took it goes on.
    commands.registerCommand("mendlog.afterValue", () =>
      table.enterDoes === "row"
        ? commands.executeCommand("runCommands", {
            commands: ["editor.action.insertLineAfter", "mendlog.startRow"],
          })
        : go("row")(),
    ),
    takeBackRows(mendlog),
    pasting(mendlog),
    sayVerdicts(mendlog),
  );
};

/** What the keys do anywhere else. */
const usual = (direction: Direction): Thenable<unknown> =>
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
