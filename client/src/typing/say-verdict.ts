// Says the verdict of a reading once the cursor has left its cell: the eyes are on the board or do not see, and the
// cursor is at the next cell by then.
import {
  Disposable,
  l10n,
  type Position,
  StatusBarAlignment,
  type TextDocumentChangeEvent,
  type TextEditor,
  window,
  workspace,
} from "vscode";
import { VERDICT } from "../../../server/src/protocol/custom-requests/capture";
import { holdsLog } from "../in-log";
import { isMeterWriting, onVerdict, tellVerdict } from "../last-verdict";
import type { Mendlog } from "../mendlog";
import { toEditorRange } from "../range";
import { isOutside } from "../verdict";
import { putInOrder } from "./put-in-order";

/** Verdicts that there is something to say of; an empty cell and a word nobody judges have none. */
const SAID = new Set(["impossible", "out-of-limits", "suspect", "within-limits"]);
/** Longer than any reading: what is pasted at once is not one that was typed. */
const LONGEST = 40;

export function sayVerdicts(mendlog: Mendlog): Disposable {
  const item = window.createStatusBarItem("mendlog.lastTyped", StatusBarAlignment.Left, 9);
  item.name = l10n.t("Verdict of the reading just typed");
  /** Where the last character was typed, in a cell that the cursor has not left yet. */
  let typed: { readonly uri: string; readonly at: Position } | undefined;
  let asked = 0;

  const noticed = ({ document, contentChanges }: TextDocumentChangeEvent) => {
    if (isMeterWriting()) return;
    const [change] = contentChanges;
    if (!change || contentChanges.length !== 1 || document !== window.activeTextEditor?.document) return;
    if (change.text.length > LONGEST || /[\r\n|]/.test(change.text) || !change.range.isSingleLine) return;
    if (!mendlog.started || !holdsLog(document)) return;
    const { start } = change.range;
    if (start.line < document.lineCount && document.lineAt(start.line).text.includes("|"))
      typed = { uri: document.uri.toString(), at: start };
  };

  const left = async (editor: TextEditor | undefined) => {
    if (!typed) return;
    const { uri, at } = typed;
    if (editor?.document.uri.toString() === uri && inSameCell(editor, at)) return;
    typed = undefined;
    if (editor?.document.uri.toString() === uri) await putInOrder(mendlog, editor, at.line);
    asked += 1;
    const own = asked;
    const verdict = await mendlog.request(VERDICT, {
      uri,
      position: { line: at.line, character: at.character },
    });
    if (own !== asked) return;
    const document = workspace.textDocuments.find((each) => each.uri.toString() === uri);
    if (!verdict || !document || !SAID.has(verdict.verdict)) return item.hide();
    const { mark, words, sentence } = verdict;
    const text = document.getText(toEditorRange(verdict.range)).trim();
    item.text = `${mark} ${text}: ${words}`;
    item.tooltip = sentence;
    // A screen reader says what is wrong at once, and the rest when there is a pause.
    item.accessibilityInformation = {
      label: `${text}: ${words}. ${sentence}`,
      role: isOutside(verdict) ? "alert" : "status",
    };
    item.show();
    tellVerdict({ by: "keys", uri, text, verdict });
  };

  return Disposable.from(
    item,
    onVerdict(({ by }) => {
      if (by === "meter") item.hide();
    }),
    workspace.onDidChangeTextDocument(noticed),
    window.onDidChangeTextEditorSelection(({ textEditor }) => {
      if (textEditor === window.activeTextEditor) void left(textEditor);
    }),
    window.onDidChangeActiveTextEditor((editor) => {
      if (!editor || !holdsLog(editor.document)) item.hide();
      void left(editor);
    }),
  );
}

/** No pipe between the cursor and the place. */
function inSameCell({ document, selection }: TextEditor, at: Position): boolean {
  const { active } = selection;
  if (active.line !== at.line || at.line >= document.lineCount) return false;
  const [from, to] = [active.character, at.character].sort((a, b) => a - b) as [number, number];
  return !document.lineAt(at.line).text.slice(from, to).includes("|");
}
