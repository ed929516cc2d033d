import { Disposable, type Position, type TextDocument, type TextEditor, window, workspace } from "vscode";

export interface LastTyped {
  /** Where the cursor is, also while the editor has told of the text that was typed and not yet of the cursor. */
  end(editor: TextEditor): Position;
  /** Where the cursor was last in a row right above the lines that were begun there; undefined where it was in none. */
  cellAbove(editor: TextEditor): Position | undefined;
  dispose(): void;
}

export function followTyping(): LastTyped {
  let last: { readonly document: TextDocument; readonly version: number; readonly end: Position } | undefined;
  let row: { readonly document: TextDocument; readonly at: Position } | undefined;
  const note = (document: TextDocument, at: Position) => {
    if (at.line < document.lineCount && document.lineAt(at.line).text.includes("|")) row = { document, at };
  };
  const moving = window.onDidChangeTextEditorSelection(({ textEditor: { document, selection } }) =>
    note(document, selection.active),
  );
  const listening = workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
    const [change] = contentChanges;
    // The editor tells with no change at all that a document was saved or is to be.
    if (!change) return;
    // What is typed is one change; anything else moves the cursor in its own way.
    last =
      contentChanges.length === 1
        ? {
            document,
            version: document.version,
            end: document.positionAt(document.offsetAt(change.range.start) + change.text.length),
          }
        : undefined;
    if (last && change.range.isSingleLine && !/[\r\n]/.test(change.text)) note(document, last.end);
  });
  return {
    cellAbove: ({ document }) => (row?.document === document ? row.at : undefined),
    end: ({ document, selection }) =>
      last?.document === document && last.version === document.version && isBehind(last.end, selection.active)
        ? last.end
        : selection.active,
    dispose: () => void Disposable.from(listening, moving).dispose(),
  };
}

/** A cursor that is told of late is still before what was typed; one that has gone on is somewhere else. */
const isBehind = (end: Position, cursor: Position): boolean =>
  cursor.isBefore(end) && end.line - cursor.line <= 1;
