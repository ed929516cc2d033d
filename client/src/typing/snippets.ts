// The keys of a table that was just inserted go from stop to stop in the editor itself. What the editor cannot tell is told
// here: that another snippet was inserted, in which Enter is a line break, and that a click went to another cell, from where
// the stops would go on at the cell that was left.
import {
  commands,
  Disposable,
  type TextDocument,
  TextEditorSelectionChangeKind,
  window,
  workspace,
} from "vscode";
import { holdsLog } from "../in-log";

/** True in a snippet that is no table. Whatever is not known yet is taken for a table: its keys must not wait. */
const OTHER = "mendlog.otherSnippet";

export function followSnippets(): Disposable {
  let other: { readonly document: TextDocument; readonly first: number; readonly last: number } | undefined;
  let told = false;
  const tell = () => {
    const now = other !== undefined;
    if (now === told) return;
    told = now;
    void commands.executeCommand("setContext", OTHER, now);
  };
  return Disposable.from(
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      const [change] = contentChanges;
      if (!change || contentChanges.length > 1 || document !== window.activeTextEditor?.document) return;
      const { text, range } = change;
      const { line } = range.start;
      if (text.length < 2 || line >= document.lineCount || !holdsLog(document)) return;
      const isTable = /\|/.test(text) || document.lineAt(line).text.includes("|");
      other = isTable ? undefined : { document, first: line, last: line + text.split("\n").length };
      tell();
    }),
    window.onDidChangeTextEditorSelection(({ textEditor: { document, selection }, kind }) => {
      const { line } = selection.active;
      if (other && (document !== other.document || line < other.first || line > other.last)) {
        other = undefined;
        tell();
      }
      if (kind !== TextEditorSelectionChangeKind.Mouse || other || line >= document.lineCount) return;
      if (document.lineAt(line).text.includes("|") && holdsLog(document))
        void commands.executeCommand("leaveSnippet");
    }),
  );
}
