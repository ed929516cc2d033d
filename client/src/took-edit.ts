// Whether a document takes what is written into it. The editor tells an extension of no read-only document beforehand
// (only its own when-clauses know), and an edit of one counts as done: what was written has to be looked for.
import { l10n, type TextDocument, window, workspace } from "vscode";

/**
 * - "taken": it is in the text.
 * - "outrun": the text changed before the edit came; ask again where it belongs now.
 * - "refused": the document is read-only.
 * - "gone": its editor is no longer there; nothing was written.
 */
export type EditOutcome = "taken" | "outrun" | "refused" | "gone";

/** Milliseconds after which a change of the text has surely come to hand, on a slow machine too. */
const UNHEARD = 300;

/**
 * Makes an edit and says what became of it.
 * @param edit one that changes something, by the functions of a text editor; they give false where the text has changed
 */
export async function tookEdit(document: TextDocument, edit: () => Thenable<boolean>): Promise<EditOutcome> {
  const before = document.version;
  let done: boolean;
  try {
    done = await edit();
  } catch {
    // Thrown by an editor that was closed or that shows something else by now, and by nothing else.
    return "gone";
  }
  if (document.version !== before) return done ? "taken" : "outrun";
  const heard = await hearsOfChange(document, before);
  if (done) return heard ? "taken" : "refused";
  return heard ? "outrun" : "gone";
}

/** True as soon as the document has another version than before, false when it keeps the one it had. */
export function hearsOfChange(document: TextDocument, before: number): Promise<boolean> {
  return new Promise((resolve) => {
    if (document.version !== before) return resolve(true);
    const end = () => {
      listening.dispose();
      clearTimeout(timer);
      resolve(document.version !== before);
    };
    const timer = setTimeout(end, UNHEARD);
    const listening = workspace.onDidChangeTextDocument((event) => {
      if (event.document === document && document.version !== before) end();
    });
  });
}

/** True where nothing can ever be written: an older state of a file, another program's view. False does not say it can. */
export const isNeverWritten = ({ uri }: TextDocument): boolean =>
  workspace.fs.isWritableFileSystem(uri.scheme) === false;

/** What to do about a document that is read-only, as the end of a sentence or behind it. */
export const readOnlyWay = (): string =>
  l10n.t('"File: Set Active Editor Writeable in Session" lets you write into a file of your own.');

/** Tells a person why nothing was written, and how the document can be made writable. */
export function sayReadOnly(): void {
  void window.showWarningMessage(
    l10n.t("This document is read-only, so nothing was written. {0}", readOnlyWay()),
  );
}
