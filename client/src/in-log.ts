import { commands, Disposable, type TextDocument, type TextEditor, window, workspace } from "vscode";
import { isLog } from "../../server/src/log/sniff";

/** True while the editor in front holds a repair log: what can only be done to a log is offered only then. */
const IN_LOG = "mendlog.inLog";
/** Lines of front matter looked at; a log names itself in the first of them. */
export const HEAD = 60;

/** Keeps the context key of the menus in step with the editor in front. */
export function followEditor(): Disposable {
  let told: boolean | undefined;
  const tell = (editor: TextEditor | undefined) => {
    const now = editor !== undefined && holdsLog(editor.document);
    if (now === told) return;
    told = now;
    void commands.executeCommand("setContext", IN_LOG, now);
  };
  tell(window.activeTextEditor);
  return Disposable.from(
    window.onDidChangeActiveTextEditor(tell),
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (document !== window.activeTextEditor?.document) return;
      if (contentChanges.some(({ range }) => range.start.line < HEAD)) tell(window.activeTextEditor);
    }),
  );
}

/** A look at the first lines: most Markdown is no repair log and is to cost nothing. */
export function holdsLog(document: TextDocument): boolean {
  if (document.languageId !== "markdown" || !document.lineAt(0).text.includes("---")) return false;
  const lines = Array.from({ length: Math.min(HEAD, document.lineCount) }, (_, n) => document.lineAt(n).text);
  return isLog(lines.join("\n"));
}
