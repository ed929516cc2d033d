import { type Position, type TextEditor, workspace } from "vscode";

/** Characters that the editor puts in as they are typed, and nothing beside them. */
const PLAIN = /^[\p{L}\p{N} .,;:+\-~≈<>=/%°µΩ#]+$/u;

/** What is typed behind a key until it has done its work. */
export interface Ahead {
  /** Where the key was pressed. */
  readonly at: Position;
  /** What was typed there since; undefined once the text was changed in any other way. */
  readonly text: string | undefined;
  dispose(): void;
}

/** Begins where the cursor is, and has to be begun as soon as the key is heard of: changes come in the order of the keys. */
export function typedAhead({ document, selection }: TextEditor): Ahead {
  const at = selection.active;
  let text: string | undefined = "";
  const listening = workspace.onDidChangeTextDocument(({ document: changed, contentChanges }) => {
    if (changed !== document || text === undefined || contentChanges.length === 0) return;
    const [change] = contentChanges;
    const follows = change?.range.isEmpty && change.range.start.isEqual(at.translate(0, text.length));
    text = follows && contentChanges.length === 1 && PLAIN.test(change.text) ? text + change.text : undefined;
  });
  return {
    at,
    get text() {
      return text;
    },
    dispose: () => void listening.dispose(),
  };
}
