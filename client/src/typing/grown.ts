// A row that Enter or the guide began is a step to undo of its own, and so is the reading typed into it. While nothing is
// typed into such a row, undo takes it back together with the reading before it.
import {
  commands,
  Disposable,
  EventEmitter,
  type TextDocument,
  TextDocumentChangeReason,
  window,
  workspace,
} from "vscode";

/** True while the cursor is in a row that was only begun, and nothing else was done since. */
const BEGUN = "mendlog.rowBegun";

/** A line that another feature led to with an edit, right behind a reading that was typed. */
export const ledOn = new EventEmitter<{ readonly document: TextDocument; readonly line: number }>();

export interface Grown {
  /** Says that the line was begun by Enter, as it stands now. */
  begun(document: TextDocument, line: number): void;
  dispose(): void;
}

export function followGrown(): Grown {
  let own: TextDocument | undefined;
  /** The lines begun so far as they stood, empty or with what was told of the row: undo makes them so again. */
  const lines = new Map<number, Set<string>>();
  let isLast = false;
  let told = false;
  const tell = () => {
    const editor = window.activeTextEditor;
    const at = editor?.selection.active.line ?? 0;
    const now =
      isLast &&
      editor?.document === own &&
      at < (own?.lineCount ?? 0) &&
      lines.get(at)?.has(own?.lineAt(at).text ?? "") === true;
    if (now === told) return;
    told = now;
    void commands.executeCommand("setContext", BEGUN, now);
  };
  const following = Disposable.from(
    workspace.onDidChangeTextDocument(({ document, contentChanges, reason }) => {
      if (document !== own || contentChanges.length === 0) return;
      isLast = reason === TextDocumentChangeReason.Undo;
      tell();
    }),
    window.onDidChangeTextEditorSelection(tell),
    window.onDidChangeActiveTextEditor(tell),
    workspace.onDidCloseTextDocument((document) => {
      if (document !== own) return;
      own = undefined;
      lines.clear();
    }),
  );
  const begun: Grown["begun"] = (document, line) => {
    if (document !== own) lines.clear();
    own = document;
    if (line >= document.lineCount) return;
    const texts = lines.get(line) ?? new Set();
    lines.set(line, texts.add(document.lineAt(line).text));
    isLast = true;
    tell();
  };
  const led = ledOn.event(({ document, line }) => begun(document, line));
  return {
    begun,
    dispose: () => {
      led.dispose();
      following.dispose();
    },
  };
}
